"""What became of guards, given row by row, to be checked by eye. Day 1 is 1 September 2026."""

from tests.queries import build
from tests.queries.asking import put
from tests.queries.build import at, day, drawn, order, stamp, with_orders

GRID = """
       A B
G2@2   . .
G4@4   . .
G6@6   . .
G8@8   o .
G10@10 . .
"""
FIRST = {"requested": at(1), "fitted": at(2)}


def season(*orders, wear=(), grid=GRID):
    """Return a season of five games with guards; `wear` are (session, guard)."""
    plain = drawn(grid)
    plain.wear += [{"session": session, "guard": guard} for session, guard in wear]
    return with_orders(plain, *orders)


def guards(store, through=10, **parts):
    rows = put(store, "remakes/guards", day(through), **parts).to_dicts()
    return {row["guard"]: row for row in rows}


def left_out(store, through=10, **parts):
    rows = put(store, "remakes/left_out", day(through), **parts).rows()
    return {(what, why): number for what, why, number in rows}


def redo(key, older, days, athlete="A", **cells):
    """Return a guard asked for in the place of another: on which day, and fitted on which."""
    asked_on, fitted_on = days
    stages = {"requested": at(asked_on)} | ({"fitted": at(fitted_on)} if fitted_on else {})
    return order(key, athlete, stages, **{"remake_of": older, "remake_reason": "fit"} | cells)


def test_a_chain_is_followed_to_its_first_guard(load):
    """X, then Y in its place, then Z in Y's: three rows of one chain."""
    found = guards(
        load(season(order("X", "A", FIRST), redo("Y", "X", (3, 5)), redo("Z", "Y", (6, 9))))
    )
    assert {k: (g["first_guard"], g["place"], g["successor"]) for k, g in found.items()} == {
        "X": ("X", 1, "Y"),
        "Y": ("X", 2, "Z"),
        "Z": ("X", 3, None),
    }


def test_reasons_make_remakes_replacements_or_neither(load):
    reasons = (
        "fit", "damage", "print fault", "scan fault", "lost", "body change", "worn out", None,
    )  # fmt: skip
    made = []
    for number, reason in enumerate(reasons):
        made.append(order(f"X{number}", "A", FIRST))
        made.append(redo(f"Y{number}", f"X{number}", (3, 5), remake_reason=reason))
    found = guards(load(season(*made)))
    assert [found[f"X{n}"]["counts_as"] for n in range(8)] == [
        *["remake"] * 4, *["replacement"] * 3, "reason not recorded",
    ]  # fmt: skip
    assert [found[f"X{n}"]["remakes"] for n in range(8)] == [1, 1, 1, 1, 0, 0, 0, 0]


def test_bare_is_from_the_asking_to_the_day_before_the_fitting(load):
    """Asked anew on day 4, fitted on day 10: games 4, 6; out in game 8; game 10 is over."""
    made = (order("X", "A", FIRST), redo("Y", "X", (4, 10)))
    assert guards(load(season(*made)))["X"]["bare_exposures"] == 2
    worn = season(*made, wear=[("G2", "X"), ("G6", "X")])
    assert guards(load(worn))["X"]["bare_exposures"] == 1, "the old guard was worn on in game 6"
    assert guards(load(worn), through=5)["X"]["bare_exposures"] == 1, "only game 4 is known"


def test_the_other_side_s_guard_leaves_the_site_bare(load):
    """The left shin guard came back: the right one does not cover it, one of both shins does."""
    made = [
        order("X", "A", FIRST, kind="shin", side="left"),
        redo("Y", "X", (3, None), kind="shin", side="left"),
        order("R", "A", FIRST, kind="shin", side="right"),
        order("B", "A", FIRST, kind="shin", side="both"),
    ]
    right = season(*made, wear=[("G4", "R"), ("G6", "R"), ("G10", "R")])
    assert guards(load(right), kinds=["shin"])["X"]["bare_exposures"] == 3
    both = season(*made, wear=[("G4", "B"), ("G6", "B"), ("G10", "B")])
    assert guards(load(both), kinds=["shin"])["X"]["bare_exposures"] == 0


def test_a_guard_of_another_kind_at_the_site_covers_it(load):
    """A vest covers the chest as well."""
    made = [order("X", "A", FIRST), redo("Y", "X", (3, None)), order("V", "A", FIRST, kind="vest")]
    found = guards(load(season(*made, wear=[("G4", "V"), ("G6", "V")])))
    assert found["X"]["bare_exposures"] == 1, "game 10"


