"""While the curtain is down nothing on any screen names a person; lifted, all is as before."""

import re

import pytest
from textual.widgets import DataTable, Input

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.board.answer_screen import Request
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.layout.blocks import Opens, What
from seasonboard.ui.widgets.lines import CURTAIN
from seasonboard.ui.windows.rows import RowsScreen
from tests.ui.board import LARGE, SMALL, page, press, resize, settle, text, until
from tests.ui.covered import TELLING
from tests.ui.kept import answered, at_work

CODE = re.compile(r"athlete [2-9B-Z]{4,}")


def shown(season, screen="week", size=SMALL, *, down=True):
    return at_work(season, screen, size, label=str(season), down=down)


async def open_rows(pilot, is_it):
    """Open what a block opens, and wait for its rows."""
    block = next(b for b in page(pilot)._blocks if b.opens and is_it(b.opens))
    pilot.app.screen._open(block)
    await settle(pilot)
    await rows_there(pilot)


async def rows_there(pilot):
    screen = pilot.app.screen
    assert isinstance(screen, RowsScreen)
    await until(pilot, lambda: screen._rows is not None)
    await settle(pilot, 1)


def all_of(pilot):
    """Return everything a screen holds, also what is not scrolled into sight."""
    told = [text(pilot), pilot.app.title, pilot.app.sub_title]
    screen = pilot.app.screen
    if isinstance(screen, BoardScreen):
        blocks = page(pilot)._blocks
        told += [line.plain for block in blocks for line in block.lines]
        told += [block.heading.plain for block in blocks if block.heading]
    if isinstance(screen, RowsScreen):
        told += cells_of(pilot)
    return "\n".join(told)


def cells_of(pilot):
    """Return the cells of the table that is open, however wide its columns are by now."""
    table = pilot.app.screen.query_one(DataTable)
    return [str(cell) for row in range(table.row_count) for cell in table.get_row_at(row)]


def none_named(pilot):
    found = TELLING.search(all_of(pilot))
    assert not found, all_of(pilot)[max(0, found.start() - 200) : found.end() + 200]


@pytest.mark.long
@pytest.mark.parametrize("board", WITH_SCREENS, ids=[board.name for board in WITH_SCREENS])
async def test_no_screen_and_nothing_behind_it_names_anybody(season, board):
    async with shown(season, board.name) as pilot:
        for size in (SMALL, LARGE):
            await resize(pilot, *size)
            assert CURTAIN in text(pilot)
            none_named(pilot)
            for what in {b.opens.what for b in page(pilot)._blocks if b.opens}:
                await open_rows(pilot, lambda opens, what=what: opens.what is what)
                assert CURTAIN in text(pilot)
                none_named(pilot)
                await pilot.app.pop_screen()
            for action in ("method", "app.help"):
                await pilot.app.screen.run_action(action)
                await pilot.pause()
                none_named(pilot)
                await pilot.app.pop_screen()


async def test_without_the_curtain_the_season_names_them_everywhere(season):
    """So that the test above can fail: each of these shows names when it is not covered."""
    async with shown(season, down=False) as pilot:
        for key, name in (("1", "week"), ("2", "roster"), ("3", "orders")):
            await press(pilot, key)
            await answered(pilot)
            assert TELLING.search(all_of(pilot)), name
            assert CURTAIN not in text(pilot)


@pytest.mark.long
async def test_the_key_covers_all_screens_at_once_and_lifting_brings_all_back(season):
    async with shown(season, down=False, screen="roster") as pilot:
        before = text(pilot)
        await press(pilot, "3")
        await answered(pilot)
        await press(pilot, "c")
        none_named(pilot)
        await answered(pilot)
        none_named(pilot)
        await press(pilot, "2")
        await answered(pilot)
        none_named(pilot)
        assert CODE.search(text(pilot))
        await press(pilot, "c")
        await answered(pilot)
        assert text(pilot) == before


@pytest.mark.long
async def test_an_athlete_has_one_code_on_every_screen_and_after_a_restart(season):
    found = []
    for _ in range(2):
        async with shown(season, screen="orders") as pilot:
            orders = set(CODE.findall(all_of(pilot)))
            await press(pilot, "2")
            await answered(pilot)
            roster = set(CODE.findall(all_of(pilot)))
            assert orders
            assert orders <= roster
            found.append((orders, roster))
    assert found[0] == found[1]


@pytest.mark.long
async def test_rows_that_are_open_are_covered_too_and_come_back(season):
    async with shown(season, down=False, screen="roster") as pilot:
        for what in ("roster", "athlete"):
            await open_rows(pilot, lambda opens, what=what: opens.what == what)
            assert TELLING.search(all_of(pilot))
            named = cells_of(pilot)
            pilot.app.action_curtain()
            await pilot.pause()
            none_named(pilot)
            await rows_there(pilot)
            none_named(pilot)
            assert pilot.app.screen.query_one(DataTable).row_count > 0
            await press(pilot, "c")
            await rows_there(pilot)
            await until(pilot, lambda wanted=named: cells_of(pilot) == wanted)
            await press(pilot, "escape")


@pytest.mark.long
async def test_search_finds_by_code_and_not_by_name(season):
    async with shown(season, screen="orders") as pilot:
        code = CODE.search(all_of(pilot)).group()
        await open_rows(pilot, lambda opens: opens == Opens(What.ORDERS))
        table = pilot.app.screen.query_one(DataTable)
        for word, is_there in (("quagmire", False), ("zqa", False), (code.lower(), True)):
            await press(pilot, "slash")
            pilot.app.screen.query_one("#find", Input).value = word
            await until(pilot, lambda wanted=word: pilot.app.screen._asked.search == wanted)
            await until(pilot, lambda: not pilot.app.screen._is_waiting)
            assert bool(table.row_count) is is_there, word
            await press(pilot, "escape")


async def test_what_was_typed_goes_with_the_curtain_and_no_late_name_comes_through(season):
    """A reply that was asked for before the curtain went down is dropped."""
    async with shown(season, down=False, screen="roster") as pilot:
        screen = pilot.app.screen
        open_answer = screen.answer
        await press(pilot, "slash", *"quagmire", "enter")
        pilot.app.action_curtain()
        await answered(pilot)
        assert "quagmire" not in text(pilot)
        old = Request(screen._asked - 1, screen.scope)
        for late in (screen.Answered, screen.Fuller):
            screen.post_message(late(old, open_answer))
        await settle(pilot)
        none_named(pilot)
