"""Take-up by eye, and against the same counts made by plain loops."""

from datetime import date

import pytest
from hypothesis import given

from tests.queries.asking import put
from tests.queries.build import at, day, drawn, member, offer, order, session, team
from tests.queries.seasons import scopes
from tests.queries.slow_take_up import SlowTakeUp, working_seasons
from tests.queries.test_queries_against_loops import MODEST, loaded

TOLD = ("offers", "answer", "reason", "orders", "open", "fitted", "for_return")


def people(store, **parts):
    rows = put(store, "take_up/offers", **parts).to_dicts()
    found = {(r["athlete"], r["team"], r["kind"]): tuple(r[n] for n in TOLD) for r in rows}
    assert len(found) == len(rows), "one row per athlete, team and kind"
    return found


def wear(store, **parts):
    names = dict(store._connection.sql("SELECT athlete_no, athlete FROM store.athletes").fetchall())
    return {
        (names[r["athlete_no"]], r["team"], r["kind"], r["week"]): (
            r["sessions"],
            r["worn"],
            r["worn_outside"],
        )
        for r in put(store, "take_up/wear", **parts).to_dicts()
    }


def left_out(store, **parts):
    return {r["why"]: r["number"] for r in put(store, "take_up/left_out", **parts).to_dicts()}


@pytest.fixture
def small():
    """Four athletes, six sessions: A takes a guard up on day 3, B declines, C asks, E is bare."""
    plain = drawn("""
          A  B  C  E
      G1  .  .  .  .
      P2  g  .  .  .
      G3  .  .  .  .
      P4  g  .  og .
      G5  g  .  .  .
      G8@8  .  .  .  .
    """)
    made = plain
    guard, stages = order("g-A", "A", {"requested": at(1, 6), "fitted": at(3, 6)})
    made.stages = [*stages, *order("g-C", "C", {"requested": at(4)})[1]]
    made.offers = [
        offer("O1", "A", day(1), "undecided"),
        offer("O2", "A", day(2), "accepted"),
        offer("O3", "B", day(2), "declined", reason="looks"),
        offer("O4", "C", day(4), "accepted"),
    ]
    assert guard["guard"] == "g-A"
    return made


def test_each_athlete_has_the_last_answer_and_what_was_ordered(load, small):
    assert people(load(small)) == {
        ("A", "T", "chest"): (2, "accepted", None, 1, 0, 1, 0),
        ("B", "T", "chest"): (1, "declined", "looks", 0, 0, 0, 0),
        ("C", "T", "chest"): (1, "accepted", None, 1, 1, 0, 0),
        ("E", "T", None): (0, None, None, 0, 0, 0, 0),
    }


def test_an_earlier_day_knows_the_earlier_answer_and_no_later_stage(load, small):
    found = people(load(small), through=day(1))
    assert found["A", "T", "chest"] == (1, "undecided", None, 1, 1, 0, 0)
    assert found["B", "T", None] == (0, None, None, 0, 0, 0, 0)


def test_sessions_count_from_the_fitting_on_week_by_week(load, small):
    """A was fitted on day 3, a Thursday: bare then, worn on 4, 5, bare on 8; worn early on 2."""
    assert day(3) == date(2026, 9, 3)
    assert wear(load(small)) == {
        ("A", "T", "chest", date(2026, 8, 31)): (3, 2, 1),
        ("A", "T", "chest", date(2026, 9, 7)): (1, 0, 0),
    }


def test_wear_of_someone_out_is_left_out_and_told(load, small):
    why = "the athlete is not recorded as taking part in that session"
    assert left_out(load(small)) == {why: 1}


def test_a_retired_guard_no_longer_counts(load, small):
    small.stages += order("g-A", "A", {"retired": at(5, 6)})[1]
    assert wear(load(small))["A", "T", "chest", date(2026, 8, 31)] == (2, 1, 2)


def test_a_guard_made_for_another_team_is_told_and_not_counted(load, small):
    small.teams.append(team("U", sport="hockey"))
    small.roster.append(member("A", team="U"))
    small.sessions.append(session("G9", day(9), team="U"))
    small.attendance.append({"session": "G9", "athlete": "A", "part": "full"})
    small.wear.append({"session": "G9", "guard": "g-A"})
    store = load(small)
    assert left_out(store, teams=["U"]) == {"made for another team of the athlete": 1}
    assert people(store, teams=["U"]) == {("A", "U", None): (0, None, None, 0, 0, 0, 0)}
    assert wear(store, teams=["U"]) == {}


def test_offer_and_guard_hold_for_the_team_in_later_seasons(load, small):
    """Who was fitted last season is not asked again: offer, fitting and wear go on."""
    small.roster.append(member("A", season="2027"))
    small.sessions.append(session("G20", day(20), season="2027"))
    small.attendance.append({"session": "G20", "athlete": "A", "part": "full"})
    small.wear.append({"session": "G20", "guard": "g-A"})
    store = load(small)
    assert people(store, seasons=["2027"]) == {
        ("A", "T", "chest"): (2, "accepted", None, 1, 0, 1, 0)
    }
    assert list(wear(store, seasons=["2027"]).values()) == [(1, 1, 0)]


def test_a_late_evening_west_of_utc_is_still_that_day(load, small):
    """Fitted at 23:30 in Denver on day 2, which is day 3 in UTC."""
    small.departments[0]["time_zone"] = "America/Denver"
    small.stages = order("g-A", "A", {"fitted": at(3, 5, 30)})[1]
    store = load(small)
    assert people(store, through=day(1))["A", "T", "chest"][5] == 0
    assert people(store, through=day(2))["A", "T", "chest"][5] == 1


@MODEST
@given(season=working_seasons(), parts=scopes())
def test_take_up_is_what_loops_count(season, parts):
    with loaded(season) as store:
        slow = SlowTakeUp(season, parts)
        assert people(store, **parts) == slow.people()
        assert wear(store, **parts) == slow.wear()
        assert left_out(store, **parts) == slow.left_out()
