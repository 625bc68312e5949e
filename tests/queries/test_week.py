"""What a week's questions find, by eye, and against the same rows found by plain loops."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.queries.asking import put
from tests.queries.build import (
    day,
    decision,
    department,
    drawn,
    guard,
    injury,
    member,
    offer,
    session,
    team,
)
from tests.queries.seasons import scopes
from tests.queries.slow_take_up import working_seasons
from tests.queries.slow_week import SlowWeek
from tests.queries.test_queries_against_loops import MODEST, loaded


def ask(store, name, since, **parts):
    return put(store, name, since=since, days=7, **parts).to_dicts()


def injuries(store, since, **parts):
    names = ("known_on", "returned_on", "is_new", "is_return", "team", "is_guarded")
    rows = ask(store, "week/injuries", since, **parts)
    return {r["injury"]: tuple(r[n] for n in names) for r in rows}


@pytest.fixture
def small():
    return drawn("""
          A  B
      G1  .! .
      P8  .  g!
      G9@20  -  -
      G10@27 -  -
      G11@28 -  -
    """)


def test_an_injury_is_new_when_it_was_reported(load, small):
    """A's was reported on day 9; that of B is new on day 2, where it is not said otherwise."""
    small.injuries[0] |= {"reported_on": day(9)}
    store = load(small)
    assert list(injuries(store, day(8), through=day(10))) == ["A-G1!"]
    assert list(injuries(store, day(1), through=day(8))) == ["B-P8!"]


def test_a_return_is_news_on_its_day_and_not_before(load, small):
    store = load(small)
    hurt = {"A-G1!": (day(1), None, True, False, "T", False)}
    assert injuries(store, day(0), through=day(1)) == hurt
    back = {"A-G1!": (day(1), day(11), False, True, "T", False)}
    assert injuries(store, day(9), through=day(11)) == back


def test_what_was_worn_then_stands_beside_the_injury(load, small):
    found = injuries(load(small), day(0), through=day(5))
    assert {key: row[-1] for key, row in found.items()} == {"A-G1!": False, "B-P8!": True}


def test_a_guard_of_the_other_side_did_not_cover_it(load, small):
    small.guards.append(guard("s", "A", kind="shin", side="left"))
    small.wear.append({"session": "G1", "guard": "s"})
    cells = {"session": "G1", "area": "lower leg"}
    small.injuries = [
        injury("left", "A", day(1), side="left", **cells),
        injury("right", "A", day(1), side="right", **cells),
        injury("none", "A", day(1), area="knee", side="left"),
    ]
    found = injuries(load(small), day(0), through=day(5))
    assert {key: row[-1] for key, row in found.items()} == {
        "left": True,
        "right": False,
        "none": None,
    }


def test_an_injury_without_a_session_goes_to_the_season_that_ends_first_after_it(load, small):
    small.teams.append(team("U", sport="hockey"))
    small.roster.append(member("A", team="U"))
    small.sessions.append(session("G40", day(40), team="U"))
    small.injuries = [injury("x", "A", day(2)), injury("y", "A", day(30))]
    found = injuries(load(small), day(0), through=day(35))
    assert {key: row[4] for key, row in found.items()} == {"x": "T", "y": "U"}


def test_games_ahead_are_those_of_the_next_seven_days(load, small):
    """Day 20's own game was recorded by nobody, so it is still ahead at the end of day 20."""
    store = load(small)
    found = [
        [r["session"] for r in ask(store, "week/games", day(0), through=day(n))] for n in (20, 21)
    ]
    assert found == [["G9", "G10"], ["G10", "G11"]]


def test_decisions_stay_until_they_are_done(load, small):
    small.departments.append(department("H"))
    small.decisions = [
        decision("made", day(10), due_on=day(12)),
        decision("old", day(1), done_on=day(10)),
        decision("done", day(1), done_on=day(5)),
        decision("elsewhere", day(10), department="H"),
        decision("later", day(20)),
    ]
    store = load(small)
    rows = ask(store, "week/decisions", day(7), through=day(14), departments=["D"])
    assert [(r["decision"], r["done_on"]) for r in rows] == [("made", None), ("old", day(10))]
    rows = ask(store, "week/decisions", day(7), through=day(9))
    assert [(r["decision"], r["done_on"]) for r in rows] == [("old", None)]
    rows = ask(store, "week/decisions", day(7), through=day(14))
    assert {r["decision"] for r in rows} == {"made", "old", "elsewhere"}, "also without a team"


