"""Writing a session down: which session, and what is proposed for whom."""

from dataclasses import replace
from datetime import datetime

import pytest

from seasonboard.answers.log.parts import LogTeam, Mark
from seasonboard.answers.log.sheet_entry import proposed, sheet_entry
from tests.queries.build import at, day, department, drawn, guard, injury, member, order, session

clock = datetime.fromisoformat

TEAM = LogTeam("T", "women's soccer", "2026", "UTC")


def of(sheet, athlete):
    return next(one for one in sheet.athletes if one.athlete == athlete)


def test_sessions_by_today_the_last_on_top_with_what_is_recorded(sessions):
    found = sessions("""
            A B
      G1    . .
      P2    . -
      G3    - -
      G9@9  - -
    """, day(4))  # fmt: skip
    told = [(one.session, one.recorded, one.setting) for one in found.sessions]
    assert told == [("G3", 0, "game"), ("P2", 1, "practice"), ("G1", 2, "game")]
    assert found.names["T"] == "women's soccer at College D"
    assert found.teams == (replace(TEAM, name=found.names["T"]),)


@pytest.mark.parametrize(
    ("rows", "today", "proposed"),
    [
        ("G1 . \n P2 - \n G3 -", 3, "G3"),  # today's
        ("G1 . \n P2 - \n G3 .", 3, "P2"),  # the latest one without
        ("G1 - \n P2 - \n G3 -", 9, "G3"),
        ("G1 . \n P2 .", 9, "P2"),  # none is without: the last one held
        ("G1 . \n P5@5 -", 3, "G1"),  # one to come is none of today's
    ],
)
def test_today_s_session_is_proposed_else_the_latest_without_attendance(
    sessions, rows, today, proposed
):
    found = sessions(f"A\n{rows}", day(today))
    assert found.sessions[found.proposed].session == proposed


def test_of_two_today_the_first_without_attendance_is_proposed(sessions):
    season = drawn("A\nG1 .")
    season.sessions += [
        session("P8", day(2), starts_at=clock("2026-09-02T08:00")),
        session("P15", day(2), starts_at=clock("2026-09-02T15:00")),
    ]
    found = sessions(season, day(2))
    assert found.sessions[found.proposed].session == "P8"


def test_nothing_is_proposed_where_there_is_none(sessions):
    season = drawn("A\nG1 .")
    season.sessions, season.attendance = [], []
    found = sessions(season, day(2))
    assert (found.sessions, found.proposed) == ((), None)
    assert [team.team for team in found.teams] == ["T"]


def test_everybody_is_proposed_full_in_what_they_wore_when_they_last_took_part(sheet):
    found = sheet("""
          A B C D
      G1  g g . -
      P2  . o . -
      G3  - - - -
    """, "G3")  # fmt: skip
    summary = {
        one.athlete: (one.proposed.part, sorted(one.proposed.wears)) for one in found.athletes
    }
    assert summary == {
        "A": ("full", []),  # went without in P2
        "B": ("full", ["g-B"]),  # was out of P2
        "C": ("full", []),
        "D": ("full", []),
    }
    assert (of(found, "B").last_part, of(found, "B").last_on) == ("out", day(2))
    assert of(found, "D").last_part is None


def test_an_open_injury_proposes_out_and_limited_for_who_took_part_since(sheet):
    found = sheet("""
          A B C D
      G1  * * ! .
      P2  o l o .
      G20@20 - - - -
    """, "G20")  # fmt: skip
    summary = {one.athlete: (one.proposed.part, one.proposed.reason) for one in found.athletes}
    assert summary == {
        "A": ("out", "injury"),
        "B": ("limited", "injury"),
        "C": ("full", None),  # back since day 11
        "D": ("full", None),
    }
    assert [one.is_because for one in found.athletes] == [True, True, False, False]
    assert (of(found, "A").open_area, of(found, "A").open_on) == ("chest", day(1))


def test_an_injury_of_the_day_itself_or_later_does_not_propose_out(sheet):
    season = drawn("A B C\nG3@3 - - -")
    season.injuries = [
        injury("I1", "A", day(3)),
        injury("I2", "B", day(9)),
        injury("I3", "C", day(1), returned_on=day(3)),
    ]
    assert {one.proposed.part for one in sheet(season, "G3").athletes} == {"full"}


def test_a_guard_fitted_since_takes_the_place_of_the_one_it_replaces(sheet):
    season = drawn("A B C\nG1 g g g\nG9@9 - - -")
    season.guards += [
        guard("n-A", "A", remake_of="g-A", remake_reason="fit"),
        guard("n-B", "B", remake_of="g-B", remake_reason="fit"),
    ]
    season.stages = [
        *order("n-A", "A", {"requested": at(2), "fitted": at(5)})[1],
        *order("n-B", "B", {"requested": at(2), "shipped": at(5)})[1],
        *order("g-C", "C", {"requested": at(-9), "fitted": at(-5), "retired": at(4)})[1],
    ]
    found = sheet(season, "G9")
    assert {one.athlete: sorted(one.proposed.worn) for one in found.athletes} == {
        "A": ["n-A"],
        "B": ["g-B"],  # its remake is not there yet
        "C": [],  # retired
    }
    assert [one.guard for one in of(found, "A").guards] == ["g-A", "n-A"]
    assert [one.guard for one in of(found, "B").guards] == ["g-B"]
    assert of(found, "C").guards == ()


def test_who_joins_later_or_has_left_is_not_on_the_sheet_but_who_was_there_is(sheet):
    season = drawn("A B C\nG1 . . .\nG5@5 . . -", roster={
        "A": {"joined_on": day(7)}, "B": {"left_on": day(3)}, "C": {"joined_on": day(5)},
    })  # fmt: skip
    found = sheet(season, "G5")
    assert {one.athlete: one.is_listed for one in found.athletes} == {
        "A": False,
        "B": False,
        "C": True,
    }
    season.attendance = [row for row in season.attendance if row["session"] != "G5"]
    assert [one.athlete for one in sheet(season, "G5").athletes] == ["C"]


def test_a_session_that_was_begun_shows_what_is_recorded_and_adds_nothing_by_itself(sheet):
    season = drawn("A B C\nG1 g g .\nG2 g o -")
    season.attendance[-2] |= {"minutes": 30, "plays": 12}
    found = sheet(season, "G2")
    assert of(found, "A").proposed == Mark("full", None, 30.0, 12, frozenset({"g-A"}))
    assert of(found, "B").proposed.part == "out"
    assert of(found, "C").proposed.part is None
    assert sheet_entry(found, proposed(found)).is_empty
    assert found.session.recorded == 2


def test_lines_stand_by_jersey_numbers_as_numbers(sheet):
    season = drawn("A B C D\nG1 - - - -")
    for row, jersey in zip(season.roster, ("10", "9", None, "00"), strict=True):
        row["jersey"] = jersey
    assert [one.athlete for one in sheet(season, "G1").athletes] == ["D", "B", "A", "C"]


def test_the_day_is_the_department_s_not_the_world_s(sheet):
    """A game at 20:00 in Chicago is on the next day in UTC."""
    season = drawn("A\nG1@1 -")
    season.departments = [department("D", time_zone="America/Chicago")]
    season.sessions[0]["starts_at"] = clock("2026-09-01T20:00")
    season.roster = [member("A", left_on=day(1))]
    found = sheet(season, "G1")
    assert found.session.day == day(1)
    assert [one.athlete for one in found.athletes] == ["A"]
