"""Around a sheet: sizes, colours, help, leaving, taking back, and where nothing is written."""

from dataclasses import replace
from datetime import timedelta
from unittest.mock import Mock

import pytest
from textual.widgets import Footer

from seasonboard.answers.log.sheet_entry import proposed
from seasonboard.errors import StoreLockedError
from seasonboard.store.entry_writer import StoreEntryWriter
from seasonboard.ui.log.menu import LogMenu, forms
from seasonboard.ui.log.sessions_screen import SessionsScreen
from seasonboard.ui.log.sheet_screen import SheetScreen
from seasonboard.ui.windows.confirm import AskScreen
from seasonboard.ui.windows.help import HelpScreen
from tests.queries.build import day
from tests.ui.board import LARGE, press, resize, settle, shown_in_all_colours, text, until, words
from tests.ui.logging_season import (
    TODAY,
    line,
    logging,
    marks,
    on_the_board,
    rows,
    sessions,
    sheet,
    squad,
    store_of,
)


async def test_a_hundred_athletes_keep_head_and_foot_in_sight(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    async with logging(store_of(squad(100), tmp_path)) as pilot:
        await sheet(pilot)
        await press(pilot, "end")
        shown = text(pilot).splitlines()
        assert "women's soccer" in shown[0]
        assert shown[1].startswith(" 99 full, 0 limited, 1 out")
        assert "athlete" in shown[2]
        assert "written" in shown[2]
        assert any(one.startswith("▌") and " 100 " in one for one in shown)
        assert "^s save" in shown[-1]
        assert len(shown) == 24


@pytest.mark.long
async def test_every_line_fits_and_the_footer_hides_nothing(squad_store):
    async with logging(squad_store) as pilot:
        await sheet(pilot)
        for width, height in ((60, 15), (80, 24), LARGE, (200, 60)):
            await resize(pilot, width, height)
            assert max(map(len, text(pilot).splitlines())) <= width
            assert "○ out, injury" in line(pilot, 5)
            assert "◆ chest" in line(pilot, 1)
            if width >= 80:
                assert pilot.app.screen.query_one(Footer).max_scroll_x == 0


@pytest.mark.long
async def test_without_colour_and_in_sixteen_the_sheet_reads_the_same(squad_store, monkeypatch):
    async def show():
        async with logging(squad_store) as pilot:
            await sheet(pilot)
            return text(pilot)

    assert len(await shown_in_all_colours(show, monkeypatch)) == 1


async def test_help_of_the_sheet_names_every_key(squad_store):
    async with logging(squad_store, size=(120, 60)) as pilot:
        await sheet(pilot)
        active = [one.binding for one in pilot.app.screen.active_bindings.values()]
        await press(pilot, "question_mark")
        assert isinstance(pilot.app.screen, HelpScreen)
        shown = words(pilot)
        assert [one.tooltip for one in active if one.id and one.tooltip not in shown] == []
        assert "nothing: not written" in shown


def test_every_form_of_the_log_has_a_key_of_its_own():
    listed = forms(is_kept=True)
    assert len({form.key for form in listed}) == len(listed)


@pytest.mark.long
async def test_leaving_asks_once_and_only_about_changes(squad_store):
    async with logging(squad_store) as pilot:
        await sheet(pilot)
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, SessionsScreen)
        await press(pilot, "enter", "o", "enter", "escape")
        assert isinstance(pilot.app.screen, AskScreen)
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, SheetScreen)
        await press(pilot, "escape", "t")
        assert isinstance(pilot.app.screen, SessionsScreen)
        assert "draft" not in text(pilot)
        await press(pilot, "enter", "o", "enter", "escape", "d")
        assert "✎ draft" in text(pilot)
        await press(pilot, "enter", "y", "escape", "s")
        await on_the_board(pilot)
        await press(pilot, "l", "a")
        assert "draft" not in text(pilot)
    found = rows(squad_store, "attendance").filter(session="P4", athlete="A1")
    assert found["part"].to_list() == ["out"]


