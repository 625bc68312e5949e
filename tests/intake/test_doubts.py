"""What hardly can be is kept and noted, with a count."""

import pytest

from seasonboard.errors import Problem
from tests.intake.desk import Desk

INJURIES = "injury,athlete,occurred_on,session,area,side\n"
SESSIONS = "session,team,season,starts_at,setting\n"


def note(desk: Desk, **tables: str) -> Problem:
    plan = desk.plan(**tables)
    assert not plan.is_empty
    (one,) = plan.notes
    return one


def test_two_sessions_of_one_team_at_one_instant(loaded: Desk) -> None:
    one = note(loaded, sessions=SESSIONS + "S9,T1,2026,2026-09-05T23:00Z,game\n")
    assert one.value == "S9"
    assert "same instant" in one.expected


def test_two_teams_at_one_instant_are_nothing_special(loaded: Desk) -> None:
    plan = loaded.plan(sessions=SESSIONS + "S9,T2,2026,2026-09-05T23:00Z,game\n")
    assert plan.notes == ()


def test_wear_by_an_athlete_marked_out(loaded: Desk) -> None:
    """A2, who wears G2, was out of S2."""
    one = note(loaded, wear="session,guard\nS2,G2\n")
    assert "was out of" in one.expected


def test_wear_by_an_athlete_who_is_not_recorded(loaded: Desk) -> None:
    one = note(
        loaded,
        sessions=SESSIONS + "S9,T1,2026,2026-09-09T18:00,game\n",
        wear="session,guard\nS9,G1\n",
    )
    assert "without an attendance row" in one.expected


@pytest.mark.parametrize(
    ("stages", "said"),
    [
        ("delivered,2026-09-08T10:00", "before it was delivered or fitted"),
        ("fitted,2026-09-08T10:00", "before it was delivered or fitted"),
        ("printed,2026-09-01T10:00", "do not say that it was delivered"),
    ],
)
def test_wear_of_a_guard_that_was_not_ready(loaded: Desk, stages: str, said: str) -> None:
    one = note(
        loaded,
        guards="guard,athlete,kind,side,purpose\nG9,A1,hip,left,preventive\n",
        stages=f"guard,stage,reached_at\nG9,{stages}\n",
        wear="session,guard\nS1,G9\n",
    )
    assert said in one.expected


def test_a_guard_is_ready_when_it_is_delivered_though_fitted_later(loaded: Desk) -> None:
    plan = loaded.plan(
        guards="guard,athlete,kind,side,purpose\nG9,A1,hip,left,preventive\n",
        stages="guard,stage,reached_at\n"
        "G9,delivered,2026-09-05T09:00\nG9,fitted,2026-09-06T09:00\n",
        wear="session,guard\nS1,G9\n",
    )
    assert plan.notes == ()


def test_an_injury_before_the_athlete_joined(loaded: Desk) -> None:
    one = note(loaded, injuries=INJURIES + "I9,A1,2026-07-30,,knee,left\n")
    assert one.column == "occurred_on"
    assert "2026-08-01" in one.expected


def test_an_injury_in_a_session_the_athlete_took_no_part_in(loaded: Desk) -> None:
    out = note(loaded, injuries=INJURIES + "I9,A2,2026-09-07,S2,knee,left\n")
    absent = note(loaded, injuries=INJURIES + "I9,A3,2026-09-07,S2,knee,left\n")
    for one in (out, absent):
        assert (one.column, one.value) == ("session", "S2")
        assert "not recorded as taking part" in one.expected


def test_attendance_with_a_team_that_does_not_list_the_athlete(loaded: Desk) -> None:
    one = note(loaded, attendance="session,athlete,part\nS1,A3,full\n")
    assert (one.column, one.value) == ("athlete", "A3")
    other_season = note(
        loaded,
        sessions=SESSIONS + "S9,T1,2027,2027-09-09T18:00,game\n",
        attendance="session,athlete,part\nS9,A1,full\n",
    )
    assert other_season.value == "A1"


@pytest.mark.parametrize(
    ("row", "odd"),
    [
        ("G1,scanned,2026-08-04T09:00", False),
        ("G1,scanned,2026-08-06T09:00", True),
        ("G1,requested,2026-08-12T09:00", False),
        ("G1,cancelled,2026-08-04T09:00", True),
        ("G1,printed,2026-08-10T15:00", False),
        ("G2,scanned,2026-08-19T09:00", True),
        ("G3,scanned,2026-09-20T09:00", False),
    ],
)
def test_stages_out_of_their_usual_order(loaded: Desk, row: str, *, odd: bool) -> None:
    """A stage reached again later is a repeat, not a disorder."""
    notes = loaded.plan(stages="guard,stage,reached_at\n" + row + "\n").notes
    assert [one.value for one in notes] == ([row[:2]] if odd else [])


def test_many_doubtful_rows_are_one_note_with_a_count(loaded: Desk) -> None:
    roster = "athlete,team,season,name\n" + "".join(f"B{i:04},T2,2026,x\n" for i in range(3000))
    rows = "".join(f"S1,B{i:04},full\n" for i in range(3000))
    one = note(loaded, roster=roster, attendance="session,athlete,part\n" + rows)
    assert one.row == 2
    assert "3,000 rows" in one.expected
    assert "2, 3, 4, 5, 6, …" in one.expected
