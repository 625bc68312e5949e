"""Writing a session down by exception, by keys, into a store on disk."""

from dataclasses import replace

import pytest

from seasonboard.answers.log.parts import Mark
from seasonboard.entries import Entry
from seasonboard.store.intake.plan import plan_entry
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import open_store
from seasonboard.ui.log.sheet_page import GLYPHS
from seasonboard.ui.log.sheet_screen import SheetScreen
from seasonboard.ui.windows.chooser import Chooser
from seasonboard.ui.windows.confirm import AskScreen
from tests.queries.build import day
from tests.ui.board import press, settle, text, until
from tests.ui.logging_season import (
    TO_SHEET,
    TODAY,
    line,
    logging,
    marks,
    on_the_board,
    rows,
    sessions,
    sheet,
)


async def test_sixty_athletes_with_five_exceptions_in_under_forty_keys(squad_store):
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
    async with logging(squad_store) as pilot:
        assert "2 games" in text(pilot)
        assert pilot.app.scope.through == day(2)
        for key in keys:
            await press(pilot, key)
        await on_the_board(pilot)
        assert "Saved: 82 new rows, 1 changed" in text(pilot)
        await until(pilot, lambda: "1 practice" in text(pilot) or "practices" in text(pilot))
        assert pilot.app.scope.through == TODAY, "a later day becomes the last one"
        assert pilot.app.screen.answer.summary.scope.through == TODAY
    found = rows(squad_store, "attendance").filter(session="P4")
    not_full = found.filter(found["part"] != "full").sort("athlete")
    assert found.height == 60
    assert not_full.select("athlete", "part", "reason").rows() == [
        ("A17", "out", "illness"),
        ("A30", "out", "selection"),
        ("A35", "limited", "personal"),
        ("A5", "out", "injury"),
        ("A8", "limited", None),
    ]
    worn = set(rows(squad_store, "wear").filter(session="P4", worn="yes")["guard"])
    assert worn == {f"c-A{n}" for n in (*range(1, 61, 3), 9)} - {"c-A4"} | {"s-A9"}


@pytest.mark.long
async def test_each_key_does_to_the_line_what_it_says(squad_store):
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
    async with logging(squad_store) as pilot:
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


async def test_a_line_says_in_words_and_glyphs_what_is_written(squad_store):
    async with logging(squad_store) as pilot:
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


@pytest.mark.long
async def test_a_recorded_row_can_be_changed_but_not_taken_out(squad_store):
    async with logging(squad_store) as pilot:
        await sessions(pilot)
        await sheet(pilot, "end", "enter")
        assert line(pilot, 1).startswith("▌=")
        await press(pilot, "ctrl+s")
        assert "nothing to save" in text(pilot)
        assert isinstance(pilot.app.screen, SheetScreen)
        await press(pilot, "minus")
        assert "can be changed but not taken out" in text(pilot)
        await press(pilot, "4", "w")
        assert line(pilot, 4).startswith("▌~")
        await press(pilot, "1", "o", "i")
        assert line(pilot, 1).startswith("▌~")
        assert "◇ not worn: chest" in line(pilot, 1)
        await press(pilot, "ctrl+s")
    found = rows(squad_store, "attendance").filter(session="G1", athlete="A1")
    assert found.select("part", "reason").row(0) == ("out", "injury")
    assert rows(squad_store, "attendance").height == 60
    unworn = rows(squad_store, "wear").filter(session="G1", worn="no")["guard"]
    assert set(unworn) == {"c-A1", "c-A4"}


@pytest.mark.long
async def test_whether_wear_is_complete_is_chosen_seen_and_written(squad_store):
    async with logging(squad_store) as pilot:
        await sessions(pilot)
        assert "athletes w? women" in text(pilot)
        await press(pilot, "escape")
        await sheet(pilot)
        assert "c wear of all recorded" in text(pilot)
        await press(pilot, "c")
        assert "c wear not of all" in text(pilot)
        await press(pilot, "c", "1", "w", "ctrl+s")
        await on_the_board(pilot)
        await sessions(pilot)
        assert "athletes w✓ women" in text(pilot)
    (said,) = rows(squad_store, "sessions").filter(session="P4")["wear_complete"]
    wear = rows(squad_store, "wear").filter(session="P4", guard="c-A1")
    assert (said, wear["worn"].item()) == ("yes", "no")


@pytest.mark.long
async def test_problems_stand_under_their_athlete_and_nothing_is_written(squad_store):
    async with logging(squad_store) as pilot:
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


@pytest.mark.long
async def test_doubts_are_shown_and_saved_anyway_or_not(squad_store):
    """A guard whose stages do not say that it was delivered is worn: kept, but doubtful."""
    with open_store(squad_store, read_only=False) as held:
        stage = {"guard": "c-A4", "stage": "requested", "reached_at": "2026-08-01T12:00"}
        write_load(held, plan_entry(held, Entry("asked for", {"stages": [stage]})))
    async with logging(squad_store) as pilot:
        await sheet(pilot)
        await press(pilot, "ctrl+s")
        assert isinstance(pilot.app.screen, AskScreen)
        assert "1 doubt. Save anyway?" in text(pilot)
        assert "c-A4" in text(pilot)
        await press(pilot, "escape")
        assert "▲" in text(pilot)
        assert pilot.app.screen.lines.here.athlete == "A4"
        await press(pilot, "ctrl+s", "s")
        await on_the_board(pilot)
    assert rows(squad_store, "attendance").filter(session="P4").height == 60


@pytest.mark.long
async def test_a_new_session_is_made_on_the_spot_and_written_with_its_sheet(squad_store):
    async with logging(squad_store) as pilot:
        await sessions(pilot, "n")
        await press(pilot, "f2", "pageup", "down", "enter")
        assert "Thu 3 Sep 12:30 game" in text(pilot)
        assert "new session" in text(pilot)
        await press(pilot, "ctrl+s")
    (made,) = rows(squad_store, "sessions").filter(session="T-20260903-1230").to_dicts()
    assert (str(made["starts_at"]), made["setting"]) == ("2026-09-03 12:30:00+00:00", "game")
    assert rows(squad_store, "attendance").filter(session="T-20260903-1230").height == 60