def test_what_is_worn_after_the_asking_is_no_longer_its_life(load):
    """Worn in games 2, 4 and 6, asked for anew on day 4: two sessions of life, three worn."""
    made = (order("X", "A", FIRST), redo("Y", "X", (4, None)))
    found = guards(load(season(*made, wear=[("G2", "X"), ("G4", "X"), ("G6", "X")])))["X"]
    assert (found["sessions_worn"], found["worn_in_use"], found["ended_on"]) == (3, 2, day(4))


def test_a_remake_of_a_cancelled_guard_keeps_its_chain(load):
    first = order("X", "A", {"requested": at(1), "cancelled": at(2)})
    found = guards(load(season(first, redo("Y", "X", (3, 5)))))
    assert (found["X"]["fitted_on"], found["X"]["successor"]) == (None, "Y")
    assert (found["Y"]["first_guard"], found["Y"]["place"]) == ("X", 2)


def test_a_guard_of_another_athlete_is_not_in_its_place_and_is_told(load):
    """The remake's key points to B's guard: B's did not come back, and a chain ends there."""
    store = load(season(order("X", "B", FIRST), redo("Y", "X", (3, 5))))
    found = guards(store)
    assert (found["X"]["successor"], found["Y"]["first_guard"]) == (None, "Y")
    assert left_out(store) == {
        ("guards asked for anew", "it replaces a guard of another athlete"): 1
    }


def test_what_the_store_holds_against_the_rules_is_told_and_goes_round_nowhere(load):
    """A load refuses such keys; a store of other make may hold them, and a ring must not hang."""
    made = [order(key, "A", FIRST) for key in ("U", "S", "P", "Q")]
    store = load(season(*made))
    store._connection.execute(
        "UPDATE store.guards SET remake_of = CASE guard WHEN 'U' THEN 'gone' WHEN 'S' THEN 'S' "
        "WHEN 'P' THEN 'Q' ELSE 'P' END"
    )
    assert {k: g["place"] for k, g in guards(store).items()} == {"U": 1, "S": 1, "P": 2, "Q": 2}
    assert left_out(store) == {
        ("guards asked for anew", "it names itself as the one it replaces"): 1,
        ("guards asked for anew", "the guard it replaces is not known"): 1,
        ("guards asked for anew", "it was asked for before the guard it replaces was fitted"): 2,
    }


def test_of_two_asked_for_in_one_place_the_first_counts_and_both_are_remembered(load):
    made = (
        order("X", "A", FIRST),
        redo("Y", "X", (5, None), remake_reason="lost"),
        redo("Z", "X", (3, None)),
    )
    found = guards(load(season(*made)))["X"]
    assert (found["successor"], found["counts_as"]) == ("Z", "remake")
    assert found["successor_asked_on"] == day(3)
    assert (found["successors"], found["remakes"]) == (2, 1)


def test_the_first_of_two_fitted_stamps_counts(load):
    plain = season(order("X", "A", FIRST))
    plain.stages.append(stamp("X", "fitted", at(7)))
    found = guards(load(plain))
    assert (len(found), found["X"]["fitted_on"]) == (1, day(2))


def test_a_guard_worn_without_a_fitting_is_told(load):
    made = (order("X", "A", {"requested": at(1)}), order("W", "B", {}))
    store = load(season(*made, wear=[("G2", "X"), ("G4", "W")]))
    assert guards(store) == {}
    assert left_out(store) == {("guards", "worn, and never recorded as fitted"): 2}
    assert left_out(store, through=3) == {("guards", "worn, and never recorded as fitted"): 1}


def test_a_remake_without_a_stage_is_told(load):
    store = load(season(order("X", "A", FIRST), order("Y", "A", {}, remake_of="X")))
    assert guards(store)["X"]["successor"] is None
    assert left_out(store) == {("guards asked for anew", "no stage of it is recorded"): 1}


def test_days_are_those_of_the_department(load):
    """23:30 in Denver on day 2 is day 3 in UTC: fitted on day 2."""
    made = order("X", "A", {"requested": at(1), "fitted": at(3, 5, 30)})
    plain = season(made)
    plain.departments = [build.department("D", time_zone="America/Denver")]
    assert guards(load(plain), through=2)["X"]["fitted_on"] == day(2)
