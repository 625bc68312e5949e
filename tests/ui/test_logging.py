"""Writing a session down by exception, by keys, into a store on disk."""

import re
from dataclasses import replace
from datetime import timedelta

import pytest
from textual.widgets import Footer

from seasonboard.answers.log_parts import Mark
from seasonboard.answers.log_writing import proposed
from seasonboard.store.intake import export_tables
from seasonboard.store.keeper import StoreKeeper
from seasonboard.store.store import open_store
from seasonboard.ui.screens.ask import AskScreen
from seasonboard.ui.screens.base import BoardScreen
from seasonboard.ui.screens.chooser import Chooser
from seasonboard.ui.screens.help import HelpScreen
from seasonboard.ui.screens.log import FORMS, LogMenu
from seasonboard.ui.screens.log_sessions import SessionsScreen
from seasonboard.ui.screens.sheet import SheetScreen
from seasonboard.ui.screens.sheet_keys import SheetKeys
from seasonboard.ui.sheet_page import GLYPHS
from tests.queries.build import day
from tests.ui.board import LARGE, opened, press, settle, text, until
from tests.ui.logging_season import TODAY, logging, squad, store_of

LOG_SCREENS = (SheetScreen, SheetKeys, SessionsScreen, LogMenu, AskScreen)
TO_SHEET = ("l", "a", "enter")


@pytest.fixture(scope="module")
def loaded(tmp_path_factory):
    return store_of(squad(), tmp_path_factory.mktemp("squad"))


