"""The screens of the working season, by keys, over the sample season and over nothing."""

import re
from contextlib import asynccontextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from rich.cells import cell_len
from textual.widgets import DataTable

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.answers.source import AnswerSource
from seasonboard.store.store import memory_store, open_store
from seasonboard.ui.app import bug_report
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.layout.opens import What
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.windows.method_card import CardScreen
from seasonboard.ui.windows.rows import RowsScreen
from tests.ui.board import SMALL, check, press, resize, settle, text, until

WORK = (
    "week",
    "roster",
    "orders",
    "turnaround",
    "remakes",
    "take-up",
    "departments",
    "pitch",
    "checks",
)
THROUGH = date(2026, 11, 13)


@asynccontextmanager
async def at_work(path, screen, size=SMALL, **parts):
    """Open the sample season at Lanternfield College, on a Friday in November."""
    with open_store(path) as store:
        board = AnswerSource(store, "invented sample season")
        app = SeasonboardApp(lambda: board, screen=screen)
        async with app.run_test(size=size, notifications=True) as pilot:
            await until(pilot, lambda: isinstance(app.screen, BoardScreen))
            asked = {"through": THROUGH, "departments": ("LF",)} | parts
            app.scope = replace(board.opening_scope(), **asked)
            await until(pilot, lambda: is_answered(app, app.scope))
            await settle(pilot)
            yield pilot


def is_answered(app, scope):
    screen = app.screen
    return (
        isinstance(screen, BoardScreen)
        and getattr(screen.answer, "summary", None) is not None
        and (screen.answer.summary.scope == scope)
    )


@pytest.mark.long
@pytest.mark.parametrize("screen", [screen for screen in WORK if screen != "pitch"])
@pytest.mark.parametrize("size", [SMALL, (120, 40)], ids=["80x24", "120x40"])
async def test_screen_looks_as_agreed(sample_store, screen, size):
    async with at_work(sample_store, screen, size) as pilot:
        check(text(pilot), f"{screen}-{size[0]}x{size[1]}")


@pytest.mark.long
@pytest.mark.parametrize("screen", WORK)
async def test_no_line_is_wider_than_the_page(sample_store, screen):
    """At the smallest size and at a wide one."""
    async with at_work(sample_store, screen, (60, 15)) as pilot:
        for size in ((60, 15), SMALL, (200, 60)):
            await resize(pilot, *size)
            await settle(pilot)
            page = pilot.app.screen.query_one(Page)
            for block in page._blocks:
                for line in block.lines:
                    assert cell_len(line.plain.rstrip()) <= size[0] - 2, (size, line.plain)


@pytest.mark.long
@pytest.mark.parametrize("screen", WORK)
async def test_every_stop_has_a_card_and_opens_rows(sample_store, screen):
    async with at_work(sample_store, screen) as pilot:
        board = pilot.app.screen
        page = board.query_one(Page)
        stops = [block for block in page._blocks if block.is_stop]
        assert len(stops) > 3
        kinds = {block.opens.what: block for block in stops if block.opens}
        for block in kinds.values():
            assert board.rows_of(block.opens) is not None, block.name
        await press(pilot, "m")
        assert isinstance(pilot.app.screen, CardScreen)
        await press(pilot, "escape", "enter")
        assert isinstance(pilot.app.screen, RowsScreen)
        await until(pilot, lambda: pilot.app.screen.query_one(DataTable).row_count > 0)
        await press(pilot, "escape")
        assert pilot.app.screen is board


def test_every_stop_s_card_is_there():
    """Also of stops that the sample season does not show: by the names in the pages."""
    import re

    from seasonboard.answers.all_cards import ALL_CARDS

    folder = Path(bug_report.__file__).parent.parent
    named = {
        card
        for path in folder.glob("*/page.py")
        for card in re.findall(r'"([a-z_]+/[a-z ]+)"', path.read_text("utf-8"))
    }
    assert named
    assert named <= set(ALL_CARDS)


@pytest.mark.parametrize("screen", WORK)
async def test_an_empty_store_says_what_to_load(screen):
    with memory_store() as store:
        board = AnswerSource(store, "nothing")
        app = SeasonboardApp(lambda: board, screen=screen)
        async with app.run_test(size=SMALL) as pilot:
            await until(pilot, lambda: isinstance(app.screen, BoardScreen))
            await settle(pilot)
            assert "seasonboard load FOLDER --store FILE" in text(pilot)
            await press(pilot, "enter", "m", "s", "b", "t", "slash", "escape")
            assert isinstance(app.screen, BoardScreen)


async def test_every_screen_is_reached_by_its_key(sample_store):
    async with at_work(sample_store, "week") as pilot:
        for board in reversed(WITH_SCREENS):
            await press(pilot, board.key)
            assert board.name == pilot.app.screen.QUESTION.name
            assert board.asks == pilot.app.screen.QUESTION.asks


