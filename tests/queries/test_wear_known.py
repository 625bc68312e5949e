"""Worn, not worn and not known, on seasons small enough to check by eye."""

from datetime import date

import pytest

from tests.queries import asking
from tests.queries.build import Season, at, day, drawn, guard, stamp
from tests.queries.slow import UNKNOWN

GRID = "A B C D\nG1 g g . .\nP2 g . . .\nG3 g . * ."
"""B has no row of wear in P2 and G3; D was fitted with a guard before G1 and never wore it."""


def owners(**complete: str) -> Season:
    """Return the season of `GRID`; sessions named are marked."""
    season = drawn(GRID)
    for s in season.sessions:
        s["wear_complete"] = complete.get(s["session"])
    season.guards.append(guard("g-D", "D"))
    season.stages = [stamp("g-D", "fitted", at(0))]
    return season


def states(store, **parts) -> dict[tuple[str, str], str]:
    """Return worn, not worn or not known by session and athlete, of guard owners."""
    return {(session, athlete): wear for session, athlete, wear in asking.owned(store, **parts)}


def test_an_owner_without_a_row_is_not_known_unless_all_of_the_session_is_recorded(load):
    season = owners(G1="yes")
    season.wear.append({"session": "G3", "guard": "g-B", "worn": "no"})
    store = load(season)
    assert states(store) == {
        ("G1", "A"): "worn", ("G1", "B"): "worn", ("G1", "D"): "not worn",
        ("P2", "A"): "worn", ("P2", "B"): "not known", ("P2", "D"): "not known",
        ("G3", "A"): "worn", ("G3", "B"): "not worn", ("G3", "D"): "not known",
    }  # fmt: skip
    # guarded: A three times, B once; bare: C three times, D in G1, B in G3
    assert asking.crude(store) == (0, 1, 4, 5)
    assert asking.left_out(store) == {("site-exposures", UNKNOWN): 3}
    told = asking.put(store, "compare/recording").row(0, named=True)
    assert told == {"complete": 1, "assumed": 0, "not_complete": 2, "lacking": 2}


@pytest.mark.parametrize(
    ("complete", "words"),
    [
        ({}, ("assumed", "assumed", "assumed")),
        ({"P2": "yes"}, ("assumed", "complete", "not complete")),  # what comes later tells nothing
        ({"P2": "no"}, ("assumed", "not complete", "not complete")),
        ({"G1": "no", "G3": "yes"}, ("not complete", "not complete", "complete")),
    ],
)
def test_until_a_team_says_anything_its_sessions_are_taken_for_complete(load, complete, words):
    told = asking.put(load(owners(**complete)), "compare/recording").row(0, named=True)
    names = ("complete", "assumed", "not_complete")
    assert tuple(told[n] for n in names) == tuple(words.count(n.replace("_", " ")) for n in names)


@pytest.mark.parametrize(
    ("stages", "is_known"),
    [
        ({"fitted": 0}, False),
        ({"fitted": 3}, True),  # after the session
        ({"delivered": 0}, True),
        ({"fitted": 0, "retired": 1}, True),
        ({"fitted": 0, "cancelled": 1}, True),
        ({"fitted": 0, "retired": 3}, False),
        ({"fitted": 0, "next": 1}, True),  # another in its place was fitted, and is the one in hand
    ],
)
def test_a_guard_is_in_hand_from_its_fitting_to_its_end(load, stages, is_known):
    season = drawn("A\nP2@2 .")
    season.sessions[0]["wear_complete"] = "no"
    season.guards = [guard("g", "A"), guard("n", "A", remake_of="g", remake_reason="fit")]
    rows = [stamp("g", stage, at(on)) for stage, on in stages.items() if stage != "next"]
    if "next" in stages:
        rows += [stamp("n", "fitted", at(stages["next"])), stamp("n", "retired", at(2))]
    season.stages = rows
    store = load(season)
    assert states(store) == ({} if is_known else {("P2", "A"): "not known"})


