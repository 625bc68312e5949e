"""The rows behind a number: found, sorted, and told how many there are."""

from textual.widgets import DataTable

from seasonboard.ui.compare.screen import CompareScreen
from tests.ui.board import opened, press, text
from tests.ui.stand_in import StandIn


async def test_table_tells_how_many_rows_there_are_and_finds_among_them():
    answer_source = StandIn(total=1234)
    async with opened(answer_source) as pilot:
        await press(pilot, "enter")
        assert "1,234 rows · 1 to 6" in text(pilot)
        await press(pilot, "slash", *"lee")
        assert pilot.app.screen.query_one(DataTable).row_count == 2
        assert "2 of 1,234 rows found" in text(pilot)
        await press(pilot, "enter")
        assert isinstance(pilot.app.focused, DataTable)
        await press(pilot, "escape")
        assert pilot.app.screen.query_one(DataTable).row_count == 6
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, CompareScreen)


async def test_a_click_on_a_heading_sorts_by_it_and_a_second_one_turns_the_order():
    async with opened() as pilot:
        await press(pilot, "enter")
        table = pilot.app.screen.query_one(DataTable)
        column = text(pilot).splitlines()[3].index("days lost")
        for mark, first, last in (("▴", "10", "–"), ("▾", "50", "–"), ("▴", "10", "–")):
            await pilot.click(offset=(column, 3))
            await press(pilot)
            assert f"days lost {mark}" in text(pilot)
            cells = [str(table.get_row_at(number)[1]) for number in range(table.row_count)]
            assert (cells[0], cells[-1]) == (first, last)


async def test_sort_key_walks_the_columns_and_ends_in_the_first_order():
    async with opened() as pilot:
        await press(pilot, "enter")
        for told in ("name ▴", "days lost ▴", "athlete ▴", ""):
            await press(pilot, "o")
            assert told in text(pilot)
        assert not {"▴", "▾"} & set(text(pilot))
        await press(pilot, "O")
        assert not {"▴", "▾"} & set(text(pilot))


async def test_column_that_is_sorted_by_is_brought_into_sight():
    async with opened(StandIn(names=("a name " * 12, "b")), size=(60, 15)) as pilot:
        await press(pilot, "enter")
        assert "days lost" not in text(pilot)
        await press(pilot, "o", "o")
        assert "days lost ▴" in text(pilot)
        await press(pilot, "o", "o", "o")
        assert "name ▴" in text(pilot)
