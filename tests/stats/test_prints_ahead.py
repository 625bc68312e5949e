"""Prints of a season ahead: how many, when, and how long guards take."""

from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from pytest import approx

from seasonboard.stats.prints_ahead import Demand, Printing, prints_ahead

DEMAND = Demand(100, 0.5, 1.2, 0.1, 0.2, 15.0)
FREE = Printing(None, 0.0, 6.0, (240.0,), (1.0,))


def ahead(demand=DEMAND, printing=FREE, seasons=2000, seed=1):
    return prints_ahead(demand, printing, seasons=seasons, seed=seed)


def test_prints_are_first_guards_remakes_and_later_ones():
    """100 × 0.5 × 1.2 = 60 first, 6 remade, 12 later."""
    found = ahead()
    assert found.first.mean == approx(60, rel=0.01)
    assert found.remakes.mean == approx(6, rel=0.03)
    assert found.later.mean == approx(12, rel=0.03)
    assert found.prints.mean == approx(78, rel=0.01)
    assert found.guards.mean == approx(found.first.mean + found.later.mean)
    assert sum(week.prints.mean for week in found.by_week) == approx(found.prints.mean)


def test_takers_are_binomial():
    """100 × 0.5: variance 25, so that 95 % lie within 1.96 × 5."""
    found = ahead(Demand(100, 0.5, 1.0, 0.0, 0.0, 15.0)).first
    assert (found.low_95, found.high_95) == approx((40, 60), abs=1)


def test_first_guards_are_asked_for_in_the_first_two_weeks():
    found = ahead(replace(DEMAND, remake_share=0.0, later_per_guard=0.0))
    means = [week.prints.mean for week in found.by_week]
    assert means[:2] == [approx(30, rel=0.03)] * 2
    assert sum(means[2:]) == 0
    assert len(means) == 15


def test_without_waiting_a_guard_takes_printing_and_the_time_outside():
    found = ahead()
    assert found.wait_hours is None
    assert found.turnaround_days.median == approx((6 + 240) / 24)
    assert found.turnaround_days.p95 == approx((6 + 240) / 24)


def test_times_outside_are_drawn_by_their_weights():
    found = ahead(printing=replace(FREE, outside=(24.0, 480.0), outside_weights=(9.0, 1.0)))
    assert found.turnaround_days.median == approx((6 + 24) / 24)
    assert found.turnaround_days.p80 == approx((6 + 24) / 24)
    assert found.turnaround_days.p95 == approx((6 + 480) / 24)


def test_guards_at_once_wait_their_turn():
    """20 asked for in two weeks, one every 84 hours: the last waits near 20 × 84 − 336 hours."""
    demand = Demand(20, 1.0, 1.0, 0.0, 0.0, 15.0)
    found = ahead(demand, Printing(1, 84.0, 6.0, (240.0,), (1.0,)))
    assert found.prints.median == 20
    assert found.wait_hours.p95 == approx(0.95 * (20 * 84 - 336), rel=0.1)
    assert found.turnaround_days.median == approx((found.wait_hours.median + 246) / 24)


def test_nobody_who_takes_a_guard_needs_no_print():
    found = ahead(replace(DEMAND, take_up=0.0), Printing(1, 84.0, 6.0, (240.0,), (1.0,)))
    assert found.prints.high_95 == 0
    assert found.wait_hours is found.turnaround_days is None
    assert not found.covered.any()


def test_covered_is_takers_times_the_season_left():
    """Asked for at 7 of 105 days in the middle, fitted 10.25 days later: 87.75 / 105 are left."""
    found = ahead(Demand(1000, 0.5, 1.0, 0.0, 0.0, 15.0), seasons=400)
    assert found.covered.mean() == approx(0.5 * 87.75 / 105, rel=0.01)


@settings(max_examples=10)
@given(a_week=st.floats(4, 40), factor=st.floats(1.05, 3), athletes=st.integers(5, 80))
def test_more_prints_a_week_never_take_longer(a_week, factor, athletes):
    demand = replace(DEMAND, athletes=athletes)
    slow = ahead(demand, Printing(1, 168 / a_week, 6.0, (240.0,), (1.0,)), seasons=200)
    fast = ahead(demand, Printing(1, 168 / a_week / factor, 6.0, (240.0,), (1.0,)), seasons=200)
    assert fast.wait_hours.p95 <= slow.wait_hours.p95 + 1e-9
    assert (fast.covered >= slow.covered - 1e-12).all()
    assert fast.prints == slow.prints, "the same prints are asked for"


def test_very_many_prints_are_followed_in_fewer_seasons():
    found = ahead(Demand(2000, 0.5, 1.0, 0.0, 0.0, 15.0), seasons=4000)
    assert 200 <= found.seasons < 4000
    assert len(found.covered) == found.seasons


def test_the_same_seed_gives_the_same_numbers():
    assert ahead() == ahead()
    assert np.array_equal(ahead().covered, ahead().covered)
