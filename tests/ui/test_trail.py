"""From a number to its rows, to an athlete, to the method and its query; and step by step back."""

from seasonboard.answers.all_cards import ALL_CARDS
from seasonboard.store.catalogue import catalogue
from seasonboard.ui.compare.screen import CompareScreen
from seasonboard.ui.windows.method_card import CardScreen
from seasonboard.ui.windows.query_text import QueryScreen
from seasonboard.ui.windows.rows import RowsScreen
from tests.ui.board import opened, page, press, text
from tests.ui.stand_in import StandIn


async def test_trail_names_every_step_and_escape_takes_one_back():
    answer_source = StandIn()
    async with opened(answer_source, size=(120, 40)) as pilot:
        views = [text(pilot)]
        for keys, told in (
            (("enter",), "Compare › Injuries"),
            (("down", "enter"), "Compare › Injuries › Name of A (A)"),
            (("m",), "Compare › Injuries › Name of A (A) › "),
            (("s",), ".sql"),
        ):
            await press(pilot, *keys)
            assert told in text(pilot)
            views.append(text(pilot))
        kinds = [QueryScreen, CardScreen, RowsScreen, RowsScreen, CompareScreen]
        for kind in kinds:
            assert isinstance(pilot.app.screen, kind)
            await press(pilot, "escape")
        assert text(pilot) == views[0]


async def test_a_row_of_nobody_says_so():
    async with opened() as pilot:
        await press(pilot, "enter", "enter")
        assert "This row is not of one athlete." in text(pilot)


async def test_method_of_the_rows_is_that_of_their_number():
    async with opened() as pilot:
        block = page(pilot).block
        assert block is not None
        await press(pilot, "enter", "m")
        assert isinstance(pilot.app.screen, CardScreen)
        assert ALL_CARDS[block.card].title in text(pilot)


async def test_card_leads_to_the_text_of_its_query_with_the_header():
    async with opened(size=(120, 40)) as pilot:
        block = page(pilot).block
        assert block is not None
        name = ALL_CARDS[block.card].query
        await press(pilot, "m", "s")
        shown = text(pilot)
        assert f"queries/{name}.sql" in shown
        first = catalogue()[name].sql.splitlines()[0]
        assert first.startswith("-- question:")
        assert first[:60] in shown


def test_every_card_names_a_question_that_there_is():
    assert {card.query for card in ALL_CARDS.values()} <= set(catalogue())
