"""Guard owners among the bare: counted by eye, and by a loop over every exposure."""

from collections import defaultdict
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.scope import View
from tests.queries.asking import scope
from tests.queries.build import day, drawn
from tests.queries.seasons import FIRST, scopes, seasons
from tests.queries.slow import sides
from tests.queries.slow_comparisons import SlowComparisons, stage, staged
from tests.queries.slow_wear import in_hand, partly_recorded, wear_of
from tests.queries.test_queries_against_loops import MODEST, loaded


def owners(store, **parts):
    """Return (injuries, of those unrecorded, exposures) of bare owners by stratum."""
    rows = store.read("compare/owners", **scope(**parts)).iter_rows()
    return {stratum: tuple(counts) for stratum, *counts in rows}


def test_an_owner_is_who_had_a_fitted_guard_then_and_only_strata_with_an_injury_count(load):
    """A owns a guard from day 2 on, retired on day 4; in G2 A is hurt bare, B without a guard."""
    season = drawn("""
            A    B    C
        G1  g    .!   .
        G2  .!   .    .
        G3  .    .    .
        G4  .    .    .!
    """)
    season = staged(
        season, [stage("g-A", day(2), word="fitted"), stage("g-A", day(4), word="retired")]
    )
    found = owners(load(season))
    assert found == {"chest · G2 · position not recorded": (1, 1, 1)}


@pytest.mark.parametrize("record", ["wear", "wear_complete", "was_on"])
def test_what_was_recorded_as_not_worn_is_recorded(load, record):
    season = drawn("""
            A    B
        G1  g    .
        G2  .!   .
    """)
    season = staged(season, [stage("g-A", day(1), word="fitted")])
    if record == "wear":
        season.wear.append({"session": "G2", "guard": "g-A", "worn": "no"})
    elif record == "was_on":
        season.injuries[0]["was_on"] = "no"
    else:
        season.sessions[1]["wear_complete"] = "yes"
    assert owners(load(season)) == {"chest · G2 · position not recorded": (1, 0, 1)}


STAGES = ((), (("fitted", 0),), (("fitted", 0), ("retired", 3)))
"""What is recorded of a guard, and how many days after the first."""


def slow_owners(season, asked):
    slow = SlowComparisons(season, asked)
    purposes = {"preventive", "return"} if asked["purpose"] == "all" else {asked["purpose"]}
    cells, hurt = defaultdict(lambda: [0, 0, 0]), set()
    for e in slow.counted:
        session, (area, side) = e["session"]["session"], e["site"]
        stratum = " · ".join((area, session, e["position_group"] or "position not recorded"))
        hurt |= {stratum} if e["injured"] else set()
        mine = [
            g for g in season.guards
            if g["athlete"] == e["athlete"] and g["purpose"] in purposes
            and g["kind"] in asked["kinds"] and area in slow.covers[g["kind"]]
            and side in sides(area, g["side"])
        ]  # fmt: skip
        start = season.instant(session)
        if not e["guarded"] and any(in_hand(season, g, start) for g in mine):
            keys = {g["guard"] for g in mine}
            said = wear_of(season, e["session"]) != "assumed" or any(
                w["session"] == session and w["guard"] in keys for w in season.wear
            )
            hurt_then = slow.hurt_at(e["athlete"], e["site"])
            said |= any(i["session"] == session and i.get("was_on") for i in hurt_then)
            cell = cells[stratum]
            cell[0] += e["injured"]
            cell[1] += e["injured"] and not said
            cell[2] += 1
    return {stratum: tuple(cell) for stratum, cell in cells.items() if stratum in hurt}


@pytest.mark.long
@MODEST
@given(season=partly_recorded(seasons()), parts=scopes(), data=st.data())
def test_owners_are_what_a_loop_counts_in_every_view(season, parts, data):
    rows = []
    for g in season.guards:
        on = FIRST["2026"] + timedelta(days=data.draw(st.integers(-3, 12)))
        for word, later in data.draw(st.sampled_from(STAGES)):
            rows.append(stage(g["guard"], on + timedelta(days=later), word=word))
    season = staged(season, rows)
    with loaded(season) as store:
        for view in View:
            asked = {**parts, "purpose": view.value}
            assert owners(store, **asked) == slow_owners(season, asked)
