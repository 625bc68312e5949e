"""A mistake in the program is one sentence and a log; the board keeps running."""

import pytest

from seasonboard.answers.questions import COMPARE
from seasonboard.ui.all_screens import screen_class
from seasonboard.ui.app import bug_report
from seasonboard.ui.app.app import NOT_OPENED, SeasonboardApp
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.compare.screen import CompareScreen
from seasonboard.ui.windows.rows import RowsScreen
from tests.ui.board import opened, press, resize, running, state, text, until

FAILED = "failed through a mistake in the program"


@pytest.fixture
def log(monkeypatch, tmp_path):
    path = tmp_path / "failures.log"
    monkeypatch.setattr(bug_report, "_log", lambda: path)
    return path


def _broken(*_, **__):
    raise ZeroDivisionError("[/x] of 0")


def assert_it_failed(pilot, log):
    """The mistake is one sentence on the screen, with where its details are, and in the log."""
    assert FAILED in text(pilot)
    assert str(log) in "".join(text(pilot).split())
    assert "Traceback" not in text(pilot)
    assert "ZeroDivisionError: [/x] of 0" in log.read_text("utf-8")


async def test_an_answer_that_fails_is_told_over_the_last_one(log, pilot, answer_source):
    ask = answer_source.ask

    def broken_compare(question, *asked):
        return _broken() if question is COMPARE else ask(question, *asked)

    answer_source.ask = broken_compare
    await press(pilot, "r")
    assert_it_failed(pilot, log)
    assert "No difference shown yet" in text(pilot)
    await press(pilot, "7")
    assert "How many games are played before an injury?" in text(pilot)
    assert state(pilot) == ""
    answer_source.ask = ask
    await press(pilot, "6", "r")
    assert FAILED not in text(pilot)


@pytest.mark.long
@pytest.mark.parametrize(("screen", "after"), [("compare", "7"), ("games", "6")])
async def test_a_page_that_fails_is_told_and_the_others_go_on(screen, after, log, monkeypatch):
    monkeypatch.setattr(screen_class(screen), "draw", _broken)
    async with opened(screen=screen) as pilot:
        for keys in ((), ("d",), ("r",)):
            await press(pilot, *keys)
            assert_it_failed(pilot, log)
        await press(pilot, "down", "enter", "m", "slash", "x", "escape", "e", "escape", after)
        assert FAILED not in text(pilot)
        assert pilot.app.is_running


async def test_one_mistake_of_a_page_is_written_down_once(log, pilot, monkeypatch):
    with monkeypatch.context() as patch:
        patch.setattr(CompareScreen, "draw", _broken)
        for width in (81, 90, 100):
            await resize(pilot, width, 24)
            await until(pilot, lambda: FAILED in text(pilot))
    await resize(pilot, 80, 24)
    await until(pilot, lambda: FAILED not in text(pilot))
    assert "No difference shown yet" in text(pilot)
    assert log.read_text("utf-8").count("Traceback") == 1


async def test_a_table_that_fails_is_told_and_left_with_escape(log, pilot, answer_source):
    answer_source.injury_rows = _broken
    await press(pilot, "enter")
    assert isinstance(pilot.app.screen, RowsScreen)
    assert_it_failed(pilot, log)
    await press(pilot, "o", "O", "n", "p", "escape")
    assert isinstance(pilot.app.screen, CompareScreen)


async def test_a_store_that_fails_to_open_is_told_too(log):
    app = SeasonboardApp(_broken)
    async with running(app, lambda _: True) as pilot:
        assert "could not be opened through a mistake in the program" in text(pilot)
        assert str(log) in "".join(text(pilot).split())
        await press(pilot, "q")
    assert app.return_code == NOT_OPENED


def test_log_lies_where_the_system_keeps_logs_and_grows(monkeypatch, tmp_path):
    monkeypatch.setattr("platformdirs.user_log_path", lambda *_, **__: tmp_path)
    for number in range(2):
        told = written_down(ValueError(f"number {number}"), "the question")
        assert told.hint == f"The details are in {tmp_path / bug_report.LOG}."
    kept = (tmp_path / bug_report.LOG).read_text("utf-8")
    assert kept.count("the question") == 2
    assert "number 0" in kept
    assert "number 1" in kept
    monkeypatch.setattr(bug_report, "_log", lambda: tmp_path)  # a folder, not to be written to
    told = written_down(ValueError("x"), "the question")
    assert FAILED in told.what
    assert told.hint.startswith("The details could not be written down")