@pytest.mark.parametrize(
    ("row", "was_on", "state", "crude"),
    [
        (None, None, "not known", (0, 0)),
        (None, "yes", "worn", (1, 0)),
        (None, "no", "not worn", (0, 1)),
        ("no", "yes", "worn", (1, 0)),  # the injury's own word goes first
        ("yes", "no", "not worn", (0, 1)),
        ("yes", None, "worn", (1, 0)),
    ],
)
def test_what_the_injury_says_goes_before_the_sheet(load, row, was_on, state, crude):
    season = drawn("A B\nP1 g g\nG2 * .")
    season.sessions[0]["wear_complete"] = "yes"
    season.injuries[0]["was_on"] = was_on
    if row:
        season.wear.append({"session": "G2", "guard": "g-A", "worn": row})
    store = load(season)
    assert states(store)["G2", "A"] == state
    assert asking.crude(store)[:2] == crude
    (told,) = asking.put(store, "rows/injuries")["worn"]
    assert told == {"worn": "guarded", "not worn": "bare", "not known": "not known"}[state]
    doubts = asking.put(store, "checks/injuries_wear_differs")["key"].to_list()
    assert len(doubts) == ((row, was_on) in {("no", "yes"), ("yes", "no")})


def test_a_guard_that_was_on_and_is_not_in_the_record_is_of_another_kind(load):
    season = drawn("A B\nG1 * g")
    season.injuries[0]["was_on"] = "yes"
    store = load(season)
    assert asking.left_out(store) == {
        ("injuries", "a guard outside the scope was worn at the site"): 1,
        ("site-exposures", "a guard outside the scope was worn at the site"): 1,
    }
    assert asking.put(store, "checks/injuries_wear_differs")["key"].to_list() == ["A-G1*"]


def test_the_return_view_sets_aside_the_owner_of_a_return_guard(load):
    season = drawn("A B\nG1 ! .\nG20@20 r .\nG21 . .\nG22 r *")
    season.sessions[1]["wear_complete"] = "yes"
    store = load(season)
    assert asking.crude(store, purpose="return")[2:] == (2, 0)
    told = asking.left_out(store, purpose="return")
    assert told["site-exposures", UNKNOWN] == 1
    # in the preventive view these exposures are after an injury anyway
    assert ("site-exposures", UNKNOWN) not in asking.left_out(store)


def test_take_up_and_roster_count_only_what_is_known(load):
    season = owners(G1="yes")
    store = load(season)
    weeks = asking.put(store, "take_up/wear").select("sessions", "worn", "not_known").rows()
    assert weeks == [(0, 0, 0), (0, 0, 0), (1, 0, 2)]  # without a fitting: worn outside
    (row,) = asking.put(store, "roster/guards").filter(guard="g-D").to_dicts()
    assert (row["taken_part"], row["worn"], row["not_known"]) == (1, 0, 2)
    strips = asking.put(store, "roster/places").select("athlete", "guarded").rows()
    assert dict(strips) == {
        "A": [True, True, True], "B": [True, None, None], "C": [False] * 3,
        "D": [False, None, None],
    }  # fmt: skip
    season = owners(G1="yes")
    season.injuries.append(dict(season.injuries[0], injury="X", athlete="D"))
    rows = asking.put(load(season), "week/injuries", since=date(2026, 1, 1))
    assert dict(rows.select("injury", "is_guarded").rows()) == {"C-G3*": False, "X": None}
    found = asking.put(load(season), "find/session", session="G3", until=day(9))
    assert dict(found.select("athlete", "guards").rows()) == {
        "A": "chest", "B": "not known", "C": None, "D": "not known",
    }  # fmt: skip


def test_sessions_in_which_three_could_have_worn_a_guard_are_a_doubt(load):
    season = drawn("A B C D\nP1 g g g g\nG2 g . . .\nG3 . . . .")
    season.sessions[0]["wear_complete"] = "yes"
    store = load(season)
    rows = asking.put(store, "checks/wear_not_recorded", kinds=None)
    assert dict(rows.select("key", "detail").rows()) == {
        "G2": "game: whether it was worn is not recorded for 3 who had a guard",
        "G3": "game: whether it was worn is not recorded for 4 who had a guard",
    }
    season.sessions[2]["wear_complete"] = season.sessions[1]["wear_complete"] = "yes"
    assert asking.put(load(season), "checks/wear_not_recorded", kinds=None).is_empty()
