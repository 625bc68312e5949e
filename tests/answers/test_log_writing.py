"""What the keys of a sheet do to its lines, and the rows that come of it."""

from dataclasses import replace
from datetime import datetime

import pytest

from seasonboard.answers.log.answer import new_session
from seasonboard.answers.log.marks import (
    all_full,
    found_by,
    next_worn,
    with_part,
    worn_choices,
)
from seasonboard.answers.log.parts import LogTeam, Mark
from seasonboard.answers.log.session_start import read_start, usual_start
from seasonboard.answers.log.sheet_entry import (
    is_written,
    label,
    proposed,
    sheet_entry,
    tally,
)
from seasonboard.errors import Problem, ScopeError
from seasonboard.terms import Part, Setting
from tests.queries.build import day, drawn, guard

clock = datetime.fromisoformat

TEAM = LogTeam("T", "women's soccer", "2026", "UTC")


def of(sheet, athlete):
    return next(one for one in sheet.athletes if one.athlete == athlete)


def test_saving_writes_new_rows_and_changed_ones_and_who_each_is_about(sheet):
    season = drawn("A B C\nG1 g g g\nG2 g . -")
    found = sheet(season, "G2")
    marks = proposed(found)
    marks["A"] = with_part(marks["A"], Part.LIMITED)
    marks["B"] = replace(marks["B"], worn=frozenset({"g-B"}))
    marks["C"] = Mark("full", None, 45.0, None, frozenset({"g-C"}))
    written = sheet_entry(found, marks)
    assert written.entry.label == "attendance, T, 2 Sep 12:00"
    rows = {name: list(map(dict, rows)) for name, rows in written.entry.tables.items()}
    empty = {"reason": None, "plays": None}
    assert rows["attendance"] == [
        {"session": "G2", "athlete": "A", "part": "limited", "minutes": None} | empty,
        {"session": "G2", "athlete": "C", "part": "full", "minutes": "45"} | empty,
    ]
    assert rows["wear"] == [
        {"session": "G2", "guard": one, "worn": "yes"} for one in ("g-B", "g-C")
    ]
    told = Problem("attendance, T, 2 Sep 12:00 › wear", 2, "guard", "g-C", "is odd.")
    assert written.athlete_of(told) == "C"
    assert written.athlete_of(replace(told, file=f"{written.entry.label} › attendance")) == "C"
    assert written.athlete_of(replace(told, row=None)) is None


def test_of_one_table_alone_a_problem_names_no_table(sheet):
    found = sheet("A B\nG1 - -", "G1")
    written = sheet_entry(found, proposed(found))
    assert list(written.entry.tables) == ["attendance"]
    assert written.athlete_of(Problem(written.entry.label, 2, "part", "x", "no")) == "B"


def test_who_is_out_or_not_recorded_wears_nothing_and_what_was_recorded_is_changed(sheet):
    found = sheet("A B\nG1 g g\nG2 g -", "G2")
    one = of(found, "A")
    out = with_part(one.proposed, Part.OUT)
    assert out.wears == frozenset()
    written = sheet_entry(found, proposed(found) | {"A": out}).entry
    assert written.tables["wear"] == [{"session": "G2", "guard": "g-A", "worn": "no"}]
    assert with_part(out, Part.FULL).wears == {"g-A"}
    assert not is_written(of(found, "B"), of(found, "B").proposed, is_filled=True)
    assert tally({"A": out, "B": Mark()}).out == 1
    assert tally({"A": out, "B": Mark()}).wearing == 0
    assert worn_choices(one) == (frozenset({"g-A"}), frozenset())


@pytest.mark.parametrize(
    ("is_complete", "wear", "told"),
    [
        (True, {"g-A": "yes", "g-B": "no"}, "yes"),  # C is out, D has no guard
        (False, {"g-A": "yes"}, "no"),
        (None, {"g-A": "yes"}, None),
    ],
)
def test_a_sheet_that_is_complete_says_so_and_who_did_not_wear_a_guard(
    sheet, is_complete, wear, told
):
    found = sheet("A B C D\nG1 g g g .\nG2 - - - -", "G2")
    assert found.is_complete is True  # proposed: nothing of the session is recorded yet
    marks = proposed(found)
    marks["B"] = replace(marks["B"], worn=frozenset())
    marks["C"] = with_part(marks["C"], Part.OUT)
    tables = sheet_entry(found, marks, is_complete=is_complete).entry.tables
    assert {row["guard"]: row["worn"] for row in tables["wear"]} == wear
    said = [{"session": "G2", "wear_complete": told}] if told else []
    assert list(tables.get("sessions", ())) == said


