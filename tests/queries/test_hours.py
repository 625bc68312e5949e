"""Hours of guarded and bare sites: counted by eye, and by a loop over every exposure."""

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.scope import View
from tests.queries.asking import scope
from tests.queries.build import Season, drawn, legs
from tests.queries.seasons import scopes, seasons
from tests.queries.slow import Slow
from tests.queries.test_queries_against_loops import MODEST, loaded

Counts = tuple[int, ...]


def timed(season: Season, minutes: dict[tuple[str, str], int | None]) -> Season:
    """Write minutes into the attendance, by session and athlete."""
    for row in season.attendance:
        row["minutes"] = minutes.get((row["session"], row["athlete"]))
    return season


def hours(store, **parts: object) -> dict[bool, Counts]:
    """Return (minutes, injuries, exposures, injuries and exposures without minutes) by guarded."""
    rows = store.read("compare/hours", **scope(**parts)).iter_rows()
    return {guarded: tuple(counts) for guarded, *counts in rows}


def test_only_sessions_with_minutes_of_the_athlete_count(load):
    """A was guarded for 90 + 45 minutes and hurt in them; B was hurt when nobody looked at the
    clock; C came on for less than a minute."""
    season = drawn("""
            A    B    C
        G1  g    .!   .
        G2  g!   -    o
        P3  -    -    .
    """)
    clock = {("G1", "A"): 90, ("G2", "A"): 45, ("G1", "C"): 0, ("P3", "C"): 60}
    store = load(timed(season, clock))
    assert hours(store) == {True: (135, 1, 2, 0, 0), False: (60, 0, 2, 1, 1)}
    assert hours(store, settings=["game"]) == {True: (135, 1, 2, 0, 0), False: (0, 0, 1, 1, 1)}


def test_an_hour_counts_at_each_site_studied(load):
    """One game of 80 minutes: A guards the left shin, the right one is bare; B guards neither."""
    season = timed(legs([("A", "left"), ("B", None)]), {("G1", "A"): 80, ("G1", "B"): 80})
    store = load(season)
    assert hours(store, kinds=["shin"]) == {True: (80, 0, 1, 0, 0), False: (240, 0, 3, 0, 0)}
    assert hours(store, kinds=["shin"], sides=["left"])[False] == (80, 0, 1, 0, 0)


def test_without_minutes_both_groups_stand_there_with_nothing(season):
    store = season("""
            A    B
        G1  g!   .
    """)
    assert hours(store) == {True: (0, 0, 0, 1, 1), False: (0, 0, 0, 0, 1)}


def slow_hours(season: Season, asked: dict[str, Any]) -> dict[bool, Counts]:
    clock = {(row["session"], row["athlete"]): row["minutes"] for row in season.attendance}
    found = {True: [0] * 5, False: [0] * 5}
    for each in Slow(season, asked).exposures:
        if each["set_aside"]:
            continue
        cell = found[each["guarded"]]
        minutes = clock[each["session"]["session"], each["athlete"]]
        if minutes is None:
            cell[3] += each["injured"]
            cell[4] += 1
        else:
            cell[0] += minutes
            cell[1] += each["injured"]
            cell[2] += 1
    return {guarded: tuple(cell) for guarded, cell in found.items()}


@pytest.mark.long
@MODEST
@given(season=seasons(), parts=scopes(), seed=st.integers(0, 1000))
def test_hours_are_what_a_loop_counts_in_every_view(season, parts, seed):
    chance = random.Random(seed)
    keys = [(row["session"], row["athlete"]) for row in season.attendance if row["part"] != "out"]
    timed(season, {key: chance.choice([None, 0, 45, 90]) for key in keys})
    with loaded(season) as store:
        for view in View:
            asked = {**parts, "purpose": view.value, "settings": None}
            assert hours(store, **asked) == slow_hours(season, asked)