async def test_ten_keys_tell_who_is_out_late_and_without_wearing(sample_store):
    """From the first screen: one key to the roster, and the three lists stand there."""
    async with at_work(sample_store, "week") as pilot:
        await press(pilot, "2")
        await until(pilot, lambda: is_answered(pilot.app, pilot.app.scope))
        await settle(pilot)
        shown = text(pilot)
        answer = pilot.app.screen.answer
        out = next(a for a in answer.athletes if a.status == "out")
        unworn = next(a for a in answer.athletes for g in a.guards if g.state == "unworn")
        assert f"Out or limited: {out.name} (" in shown
        assert "Guard late:" in shown
        assert f"Has one, does not wear it: {unworn.name} (" in shown


@pytest.mark.long
async def test_an_athlete_s_line_opens_all_that_was_recorded_of_them(sample_store):
    async with at_work(sample_store, "roster") as pilot:
        page = pilot.app.screen.query_one(Page)
        athlete = pilot.app.screen.answer.athletes[0]
        while not (page.block and page.block.opens and page.block.opens.what is What.ATHLETE):
            await press(pilot, "down")
        await press(pilot, "enter")
        await until(pilot, lambda: pilot.app.screen.query_one(DataTable).row_count > 0)
        assert f"{athlete.name} ({athlete.athlete})" in text(pilot)


@pytest.mark.long
async def test_groups_and_units_change_by_key(sample_store):
    async with at_work(sample_store, "turnaround") as pilot:
        await press(pilot, "b")
        await until(pilot, lambda: pilot.app.screen.answer.options.by is not None)
        assert pilot.app.screen.answer.options.by.value == "department"
        await press(pilot, "t")
        await until(pilot, lambda: pilot.app.screen.answer.options.unit.value == "working-days")
    async with at_work(sample_store, "remakes") as pilot:
        await press(pilot, "b")
        await until(pilot, lambda: pilot.app.screen.answer.options.by.value == "scan-method")


async def test_a_group_s_line_opens_the_orders_of_that_group_alone(sample_store):
    async with at_work(sample_store, "turnaround", departments=None) as pilot:
        page = pilot.app.screen.query_one(Page)
        page.go_to_name("all orders")
        await press(pilot, "enter")
        every = rows_told(pilot)
        await press(pilot, "escape", "b")
        await until(pilot, lambda: pilot.app.screen.answer.options.by is not None)
        await settle(pilot)
        sums = 0
        for group in pilot.app.screen.answer.groups:
            page.go_to_name(f"group {group.key}")
            await press(pilot, "enter")
            assert f"Orders: {group.name}" in text(pilot)
            assert rows_told(pilot) >= group.orders
            sums += rows_told(pilot)
            await press(pilot, "escape")
        assert sums == every > 0


def rows_told(pilot):
    """How many rows a table says it has."""
    (count,) = re.findall(r"([\d,]+) rows?\b", text(pilot))
    return int(count.replace(",", ""))


@pytest.mark.long
async def test_the_sentence_says_only_what_the_answer_depends_on(sample_store):
    async with at_work(sample_store, "orders") as pilot:
        assert "time loss" not in text(pilot)
        await press(pilot, "6")
        await until(pilot, lambda: is_answered(pilot.app, pilot.app.scope))
        assert "time loss" in text(pilot)


async def test_a_mistake_in_the_program_is_one_sentence_and_a_log(
    sample_store, monkeypatch, tmp_path
):
    monkeypatch.setattr(bug_report, "_log", lambda: tmp_path / "failures.log")

    def broken(self, question, scope, options=None):
        raise ZeroDivisionError("[/x] of 0")

    async with at_work(sample_store, "week") as pilot:
        monkeypatch.setattr(AnswerSource, "ask", broken)
        await press(pilot, "5")
        await until(pilot, lambda: "failed through a mistake" in text(pilot))
        assert "failures.log" in "".join(text(pilot).split())
        assert "Traceback" not in text(pilot)
        await press(pilot, "1")
        assert "What changed this week" in text(pilot)
    log = (tmp_path / "failures.log").read_text("utf-8")
    assert "ZeroDivisionError: [/x] of 0" in log


@pytest.mark.long
async def test_a_table_is_sorted_searched_and_turned_over_by_keys(sample_store):
    async with at_work(sample_store, "orders", departments=None) as pilot:
        await press(pilot, "enter")
        await until(pilot, lambda: pilot.app.screen.query_one(DataTable).row_count > 0)
        table = pilot.app.screen.query_one(DataTable)
        assert "418 rows · 1 to 200" in text(pilot) or "1 to 200" in text(pilot)
        await press(pilot, "n")
        await until(pilot, lambda: "201 to 400" in text(pilot))
        await press(pilot, "o")
        await until(pilot, lambda: "guard ▴" in text(pilot))
        first = str(table.get_row_at(0)[0])
        await press(pilot, "O")
        await until(pilot, lambda: "guard ▾" in text(pilot))
        assert str(table.get_row_at(0)[0]) > first
        await press(pilot, "slash", *"shin")
        await until(pilot, lambda: "found" in text(pilot))
        assert all("shin" in " ".join(map(str, table.get_row_at(n))) for n in range(3))