def test_loads_are_those_of_the_days(load, small):
    store = load(small)
    at = store._connection.sql("SELECT loaded_at FROM store.loads").fetchall()[0][0].date()
    day_before = at - timedelta(days=1)
    (row,) = ask(store, "week/loads", day_before, through=at)
    assert (row["files"], row["changed_rows"]) == (9, 0)
    assert row["new_rows"] == sum(
        len(getattr(small, name))
        for name in (
            *("kinds", "departments", "teams", "roster", "sessions"),
            *("attendance", "guards", "wear", "injuries"),
        )
    )
    assert ask(store, "week/loads", at, through=at + timedelta(days=7)) == []
    assert ask(store, "week/loads", date(2020, 1, 1), through=day_before) == []


def test_offers_of_the_days_by_team(load, small):
    small.offers = [offer("O1", "A", day(3), "declined"), offer("O2", "A", day(9), "accepted")]
    rows = ask(load(small), "week/offers", day(3), through=day(9))
    assert [(r["offer"], r["team"], r["answer"]) for r in rows] == [("O2", "T", "accepted")]


@MODEST
@given(season=working_seasons(), parts=scopes(), back=st.integers(1, 20))
def test_a_week_is_what_loops_find(season, parts, back):
    since = parts["until"] - timedelta(days=back + 1)
    through = parts["until"] - timedelta(days=1)
    with loaded(season) as store:
        slow = SlowWeek(season, parts, since)
        asked = parts | {"through": through}
        assert injuries(store, since, **asked) == slow.injuries()
        offers = ask(store, "week/offers", since, **asked)
        assert {r["offer"]: r["team"] for r in offers} == slow.offers_made()
        decisions = ask(store, "week/decisions", since, **asked)
        assert {r["decision"]: r["done_on"] for r in decisions} == slow.decisions()
        games = ask(store, "week/games", since, **asked)
        assert {r["session"] for r in games} == slow.games(7)


def shared(rows, names):
    """Return the rows by guard, each with the named columns."""
    return {row["guard"]: {name: row[name] for name in names} for row in rows}


@MODEST
@given(season=working_seasons(), parts=scopes(), dice=st.randoms(use_true_random=False))
def test_orders_and_remakes_are_those_of_the_questions_that_ask_for_them_alone(season, parts, dice):
    """`week/orders` tells in one what Orders and Remakes ask for in two."""
    for row in season.guards:
        of_anyone = dice.random() < 0.2
        others = [g["guard"] for g in season.guards if of_anyone or g["athlete"] == row["athlete"]]
        if others.index(row["guard"]) and dice.random() < 0.7:
            row["remake_of"] = others[0]
            row["remake_reason"] = dice.choice([None, "fit", "lost"])
    with loaded(season) as store:
        found = ask(store, "week/orders", day(0), **parts)
        other = ask(store, "orders/orders", day(0), **parts)
        names = (set(found[0]) & set(other[0])) if found else set()
        assert shared(found, names) == shared(other, names)
        assert len(found) == len(other)
        guards = {row["guard"]: row for row in ask(store, "remakes/guards", day(0), **parts)}
        names = ("successor", "counts_as", "reason", "successor_asked_on")
        successors = {guard: tuple(row[n] for n in names) for guard, row in guards.items()}
        mine = {g["guard"]: g["athlete"] for g in season.guards}
        for row in found:
            names = ("successor", "successor_counts_as", "successor_reason", "successor_asked_on")
            assert successors.get(row["guard"], (None,) * 4) == tuple(row[n] for n in names)
            assert (row["made_as"] is not None) == (mine.get(row["remake_of"]) == row["athlete"])
