"""Files loaded on the board, by keys alone: from nothing to a board that names the athletes."""

import shutil
import threading
from contextlib import ExitStack

import pytest
from textual.widgets import Input

from seasonboard.answers.source import AnswerSource
from seasonboard.errors import StoreError
from seasonboard.settings import Start
from seasonboard.store.bundles.packing import write_bundle
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.forms.fields import Choices
from seasonboard.ui.loading.load_dialog import BoardDialog
from seasonboard.ui.loading.load_questions import FILL
from seasonboard.ui.loading.paths import completed, typed_path
from seasonboard.ui.loading.screen import LoadScreen, LoadStep
from seasonboard.wiring import StoreMaker
from tests.intake.ugly import PLAYERS, write_ugly
from tests.patience import PATIENCE
from tests.reused import ReusedStore
from tests.ui.board import check, press, running, settle, text, until, words
from tests.ui.kept import rows, season, typing


@pytest.fixture
def memory(monkeypatch, tmp_path):
    """Remember what was opened last in a folder of the test's own."""
    monkeypatch.setattr("seasonboard.last_used._memory", lambda: tmp_path / "memory")


async def load(pilot, path):
    """Open the window that loads, and enter a path."""
    await press(pilot, "l", "f")
    await enter(pilot, path)


async def enter(pilot, path):
    """Put a path into the line and press Enter."""
    pilot.app.screen.query_one(Input).value = str(path)
    await press(pilot, "enter")


def lines(pilot):
    return [line for line, _ in pilot.app.screen.query_one(Choices).lines]


def step(pilot):
    return pilot.app.screen._step


@pytest.mark.long
async def test_three_ugly_exports_from_nothing_to_a_board_with_one_question_in_all(
    tmp_path, memory
):
    """From an empty store that is not written to, as the sample is."""
    exports = write_ugly(tmp_path / "exports")
    store = tmp_path / "season.duckdb"
    with ExitStack() as stack, ReusedStore() as empty:
        nothing = AnswerSource(empty, "nothing yet")
        app = SeasonboardApp(lambda: nothing, screen="roster", maker=StoreMaker(stack))
        async with running(app) as pilot:
            for number, (file, answers) in enumerate(zip(exports, (0, 1, 0), strict=True), 1):
                if number == 1:
                    await load(pilot, file)
                    assert pilot.app.screen.box.selection == (0, len("season.duckdb"))
                    await enter(pilot, store)
                else:
                    await enter(pilot, file)
                for _ in range(answers):
                    assert step(pilot) is LoadStep.ASKED, text(pilot)
                    assert "--" not in text(pilot)
                    await press(pilot, "enter")
                assert step(pilot) is LoadStep.PLAN, text(pilot)
                await press(pilot, "ctrl+s")
                assert f"Written as load {number}" in text(pilot)
            await press(pilot, "escape")
            assert "written as load 3: injury log.csv · u takes it back" in text(pilot)
            assert pilot.app.answer_source.store_label == str(store)
            shown = " ".join(str(row) for row in pilot.app.screen.answer.athletes)
            assert all(player in shown for player in PLAYERS)
            first = rows(pilot.app.answer_source, "injuries")[0]["occurred_on"]
            assert str(first) in {"2026-09-11", "2026-10-03", "2026-10-05"}


async def load_from_the_welcome(pilot):
    await until(pilot, lambda: "Welcome" in text(pilot))
    await press(pilot, "down", "down", "enter")
    await until(pilot, lambda: isinstance(pilot.app.screen, LoadScreen))


def refuse():
    raise StoreError("There is no store.", "Make one.")


@pytest.mark.parametrize("is_first", [False, pytest.param(True, marks=pytest.mark.long)])
async def test_where_no_store_opens_one_is_made_and_opened(tmp_path, memory, is_first):
    """At the first start by way of the welcome, and Esc goes back to it."""
    tables = season().write(tmp_path / "tables")
    with ExitStack() as stack:
        start = Start(is_first=True) if is_first else None
        app = SeasonboardApp(refuse, screen="orders", start=start, maker=StoreMaker(stack))
        async with running(app, lambda _: True) as pilot:
            if is_first:
                await load_from_the_welcome(pilot)
                await press(pilot, "escape")
                await load_from_the_welcome(pilot)
            else:
                app.push_screen(LoadScreen())
                await settle(pilot)
                await enter(pilot, tables)
                await enter(pilot, tmp_path / "nowhere" / "new.store")
                assert "does not exist" in words(pilot)
                await press(pilot, "escape")
            await enter(pilot, tables)
            await enter(pilot, tmp_path / "new.store")
            await press(pilot, "ctrl+s")
            await until(pilot, lambda: app.answer_source is not None)
            if is_first:
                await until(pilot, lambda: isinstance(app.screen, BoardScreen))
            assert len(rows(app.answer_source, "roster")) == 3


@pytest.mark.long
async def test_a_plan_shows_rows_cells_and_doubts_and_esc_writes_nothing(board, tmp_path):
    file = tmp_path / "roster.csv"
    file.write_text("athlete,team,season,name,jersey\nA1,T,2026,Zoë Abbott,9\nA9,T,2026,Im Neu,3\n")
    async with typing(board) as pilot:
        await load(pilot, file)
        shown = text(pilot)
        assert "roster        1        1        0  roster.csv" in shown
        assert "roster.jersey: 7 → 9" in shown
        check(shown, "load-plan-80x24")
        await press(pilot, "escape", "escape")
        assert isinstance(pilot.app.screen, BoardScreen)
        assert board.entry_writer.last().load_no == 1
        await load(pilot, file)
        await press(pilot, "ctrl+s")
        assert "Written as load 2" in text(pilot)
        await enter(pilot, file)
        assert "nothing to write: 2 rows are there already." in text(pilot)
        await press(pilot, "ctrl+s")
        assert step(pilot) is LoadStep.PLAN
    assert {row["jersey"] for row in rows(board, "roster")} >= {"9", "3"}


