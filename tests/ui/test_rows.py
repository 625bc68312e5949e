"""From a number to its rows, to an athlete, to the method and its query; and step by step back."""

import pytest
from textual.widgets import DataTable

from seasonboard.answers.all_cards import ALL_CARDS
from seasonboard.store.catalogue import catalogue
from seasonboard.ui.compare.screen import CompareScreen
from seasonboard.ui.windows.method_card import CardScreen, QueryScreen
from seasonboard.ui.windows.rows import RowsScreen
from tests.ui.board import LARGE, opened, page, press, text, until
from tests.ui.stand_in import StandIn


@pytest.mark.parametrize("size", [LARGE])
async def test_trail_names_every_step_and_escape_takes_one_back(pilot):
    first, card = text(pilot), ALL_CARDS[page(pilot).block.card]
    for keys, shown in (
        (("enter",), "Compare › Injuries"),
        (("down", "enter"), "Compare › Injuries › Name of A (A)"),
        (("m",), "Compare › Injuries › Name of A (A) › "),
        (("s",), ".sql"),
    ):
        await press(pilot, *keys)
        assert shown in text(pilot)
        assert "invented sample season" in text(pilot) or keys != ("enter",)
    for kind in (QueryScreen, CardScreen, RowsScreen, RowsScreen, CompareScreen):
        assert isinstance(pilot.app.screen, kind)
        await press(pilot, "escape")
    assert text(pilot) == first
    await press(pilot, "enter", "enter")
    assert "This row is not of one athlete." in text(pilot)
    await press(pilot, "m")
    assert card.title in text(pilot), "the method of rows is that of their number"
    await press(pilot, "s")
    assert f"queries/{card.query}.sql" in text(pilot)
    header = catalogue()[card.query].sql.splitlines()[0]
    assert header.startswith("-- question:")
    assert header[:60] in text(pilot)


def test_every_card_names_a_question_that_there_is():
    assert {card.query for card in ALL_CARDS.values()} <= set(catalogue())


async def test_table_tells_how_many_rows_there_are_and_finds_among_them():
    async with opened(StandIn(total=1234)) as pilot:
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


async def test_keys_and_clicks_on_headings_sort_and_the_last_key_ends_in_the_first_order(pilot):
    await press(pilot, "enter")
    for mark in ("name ▴", "days lost ▴", "athlete ▴", ""):
        await press(pilot, "o")
        assert mark in text(pilot)
    for key in ((), ("O",)):
        await press(pilot, *key)
        assert not {"▴", "▾"} & set(text(pilot))
    table = pilot.app.screen.query_one(DataTable)
    column = text(pilot).splitlines()[3].index("days lost")
    for mark, first, last in (("▴", "10", "–"), ("▾", "50", "–"), ("▴", "10", "–")):
        await pilot.click(offset=(column, 3))
        await press(pilot)
        assert f"days lost {mark}" in text(pilot)
        cells = [str(table.get_row_at(number)[1]) for number in range(table.row_count)]
        assert (cells[0], cells[-1]) == (first, last)


async def test_column_that_is_sorted_by_is_brought_into_sight():
    async with opened(StandIn(names=("a name " * 12, "b")), size=(60, 15)) as pilot:
        await press(pilot, "enter")
        await until(pilot, lambda: "a name" in text(pilot))
        assert "days lost" not in text(pilot)
        await press(pilot, "o", "o")
        await until(pilot, lambda: "days lost ▴" in text(pilot))
        await press(pilot, "o", "o", "o")
        await until(pilot, lambda: "name ▴" in text(pilot))
