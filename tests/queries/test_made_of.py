"""What guards are made of narrows what is looked at, on every screen alike."""

import pytest

from tests.queries.asking import crude, put
from tests.queries.build import day, drawn, stamp

GRID = """
    A B C
G1  g g! .
G2  g! g .
"""


@pytest.fixture
def store(load):
    """A wears one of lot 1 by bench 1, B one of lot 1 by bench 2; C's is of lot 2 and unworn."""
    season = drawn(GRID)
    made = {"g-A": ("1", "bench 1"), "g-B": ("1", "bench 2")}
    for guard in season.guards:
        guard["lot"], guard["printer"] = made[guard["guard"]]
    season.guards.append(season.guards[0] | {"guard": "g-C", "athlete": "C", "lot": "2"})
    season.stages += [stamp(f"g-{name}", "requested", 1, 8) for name in "ABC"]
    return load(season)


@pytest.mark.parametrize(
    ("made_of", "guards"),
    [
        (None, "ABC"),
        (["lot 1"], "AB"),
        (["lot 1", "lot 2"], "ABC"),
        (["lot 1", "printer bench 1"], "A"),
        (["lot 2", "printer bench 2"], ""),
        (["lot 9"], ""),
    ],
)
def test_of_one_part_any_is_enough_and_of_several_each_is_needed(store, made_of, guards):
    """Orders, Roster and the checks take the same guards."""
    told = [f"g-{name}" for name in guards]
    orders = put(store, "orders/orders", day(9), made_of=made_of)
    assert sorted(orders["guard"]) == told
    assert sorted(put(store, "roster/guards", day(9), made_of=made_of)["guard"]) == told


@pytest.mark.parametrize(
    ("made_of", "counts"),
    [
        (None, (2, 0, 3, 2)),
        # B's exposures are set aside: the guard worn is not of those looked at.
        (["printer bench 1"], (1, 0, 2, 2)),
        (["lot 2"], (0, 0, 0, 2)),
    ],
)
def test_who_wears_a_guard_of_something_else_is_neither_guarded_nor_bare(store, made_of, counts):
    """Counts: injuries guarded and bare, exposures guarded and bare, all preventive."""
    assert crude(store, made_of=made_of) == counts


def test_wear_of_such_a_guard_that_nobody_recorded_is_not_taken_for_bare(load):
    season = drawn("   A B\nG1  . .\nG2  . .")
    row = {"kind": "chest", "side": "midline", "purpose": "preventive"}
    season.guards = [{"guard": "n", "athlete": "A", "lot": "2"} | row]
    season.stages = [stamp("n", "fitted", 1, 0)]
    for session in season.sessions:
        session["wear_complete"] = "no"
    assert crude(load(season), made_of=["lot 1"]) == (0, 0, 0, 2)
