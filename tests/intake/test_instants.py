"""Local times, clock changes, and the zone each table takes."""

from datetime import UTC, datetime

import pytest

from tests.intake.desk import Desk

SESSION = "session,team,season,starts_at,setting\nS9,{team},2026,{starts_at},game\n"


def start(desk: Desk, starts_at: str, team: str = "T1") -> list[datetime]:
    text = SESSION.format(team=team, starts_at=starts_at)
    return desk.plan(sessions=text).rows["sessions"]["starts_at"].to_list()


@pytest.mark.parametrize(("team", "hour"), [("T1", 14), ("T2", 16)])
def test_a_session_takes_the_zone_of_its_department(loaded: Desk, team: str, hour: int) -> None:
    """9 o'clock is 14:00 UTC in Chicago's summer, 16:00 in Phoenix."""
    assert start(loaded, "2026-07-01T09:00", team) == [datetime(2026, 7, 1, hour, tzinfo=UTC)]


def test_the_same_time_is_fine_where_no_clock_is_changed(loaded: Desk) -> None:
    assert start(loaded, "2026-03-08T02:30", "T2") == [datetime(2026, 3, 8, 9, 30, tzinfo=UTC)]


def test_a_time_that_comes_twice_is_the_earlier_one(loaded: Desk) -> None:
    assert start(loaded, "2026-11-01T01:30") == [datetime(2026, 11, 1, 6, 30, tzinfo=UTC)]


@pytest.mark.parametrize(
    ("written", "notes"), [("2026-11-01T01:30", 1), ("2026-11-01T01:30-06:00", 0)]
)
def test_a_time_that_comes_twice_is_told_unless_its_offset_is_written(loaded, written, notes):
    plan = loaded.plan(sessions=SESSION.format(team="T1", starts_at=written))
    assert sum("stands twice on the clock" in note.expected for note in plan.notes) == notes


def test_elapsed_hours_across_the_clock_change_are_true(loaded: Desk) -> None:
    """From 15:00 to 15:00 over the spring change is 23 hours."""
    text = "guard,stage,reached_at\nG1,shipped,2026-03-07T15:00\nG1,delivered,2026-03-08T15:00\n"
    times = loaded.plan(stages=text).rows["stages"]["reached_at"].sort()
    assert (times[1] - times[0]).total_seconds() == 23 * 3600


@pytest.mark.parametrize(
    ("teams", "hour"), [(["T1"], 14), (["T2"], 16), (["T1", "T2"], 14), (["T2", "T1"], 14)]
)
def test_a_stage_takes_the_zone_of_the_athletes_first_team(loaded, teams, hour) -> None:
    roster = "athlete,team,season,name\n" + "".join(f"B1,{team},2026,Di\n" for team in teams)
    guards = "guard,athlete,kind,side,purpose\nG9,B1,wrist,left,preventive\n"
    stages = "guard,stage,reached_at\nG9,requested,2026-07-01T09:00\n"
    plan = loaded.plan(roster=roster, guards=guards, stages=stages)
    assert plan.rows["stages"]["reached_at"].to_list() == [datetime(2026, 7, 1, hour, tzinfo=UTC)]


def test_the_zone_may_come_in_the_same_load(loaded: Desk) -> None:
    departments = "department,name,plan,time_zone\nD1,North,weekly allotment,Europe/Berlin\n"
    loaded.put(departments=departments)
    assert start(loaded, "2026-07-01T09:00") == [datetime(2026, 7, 1, 7, tzinfo=UTC)]


def played_on(desk: Desk) -> dict[str, str]:
    rows = desk.store._connection.execute("SELECT session, played_on FROM store.sessions")
    return {session: str(day) for session, day in rows.fetchall()}


def test_a_session_is_played_on_its_local_day(own: Desk) -> None:
    own.load(sessions=SESSION.format(team="T1", starts_at="2026-09-06T03:00Z"))
    assert played_on(own)["S9"] == "2026-09-05"


def test_a_new_time_zone_moves_the_local_days_of_stored_sessions(own: Desk) -> None:
    own.load(sessions=SESSION.format(team="T1", starts_at="2026-09-06T03:00Z"))
    (own.folder / "sessions.csv").unlink()
    own.load(departments="department,name,plan,time_zone\nD1,North,weekly allotment,Europe/Paris\n")
    assert played_on(own)["S9"] == "2026-09-06"
    assert played_on(own)["S3"] == "2026-09-06"


def test_a_team_that_moves_to_another_department_moves_its_days_too(own: Desk) -> None:
    own.load(sessions=SESSION.format(team="T1", starts_at="2026-09-06T05:30Z"))
    (own.folder / "sessions.csv").unlink()
    assert played_on(own)["S9"] == "2026-09-06"
    own.load(teams="team,department,sport,sex\nT1,D2,soccer,women\n")
    assert played_on(own)["S9"] == "2026-09-05"
