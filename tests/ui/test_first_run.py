"""The first start, the tour, and the settings."""

from contextlib import ExitStack
from dataclasses import dataclass, field

import pytest

from seasonboard.answers.source import AnswerSource
from seasonboard.errors import SeasonboardError
from seasonboard.settings import Settings, Start
from seasonboard.store.intake.export import export_tables
from seasonboard.store.store import open_store
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.compare.screen import CompareScreen
from seasonboard.ui.games.screen import GamesScreen
from seasonboard.ui.windows.chooser import Chooser
from seasonboard.ui.windows.tour import STEPS, TourScreen
from seasonboard.wiring import StoreMaker
from tests.ui.board import press, running, settle, text, until
from tests.ui.stand_in import StandIn


def first():
    """Run a board with nothing to open yet."""
    app = SeasonboardApp(StandIn, screen="compare", start=Start(is_first=True))
    return running(app, lambda app: isinstance(app.screen, Chooser))


async def test_first_start_opens_nothing_before_it_is_asked_to():
    async with first() as pilot:
        app = pilot.app
        assert "Welcome: there is no season yet" in text(pilot)
        assert app.answer_source is None
        await press(pilot, "enter")
        await until(pilot, lambda: isinstance(app.screen, TourScreen))
        await press(pilot, "escape")
        assert isinstance(app.screen, CompareScreen)
        await press(pilot, "7", "6")
        assert isinstance(app.screen, CompareScreen), "the tour is offered once"


async def test_first_start_says_how_to_load_one_s_own_and_leads_back():
    async with first() as pilot:
        await press(pilot, "down", "down", "enter")
        assert "seasonboard load FOLDER --store FILE" in text(pilot)
        assert "seasonboard help tables" in text(pilot)
        await press(pilot, "enter", "down", "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, BoardScreen))
        await press(pilot, "q")
    assert pilot.app.return_code == 0


@pytest.mark.parametrize("keys", [("enter",), ("escape",)])
async def test_a_store_that_is_gone_is_named_and_nothing_is_opened_or_made_for_it(keys, tmp_path):
    gone = tmp_path / "season.duckdb"
    app = SeasonboardApp(StandIn, start=Start(is_first=True, missing=gone))
    async with running(app, lambda app: isinstance(app.screen, Chooser)) as pilot:
        assert "Not there any more" in text(pilot)
        assert "season.duckdb" in text(pilot)
        await press(pilot, *keys)
    assert app.answer_source is None
    assert list(tmp_path.iterdir()) == []


@pytest.mark.long
async def test_tour_can_be_left_at_any_step_goes_back_and_ends_after_its_last(pilot):
    for number, (title, _) in enumerate(STEPS):
        await press(pilot, "question_mark", "t", *["right"] * number)
        assert f"{number + 1} of {len(STEPS)}" in text(pilot)
        assert title in text(pilot)
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, CompareScreen)
    await press(pilot, "question_mark", "t", "right", "left", "left")
    assert STEPS[0][0] in text(pilot)
    await press(pilot, *["enter"] * len(STEPS))
    assert isinstance(pilot.app.screen, CompareScreen)


@dataclass
class Kept:
    """What was kept, and whether keeping fails."""

    settings: list[Settings] = field(default_factory=list)
    problem: SeasonboardError | None = None

    def __call__(self, settings):
        if self.problem:
            raise self.problem
        self.settings.append(settings)


async def test_settings_are_changed_kept_and_hold_at_once():
    kept = Kept()
    app = SeasonboardApp(StandIn, start=Start(Settings(screen="compare"), kept))
    async with running(app) as pilot:
        await press(pilot, "comma", "down", "down", "enter", "down", "enter")
        assert app.theme == "seasonboard-light"
        await press(pilot, "up", "enter", "down", "enter")
        assert app.scope.seasons == ("2026 fall",)
        await press(pilot, "escape")
        assert isinstance(app.screen, CompareScreen)
    assert kept.settings[-1] == Settings(season="2026 fall", theme="light", screen="compare")


async def test_kept_settings_hold_at_the_next_start_but_for_a_season_that_is_gone():
    start = Start(Settings(season="2025 fall", theme="projector", screen="games"))
    app = SeasonboardApp(StandIn, start=start)
    async with running(app):
        assert isinstance(app.screen, GamesScreen)
        assert app.theme == "seasonboard-projector"
        assert app.scope.seasons == ("2025 fall",)
    app = SeasonboardApp(StandIn, start=Start(Settings(season="1999", screen="compare")))
    async with running(app):
        assert isinstance(app.screen, CompareScreen)
        assert app.scope.seasons is None


async def test_why_settings_are_not_used_or_kept_is_said():
    kept = Kept(problem=SeasonboardError("Not [kept].", "Mend [/it]."))
    start = Start(Settings(screen="compare"), kept, said="The settings in x are not used.")
    app = SeasonboardApp(StandIn, start=start)
    async with running(app) as pilot:
        assert "The settings in x are not used." in text(pilot)
        await press(pilot, "comma", "down", "down", "enter", "down", "enter")
        assert "Not [kept]." in text(pilot)
        assert app.theme == "seasonboard-light"
        await press(pilot, "home", "enter", *"nosuch", "enter")
        assert "There is no file nosuch." in text(pilot)


@pytest.mark.long
async def test_one_key_leads_to_a_copy_of_the_sample_season_that_can_be_written_to(
    sample_store, tmp_path, monkeypatch
):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    with ExitStack() as stack:
        store = stack.enter_context(open_store(sample_store))
        source = AnswerSource(store, "invented sample season")
        app = SeasonboardApp(lambda: source, screen="roster", maker=StoreMaker(stack))
        async with running(app) as pilot:
            await press(pilot, "l")
            assert "k opens a copy of it" in text(pilot)
            await press(pilot, "k")
            await until(pilot, lambda: app.answer_source is not source)
            await settle(pilot)
            assert "your own copy of the invented season" in text(pilot)
            copy = tmp_path / "seasonboard" / "invented-season.duckdb"
            assert app.answer_source.store_label == str(copy)
            await press(pilot, "l")
            assert "Attendance" in text(pilot)
        with open_store(sample_store) as old, open_store(copy) as new:
            copied = export_tables(new)
            assert all(rows.equals(copied[name]) for name, rows in export_tables(old).items())