def test_a_sheet_that_was_loaded_says_nothing_of_completeness_by_itself(sheet):
    season = drawn("A B\nG1 g g\nG2 g .")
    assert sheet(season, "G2").is_complete is None
    season.sessions[1]["wear_complete"] = "yes"
    found = sheet(season, "G2")
    assert found.is_complete is True
    assert sheet_entry(found, proposed(found), is_complete=True).is_empty
    changed = sheet_entry(found, proposed(found), is_complete=False).entry.tables
    assert changed == {"sessions": [{"session": "G2", "wear_complete": "no"}]}


def test_w_goes_through_last_time_all_each_and_none(sheet):
    season = drawn("A\nG1 g\nG2 -")
    season.guards += [guard("h-A", "A"), guard("i-A", "A")]
    one = of(sheet(season, "G2"), "A")
    mark, seen = one.proposed, []
    for _ in range(6):
        mark = next_worn(one, mark)
        seen.append("".join(sorted(key[0] for key in mark.worn)))
    assert seen == ["ghi", "h", "i", "", "g", "ghi"]


def test_a_reason_goes_with_its_part_and_minutes_with_playing():
    mark = Mark("limited", "injury", 20.0, 8)
    assert with_part(mark, Part.LIMITED) == mark
    assert with_part(mark, Part.FULL) == Mark("full", None, 20.0, 8)
    assert with_part(mark, Part.OUT) == Mark("out")


def test_all_full_keeps_what_each_wears(sheet):
    found = sheet("A B\nG1 g *\nG2 - -", "G2")
    full = all_full(found, proposed(found))
    assert [mark.part for mark in full.values()] == ["full", "full"]
    assert full["A"].wears == {"g-A"}


def test_jumping_takes_the_whole_number_first_then_words_of_the_name(sheet):
    season = drawn("A1 B2 C3 D4\nG1 - - - -")
    for row, (jersey, name) in zip(
        season.roster,
        (("17", "Ana Lund"), ("7", "Bo Aalund"), ("70", "Cy 7th"), (None, "Éva Ox")),
        strict=True,
    ):
        row.update(jersey=jersey, name=name)
    people = sheet(season, "G1").athletes
    found = {
        typed: (one.athlete if (one := found_by(typed, people)) else None)
        for typed in ("7", "1", "LUN", "aal", "év", "d4", "zz", " ")
    }
    assert found == {
        "7": "B2", "1": "A1", "LUN": "A1", "aal": "B2", "év": "D4", "d4": "D4", "zz": None,
        " ": None,
    }  # fmt: skip


def test_a_new_session_is_named_by_team_and_start_and_one_that_is_there_is_taken(board):
    this = board("A\nG1 .")
    found = this.log_sessions(this.opening_scope(), day(3))
    (team,) = found.teams
    made = new_session(team, clock("2026-09-03T18:30"), Setting.GAME, found.sessions)
    assert (made.session, made.is_new, label(made)) == (
        "T-20260903-1830",
        True,
        "attendance, T, 3 Sep 18:30",
    )
    there = new_session(team, clock("2026-09-01T12:00"), Setting.GAME, found.sessions)
    assert (there.session, there.is_new) == ("G1", False)
    entry = sheet_entry(this.log_sheet(made), {"A": Mark("full")}).entry
    assert list(entry.tables) == ["sessions", "attendance"]
    assert entry.tables["sessions"][0]["starts_at"] == "2026-09-03T18:30"


def test_a_start_is_read_as_it_is_shown_and_moved():
    start = read_start("2026-11-14 18:30 g")
    assert (start.text, start.turned().text) == (
        "2026-11-14 18:30 game",
        "2026-11-14 18:30 practice",
    )
    assert start.moved(days=1, minutes=30).text == "2026-11-15 19:00 game"
    assert read_start(start.text) == start


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("2026-11-14 18:30", "is not day, time and setting"),
        ("14 Nov 18:30 game", "is not day, time and setting"),
        ("2026-11-31 18:30 game", "is not a day and time"),
        ("2026-11-14 25:00 game", "is not a day and time"),
        ("2026-11-14 1830 game", "is not a time"),
        ("2026-11-14 18:30 match", "is neither game nor practice"),
    ],
)
def test_a_start_that_cannot_be_is_told(typed, told):
    with pytest.raises(ScopeError, match=told) as refused:
        read_start(typed)
    assert "2026-11-14 18:30 game" in refused.value.hint


def test_a_new_session_is_offered_today_at_the_team_s_hour(sessions):
    found = sessions("A\nG1 .", day(5))
    assert usual_start("T", day(5), found.sessions).text == "2026-09-05 12:00 game"
    assert usual_start("X", day(5), ()).text == "2026-09-05 15:30 practice"