@pytest.fixture
def store(loaded, tmp_path, monkeypatch):
    """Give a store of its own to each test, and a folder for drafts."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    path = tmp_path / "season.store"
    path.write_bytes(loaded.read_bytes())
    return path


def rows(path, table):
    with open_store(path) as held:
        return export_tables(held)[table]


def marks(pilot):
    screen = pilot.app.screen
    assert isinstance(screen, SheetScreen)
    return screen.marks


async def sheet(pilot, *keys):
    """Open a sheet by keys, and wait until it is there."""
    await press(pilot, *(keys or TO_SHEET))
    await until(pilot, lambda: getattr(pilot.app.screen, "sheet", None) is not None)
    await settle(pilot)


async def on_the_board(pilot):
    """Wait until the board is back and its answer is there."""
    await until(pilot, lambda: isinstance(pilot.app.screen, BoardScreen))
    await settle(pilot)


def line(pilot, athlete):
    """Return the line of one jersey number as shown."""
    is_it = re.compile(rf"[▌ ][+~= ] *{athlete} ").match
    return next(one for one in text(pilot).splitlines() if is_it(one))


async def test_sixty_athletes_with_five_exceptions_in_under_forty_keys(store):
    keys = [
        *TO_SHEET,
        *("slash", "1", "7", "enter", "o", "l"),  # out, ill
        *("slash", *"vega-8", "enter", "l"),  # limited, for no reason given
        *("4", "w"),  # not worn
        *("3", "0", "o", "s"),  # not selected
        *("3", "5", "l", "p"),
        "ctrl+s",
    ]
    assert len(keys) < 40
    async with logging(store) as pilot:
        for key in keys:
            await press(pilot, key)
        await on_the_board(pilot)
        assert "Saved: 81 new rows" in text(pilot)
    found = rows(store, "attendance").filter(session="P4")
    not_full = found.filter(found["part"] != "full").sort("athlete")
    assert found.height == 60
    assert not_full.select("athlete", "part", "reason").rows() == [
        ("A17", "out", "illness"),
        ("A30", "out", "selection"),
        ("A35", "limited", "personal"),
        ("A5", "out", "injury"),
        ("A8", "limited", None),
    ]
    worn = set(rows(store, "wear").filter(session="P4")["guard"])
    assert worn == {f"c-A{n}" for n in (*range(1, 61, 3), 9)} - {"c-A4"} | {"s-A9"}


async def test_saving_asks_the_board_anew_and_a_later_day_becomes_the_last_one(store):
    async with logging(store) as pilot:
        before = pilot.app.scope.through
        assert "2 games" in text(pilot)
        await sheet(pilot)
        await press(pilot, "ctrl+s")
        await until(pilot, lambda: "1 practice" in text(pilot) or "practices" in text(pilot))
        assert before == day(2)
        assert pilot.app.scope.through == TODAY
        assert pilot.app.screen.answer.said.scope.through == TODAY


async def test_each_key_does_to_the_line_what_it_says(store):
    steps = [
        (("9", "o", "o"), Mark("out", "other")),
        (("f",), Mark("full")),
        (("l", "l"), Mark("limited", "illness")),
        (("l", "down", "up"), Mark("limited", "illness")),  # moving on gives no reason
        (("n", "4", "5", ".", "5", "enter"), Mark("limited", "illness", 45.5)),
        (("p", "3", "0", "down", "up"), Mark("limited", "illness", 45.5, 30)),
        (("n", "8", "escape"), Mark("limited", "illness", 45.5, 30)),
        (("p", "backspace", "enter"), Mark("limited", "illness", 45.5)),
        (("f", "minus"), Mark()),
        (("w", "n"), Mark()),  # who is not recorded wears nothing and plays nothing
    ]
    async with logging(store) as pilot:
        await sheet(pilot)
        worn = marks(pilot)["A9"].worn
        assert worn == {"c-A9", "s-A9"}
        await press(pilot, "9")
        for keys, mark in steps:
            await press(pilot, *keys)
            assert marks(pilot)["A9"] == replace(mark, worn=worn), keys
        await press(pilot, "9", "f", "w")
        assert marks(pilot)["A9"].wears == {"c-A9"}
        assert "◆ chest" in line(pilot, 9)
        await press(pilot, "W")
        assert isinstance(pilot.app.screen, Chooser)
        await press(pilot, "home", "enter")
        assert marks(pilot)["A9"].wears == frozenset()
        assert "◇ not worn: chest, left" in line(pilot, 9)
        await press(pilot, "F")
        assert {mark.part for mark in marks(pilot).values()} == {"full"}
        await press(pilot, "F")
        assert marks(pilot)["A5"] == Mark("out", "injury")


async def test_a_line_says_in_words_and_glyphs_what_is_written(store):
    async with logging(store) as pilot:
        await sheet(pilot)
        assert "59 full, 0 limited, 1 out; 21 wearing" in text(pilot)
        assert "○ out, injury · proposed" in line(pilot, 5)
        await press(pilot, "5")
        assert "open injury: chest since 2 Sep" in " ".join(text(pilot).split())
        await press(pilot, "l", "i", "n", "2", "0", "enter")
        assert "◐ limited, injury, 20 min" in line(pilot, 5)
        assert line(pilot, 5).startswith("▌+")
        await press(pilot, "6", "minus")
        assert "· not recorded" in line(pilot, 6)
        assert line(pilot, 6).startswith("▌ ")
        assert "58 full, 1 limited, 0 out; 21 wearing; 1 not recorded" in text(pilot)
    assert len(set(GLYPHS.values())) == 4


async def test_a_recorded_row_can_be_changed_but_not_taken_out(store):
    async with logging(store) as pilot:
        await sheet(pilot, "l", "a", "end", "enter")
        assert line(pilot, 1).startswith("▌=")
        await press(pilot, "minus")
        assert "can be changed but not taken out" in text(pilot)
        await press(pilot, "w")
        assert "can be changed but not taken out" in text(pilot)
        await press(pilot, "o", "i")
        assert line(pilot, 1).startswith("▌~")
        assert "◆ stays recorded: chest" in line(pilot, 1)
        await press(pilot, "ctrl+s")
    found = rows(store, "attendance").filter(session="G1", athlete="A1")
    assert found.select("part", "reason").row(0) == ("out", "injury")
    assert rows(store, "attendance").height == 60


async def test_nothing_to_save_is_told(store):
    async with logging(store) as pilot:
        await press(pilot, "l", "a", "end", "enter", "ctrl+s")
        assert "nothing to save" in text(pilot)
        assert isinstance(pilot.app.screen, SheetScreen)


async def test_problems_stand_under_their_athlete_and_nothing_is_written(store):
    async with logging(store) as pilot:
        await sheet(pilot)
        await press(pilot, "3", "0", "n", *"999999", "enter", "home", "ctrl+s")
        await settle(pilot)
        assert isinstance(pilot.app.screen, SheetScreen)
        shown = text(pilot).splitlines()
        at = next(n for n, one in enumerate(shown) if one.startswith("▌") and " 30 " in one[:8])
        assert "▲" in shown[at + 1]
        assert "999999" in shown[at + 1]
        assert "Nothing was saved: 1 problem." in text(pilot)
        await press(pilot, "n", "9", "0", "enter")
        assert "▲" not in text(pilot)
        await press(pilot, "ctrl+s")
        await on_the_board(pilot)


async def test_doubts_are_shown_and_saved_anyway_or_not(store):
    """A guard whose stages do not say that it was delivered is worn: kept, but doubtful."""
    with open_store(store, read_only=False) as held:
        from seasonboard.keeping import Entry
        from seasonboard.store.intake.plan import plan_entry
        from seasonboard.store.intake.write import write_load

        stage = {"guard": "c-A4", "stage": "requested", "reached_at": "2026-08-01T12:00"}
        write_load(held, plan_entry(held, Entry("asked for", {"stages": [stage]})))
    async with logging(store) as pilot:
        await sheet(pilot)
        await press(pilot, "ctrl+s")
        assert isinstance(pilot.app.screen, AskScreen)
        assert "1 doubt. Save anyway?" in text(pilot)
        assert "c-A4" in text(pilot)
        await press(pilot, "escape")
        assert "▲" in text(pilot)
        assert pilot.app.screen.here.athlete == "A4"
        await press(pilot, "ctrl+s", "s")
        await on_the_board(pilot)
    assert rows(store, "attendance").filter(session="P4").height == 60


async def test_a_new_session_is_made_on_the_spot_and_written_with_its_sheet(store):
    async with logging(store) as pilot:
        await press(pilot, "l", "a", "n")
        await press(pilot, "f2", "pageup", "down", "enter")
        assert "Thu 3 Sep 12:30 game" in text(pilot)
        assert "new session" in text(pilot)
        await press(pilot, "ctrl+s")
    (made,) = rows(store, "sessions").filter(session="T-20260903-1230").to_dicts()
    assert (str(made["starts_at"]), made["setting"]) == ("2026-09-03 12:30:00+00:00", "game")
    assert rows(store, "attendance").filter(session="T-20260903-1230").height == 60


async def test_a_hundred_athletes_keep_head_and_foot_in_sight(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    path = store_of(squad(100), tmp_path)
    async with logging(path) as pilot:
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


@pytest.mark.parametrize("size", [(60, 15), (80, 24), LARGE, (200, 60)])
async def test_every_line_fits_and_the_footer_hides_nothing(store, size):
    async with logging(store, size=size) as pilot:
        await sheet(pilot)
        assert max(map(len, text(pilot).splitlines())) <= size[0]
        assert "○ out, injury" in line(pilot, 5)
        assert "◆ chest" in line(pilot, 1)
        if size[0] >= 80:
            assert pilot.app.screen.query_one(Footer).max_scroll_x == 0


async def test_without_colour_and_in_sixteen_the_sheet_reads_the_same(store, monkeypatch):
    shown = []
    for name, value in (("COLORTERM", "truecolor"), ("NO_COLOR", "1"), ("COLORTERM", "")):
        monkeypatch.setenv(name, value)
        async with logging(store) as pilot:
            await sheet(pilot)
            shown.append(text(pilot))
        monkeypatch.delenv("NO_COLOR", raising=False)
    assert shown[0] == shown[1] == shown[2]


async def test_help_of_the_sheet_names_every_key(store):
    async with logging(store, size=(120, 60)) as pilot:
        await sheet(pilot)
        active = [one.binding for one in pilot.app.screen.active_bindings.values()]
        await press(pilot, "question_mark")
        assert isinstance(pilot.app.screen, HelpScreen)
        told = " ".join(text(pilot).replace("│", " ").split())
        assert [one.tooltip for one in active if one.id and one.tooltip not in told] == []
        assert "nothing: not written" in told


async def test_every_key_of_the_log_has_an_id_and_says_what_it_does():
    kept = [one for where in LOG_SCREENS for one in where.BINDINGS]
    assert all(one.id and one.tooltip for one in kept)
    assert len({form.key for form in FORMS}) == len(FORMS)


async def test_leaving_asks_once_and_only_about_changes(store):
    async with logging(store) as pilot:
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
    found = rows(store, "attendance").filter(session="P4", athlete="A1")
    assert found["part"].to_list() == ["out"]


async def test_an_entry_is_taken_back_on_any_screen_after_a_restart_too(store):
    before = rows(store, "attendance")
    async with logging(store) as pilot:
        await sheet(pilot)
        await press(pilot, "ctrl+s")
    async with logging(store, screen="roster") as pilot:
        await press(pilot, "u")
        await until(pilot, lambda: isinstance(pilot.app.screen, AskScreen))
        await settle(pilot)
        assert "attendance, T, 4 Sep 12:00" in text(pilot)
        await press(pilot, "escape")
        assert rows_held(pilot) == 120
        await press(pilot, "u")
        await until(pilot, lambda: isinstance(pilot.app.screen, AskScreen))
        await press(pilot, "y")
        await until(pilot, lambda: "Taken back: attendance, T" in text(pilot))
        await settle(pilot)
        assert rows_held(pilot) == 60
        assert pilot.app.scope.through == day(2)
    assert rows(store, "attendance").equals(before)


def rows_held(pilot):
    keeper = pilot.app.asker.keeper
    assert isinstance(keeper, StoreKeeper)
    return keeper._held.read("store/attendance").height


async def test_a_store_open_elsewhere_is_told_and_the_sheet_stays(store, monkeypatch):
    from seasonboard.errors import StoreLockedError

    def locked(*_):
        raise StoreLockedError("Another program has it open.", "Close that.")

    monkeypatch.setattr(StoreKeeper, "write", locked)
    async with logging(store) as pilot:
        await sheet(pilot)
        await press(pilot, "o", "i", "ctrl+s")
        assert isinstance(pilot.app.screen, SheetScreen)
        assert "Another program has it open." in text(pilot)
        drafts = pilot.app.screen._drafts
        await until(pilot, lambda: drafts.find("P4") is not None)
        assert drafts.find("P4").marks == {"A1": marks(pilot)["A1"]}


async def test_the_sample_season_says_that_it_is_not_written_to_and_what_to_do():
    from tests.ui.stand_in import StandIn

    asker = StandIn()
    asker.keeper = None
    async with opened(asker) as pilot:
        await press(pilot, "l")
        assert isinstance(pilot.app.screen, LogMenu)
        assert "seasonboard load my_season/ --store my_season.duckdb" in text(pilot)
        await press(pilot, "a")
        assert isinstance(pilot.app.screen, LogMenu)
        await press(pilot, "escape", "u")
        assert "not written to" in text(pilot)


async def test_a_session_without_a_roster_says_what_to_load(store):
    async with logging(store, today=TODAY + timedelta(days=3)) as pilot:
        screen = SheetScreen(
            pilot.app.asker,
            replace(
                pilot.app.asker.log_sessions(pilot.app.scope, TODAY).sessions[0], season="1999"
            ),
        )
        await pilot.app.push_screen(screen)
        await settle(pilot)
        assert "Nobody is on the roster" in text(pilot)
        assert proposed(screen.sheet) == {}
        await press(pilot, "f", "o", "w", "minus", "7", "ctrl+s")
        assert "nothing to save" in text(pilot)