@pytest.mark.long
async def test_good_rows_are_kept_by_choice_and_the_rejects_are_named(board, tmp_path):
    file = tmp_path / "decisions.csv"
    file.write_text("decision,decided_on,text\nD1,2026-09-01,Spares\nD2,2026-99-01,Never\n")
    async with typing(board) as pilot:
        await load(pilot, file)
        assert step(pilot) is LoadStep.ASKED
        assert "2026-99-01" in text(pilot)
        assert "load only the good rows" in text(pilot)
        await press(pilot, "enter")
        assert "Left behind" in text(pilot)
        await press(pilot, "ctrl+s")
        assert "1 rejected row is in" in text(pilot)
        assert ".rejects" in "".join(text(pilot).split())
        await enter(pilot, file)
        await press(pilot, "enter")
        assert "write files of the rows left behind" in text(pilot)
        await press(pilot, "ctrl+s")
        said = "Nothing was written: 1 row is there already and 1 row was left behind."
        assert said in words(pilot)
    assert [row["decision"] for row in rows(board, "decisions")] == ["D1"]
    assert len(list(tmp_path.glob("*.rejects/*/*"))) == 2


@pytest.mark.long
async def test_a_required_column_is_answered_by_a_heading_or_a_value(board, tmp_path):
    file = tmp_path / "choices.csv"
    file.write_text(
        "Offer no,Player,Guard type,Date offered,Said\nO1,Zoë Abbott,shin,2026-09-02,x\n"
    )
    async with typing(board) as pilot:
        await load(pilot, file)
        for _ in range(4):
            if step(pilot) is not LoadStep.ASKED:
                break
            await press(pilot, *["down"] * lines(pilot).index(FILL), "enter")
            assert step(pilot) is LoadStep.FILL
            pilot.app.screen.query_one(Input).value = "accepted"
            await press(pilot, "enter")
        assert step(pilot) is LoadStep.PLAN, text(pilot)
        await press(pilot, "end")
        assert "is accepted in all rows" in text(pilot)
        await press(pilot, "ctrl+s")
    assert rows(board, "offers")[0]["answer"] == "accepted"


async def test_a_bundle_is_loaded_too_and_a_file_that_is_not_there_told(board, made, tmp_path):
    bundle = tmp_path / "all.bundle"
    write_bundle(shutil.copy(made, tmp_path / "other.store"), bundle, None)
    async with typing(board) as pilot:
        await load(pilot, tmp_path / "[/nowhere].csv")
        assert "[/nowhere].csv" in text(pilot).replace("\n ", "")
        await press(pilot, "escape")
        assert step(pilot) is LoadStep.PATH, "it can be typed again"
        await enter(pilot, bundle)
        assert step(pilot) in {LoadStep.PLAN, LoadStep.ASKED}
        assert "bundle" in text(pilot)


async def test_esc_stops_a_reading_and_what_comes_later_is_dropped(board, tmp_path, monkeypatch):
    gate = threading.Event()
    monkeypatch.setattr(board.entry_writer, "load", lambda *_: gate.wait(PATIENCE) and False)
    async with typing(board) as pilot:
        await press(pilot, "l", "f")
        pilot.app.screen.query_one(Input).value = str(tmp_path)
        await pilot.press("enter")
        await pilot.pause()
        assert step(pilot) is LoadStep.BUSY
        await pilot.press("escape")
        gate.set()
        await settle(pilot)
        assert step(pilot) is LoadStep.PATH
        assert "the store is as it was" in text(pilot)


def test_a_plan_that_is_no_longer_the_one_shown_is_not_written(board, tmp_path):
    file = tmp_path / "decisions.csv"
    file.write_text("decision,decided_on,text\nD1,2026-09-01,Spares\n")
    look = BoardDialog()
    assert board.entry_writer.load([file], look) is False
    file.write_text("decision,decided_on,text\nD1,2026-09-01,Other\nD2,2026-09-01,More\n")
    assert board.entry_writer.load([file], BoardDialog(agreed=look.shown)) is False
    assert rows(board, "decisions") == []


def test_paths_are_taken_as_people_paste_them_and_completed_as_far_as_is_clear(tmp_path):
    (tmp_path / "My season").mkdir()
    (tmp_path / "My squad.csv").touch()
    (tmp_path / ".hidden").touch()
    assert typed_path(f"'{tmp_path}/My squad.csv'") == tmp_path / "My squad.csv"
    assert typed_path(f"{tmp_path}/My\\ squad.csv ") == tmp_path / "My squad.csv"
    grown, names = completed(f"{tmp_path}/m")
    assert (grown, list(names)) == (f"{tmp_path}/My s", ["My season/", "My squad.csv"])
    assert completed(f"{tmp_path}/My se") == (f"{tmp_path}/My season/", ["My season/"])
    assert completed(f"{tmp_path}/none") == (f"{tmp_path}/none", ())