@pytest.mark.long
async def test_an_entry_is_taken_back_on_any_screen_after_a_restart_too(squad_store):
    before = rows(squad_store, "attendance")
    async with logging(squad_store) as pilot:
        await sheet(pilot)
        await press(pilot, "ctrl+s")
    async with logging(squad_store, screen="roster") as pilot:
        await asked(pilot, "u")
        assert "attendance, T, 4 Sep 12:00" in text(pilot)
        await press(pilot, "escape")
        assert rows_held(pilot) == 120
        await asked(pilot, "u")
        await press(pilot, "y")
        await until(pilot, lambda: "taken back: attendance, T" in text(pilot))
        await settle(pilot)
        assert rows_held(pilot) == 60
        assert pilot.app.scope.through == day(2)
    assert rows(squad_store, "attendance").equals(before)


async def asked(pilot, key):
    """Press a key, and wait for the question that it leads to."""
    await press(pilot, key)
    await until(pilot, lambda: isinstance(pilot.app.screen, AskScreen))
    await settle(pilot)


def rows_held(pilot):
    return pilot.app.answer_source.entry_writer._held.read("store/attendance").height


@pytest.mark.long
async def test_a_store_open_elsewhere_is_told_and_the_sheet_stays(squad_store, monkeypatch):
    locked = StoreLockedError("Another program has it open.", "Close that.")
    monkeypatch.setattr(StoreEntryWriter, "write", Mock(side_effect=locked))
    async with logging(squad_store) as pilot:
        await sheet(pilot)
        await press(pilot, "o", "i", "ctrl+s")
        assert isinstance(pilot.app.screen, SheetScreen)
        assert "Another program has it open." in text(pilot)
        drafts = pilot.app.screen.drafts.drafts
        await until(pilot, lambda: drafts.find("P4") is not None)
        assert drafts.find("P4").marks == {"A1": marks(pilot)["A1"]}


async def test_a_store_that_is_not_written_to_says_what_to_do(pilot, answer_source):
    answer_source.entry_writer = None
    await press(pilot, "l")
    assert isinstance(pilot.app.screen, LogMenu)
    assert "seasonboard load my_season/ --store my_season.duckdb" in text(pilot)
    await press(pilot, "a")
    assert isinstance(pilot.app.screen, LogMenu)
    await press(pilot, "escape", "u")
    assert "not written to" in text(pilot)


async def test_a_session_without_a_roster_says_what_to_load(squad_store):
    async with logging(squad_store, today=TODAY + timedelta(days=3)) as pilot:
        source = pilot.app.answer_source
        listed = source.log_sessions(pilot.app.scope, TODAY).sessions[0]
        screen = SheetScreen(source, replace(listed, season="1999"))
        await pilot.app.push_screen(screen)
        await settle(pilot)
        assert "Nobody is on the roster" in text(pilot)
        assert proposed(screen.lines.sheet) == {}
        await press(pilot, "f", "o", "w", "minus", "7", "ctrl+s")
        assert "nothing to save" in text(pilot)


@pytest.mark.long
async def test_a_draft_of_a_session_not_yet_in_the_store_is_listed_first_and_taken_up(squad_store):
    async with logging(squad_store) as pilot:
        await sessions(pilot, "n")
        await sheet(pilot, "down", "f2", "enter")
        await press(pilot, "o", "i", "escape", "d")
        await until(pilot, lambda: "✎ draft" in text(pilot))
        assert rows_held(pilot) == 60
    async with logging(squad_store) as pilot:
        await press(pilot, "l", "a")
        await until(pilot, lambda: "✎ draft" in text(pilot))
        listed = text(pilot).splitlines()[1]
        assert listed.startswith("▌ Thu  3 Sep 2026 12:00 game")
        await asked(pilot, "enter")
        await press(pilot, "y", "ctrl+s")
        await on_the_board(pilot)
        assert rows_held(pilot) == 120
        await asked(pilot, "u")
        await press(pilot, "y")
        await until(pilot, lambda: rows_held(pilot) == 60)
    assert rows(squad_store, "sessions").height == 3
