"""The screens of the working season, by keys, over the sample season and over nothing."""

import re
from pathlib import Path
from unittest.mock import Mock

import pytest
from rich.cells import cell_len
from textual.widgets import DataTable

from seasonboard.answers.all_cards import ALL_CARDS
from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.answers.roster.parts import ATTENTION
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.take_up.parts import TakeUpBy, TakeUpOptions
from seasonboard.ui.app import bug_report
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.layout.blocks import What
from seasonboard.ui.windows.method_card import CardScreen
from seasonboard.ui.windows.rows import RowsScreen
from tests.reused import ReusedStore
from tests.ui.board import (
    LARGE,
    SMALL,
    check,
    go_to,
    page,
    press,
    resize,
    running,
    settle,
    text,
    until,
)
from tests.ui.kept import answered, at_work

WORK = [board.name for board in WITH_SCREENS if board.name not in {"compare", "games"}]


@pytest.mark.long
@pytest.mark.parametrize("screen", WORK)
async def test_screen_looks_as_agreed_and_no_line_is_wider_than_the_page(sample_store, screen):
    async with at_work(sample_store, screen) as pilot:
        for width, height in (SMALL, LARGE, (60, 15), (200, 60)):
            await resize(pilot, width, height)
            if screen != "pitch" and (width, height) in {SMALL, LARGE}:
                check(text(pilot), f"{screen}-{width}x{height}")
            lines = [line.plain for block in page(pilot)._blocks for line in block.lines]
            assert [line for line in lines if cell_len(line.rstrip()) > width - 2] == [], width


@pytest.mark.long
@pytest.mark.parametrize("screen", WORK)
async def test_every_stop_has_a_card_and_opens_rows(sample_store, screen):
    async with at_work(sample_store, screen) as pilot:
        board = pilot.app.screen
        stops = [block for block in page(pilot)._blocks if block.name]
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
    folder = Path(bug_report.__file__).parent.parent
    named = {
        card
        for path in folder.glob("*/page.py")
        for card in re.findall(r'"([a-z_]+/[a-z ]+)"', path.read_text("utf-8"))
    }
    assert named
    assert named <= set(ALL_CARDS)


@pytest.mark.parametrize("screen", [board.name for board in WITH_SCREENS])
async def test_an_empty_store_says_what_to_load(screen):
    with ReusedStore() as store:
        app = SeasonboardApp(lambda: AnswerSource(store, "nothing"), screen=screen)
        async with running(app) as pilot:
            assert "l f   loads a table" in text(pilot)
            if screen in {"compare", "games", "pitch"}:
                assert "seasonboard --sample" in text(pilot)
            await press(pilot, "enter", "m", "s", "b", "t", "slash", "escape")
            assert isinstance(app.screen, BoardScreen)
            await press(pilot, "r", "down", "question_mark")
            assert "Here" in text(pilot)


@pytest.mark.long
async def test_every_screen_is_reached_by_its_key(sample_store):
    async with at_work(sample_store, "week") as pilot:
        for board in reversed(WITH_SCREENS):
            await press(pilot, board.key)
            assert board.name == pilot.app.screen.QUESTION.name


async def test_one_key_shows_fourteen_athletes_those_who_need_somebody_first(sample_store):
    """Three lines of prose, and whoever is out, or whose guard is late or unworn, right below."""
    async with at_work(sample_store, "week") as pilot:
        await press(pilot, "2")
        await answered(pilot)
        shown = text(pilot).splitlines()
        heads = next(nth for nth, line in enumerate(shown) if line.split()[:1] == ["athlete"])
        assert sum(line.startswith("▌") for line in shown[:heads]) <= 3
        athletes = pilot.app.screen.answer.athletes[:14]
        for athlete, line in zip(athletes, shown[heads + 1 :], strict=False):
            assert line.split()[0] == athlete.name.split()[0]
            assert ("unworn" in line) is any(one.state == "unworn lately" for one in athlete.guards)
        assert [one.attention for one in athletes] == sorted(
            (one.attention for one in athletes), key=ATTENTION.index
        )


@pytest.mark.long
async def test_an_athlete_s_line_opens_all_that_was_recorded_of_them(sample_store):
    async with at_work(sample_store, "roster") as pilot:
        shown, athlete = page(pilot), pilot.app.screen.answer.athletes[0]
        while not (shown.block and shown.block.opens and shown.block.opens.what is What.ATHLETE):
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
    async with at_work(sample_store, "take-up") as pilot:
        pilot.app.screen.ask_with(TakeUpOptions(by=TakeUpBy.KIND))
        await until(pilot, lambda: pilot.app.screen.answer.by is TakeUpBy.KIND)
        blocks = page(pilot).blocks
        assert sum(line.plain == " By kind" for block in blocks for line in block.lines) == 1


@pytest.mark.long
async def test_a_group_s_line_opens_the_orders_of_that_group_alone(sample_store):
    async with at_work(sample_store, "turnaround", departments=None) as pilot:
        page(pilot).go_to_name("all orders")
        await press(pilot, "enter")
        every = rows_told(pilot)
        await press(pilot, "escape", "b")
        await until(pilot, lambda: pilot.app.screen.answer.options.by is not None)
        await settle(pilot)
        sums = 0
        for group in pilot.app.screen.answer.groups:
            page(pilot).go_to_name(f"group {group.key}")
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
        await answered(pilot)
        assert "time loss" in text(pilot)


async def test_a_mistake_is_one_sentence_and_a_log(sample_store, monkeypatch, tmp_path):
    monkeypatch.setattr(bug_report, "_log", lambda: tmp_path / "failures.log")

    async with at_work(sample_store, "week") as pilot:
        mistake = ZeroDivisionError("[/x] of 0")
        monkeypatch.setattr(AnswerSource, "ask", Mock(side_effect=mistake))
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


@pytest.mark.long
async def test_every_team_typed_by_its_name_is_the_team_that_is_taken(sample_store):
    async with at_work(sample_store, "compare", departments=None) as pilot:
        for team in pilot.app.answer_source.scope_values.values["team"]:
            pilot.app._choose("team")
            await press(pilot, *team.name, "enter")
            assert pilot.app.scope.teams == (team.value,), team.name


async def test_enter_on_a_row_of_the_days_opens_what_that_row_counts(sample_store):
    async with at_work(sample_store, "week") as pilot:
        for heading, title in (("games", "Played"), ("injuries", "New injuries"),
                               ("guards fitted", "Orders")):  # fmt: skip
            await go_to(pilot, f"days {heading}")
            await press(pilot, "enter")
            assert title in text(pilot)
            await press(pilot, "escape")
