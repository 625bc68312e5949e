"""Prints of a season ahead: how many, when, and how long guards take."""

from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from pytest import approx

from seasonboard.stats.prints_ahead import Demand, Printing, Share, made_ahead, prints_ahead

DEMAND = Demand(100, Share(0.5), 1.2, 0.1, 0.2, 15.0)
FREE = Printing(1, 0.0, 6.0, (240.0,), (1.0,))


def ahead(demand=DEMAND, seasons=2000, seed=1):
    return prints_ahead(demand, seasons=seasons, seed=seed)


def made(demand=DEMAND, printing=FREE, seasons=2000):
    return made_ahead(ahead(demand, seasons), demand, printing, seed=1)


def test_prints_are_first_guards_remakes_and_later_ones():
    """100 × 0.5 × 1.2 = 60 first, 6 remade, 12 later."""
    found = ahead()
    assert found.first.mean == approx(60, rel=0.01)
    assert found.remakes.mean == approx(6, rel=0.03)
    assert found.later.mean == approx(12, rel=0.03)
    assert found.prints.mean == approx(78, rel=0.01)
    assert found.guards.mean == approx(found.first.mean + found.later.mean)
    assert sum(week.prints.mean for week in found.by_week) == approx(found.prints.mean)


def test_takers_are_binomial_and_spread_further_where_the_share_is_not_sure():
    """100 × 0.5: variance 25; a share of 0.3 to 0.7 adds 100² × 0.1²: 95 % within 1.96 × 11."""
    few = Demand(100, Share(0.5), 1.0, 0.0, 0.0, 15.0)
    found = ahead(few).first
    assert (found.low_95, found.high_95) == approx((40, 60), abs=1)
    unsure = ahead(replace(few, take_up=Share(0.5, 0.3, 0.7))).first
    assert (unsure.low_95, unsure.high_95) == approx((28.5, 71.5), abs=3)


def test_first_guards_are_asked_for_in_the_weeks_of_scanning():
    found = ahead(replace(DEMAND, remake_share=0.0, later_per_guard=0.0))
    means = [week.prints.mean for week in found.by_week]
    assert means[:2] == [approx(30, rel=0.03)] * 2
    assert sum(means[2:]) == 0
    assert len(means) == 15
    assert found.busiest_week.median < found.busiest_p95 < found.busiest_week.high_95


def test_scanned_before_the_season_guards_are_fitted_by_its_start_and_more_is_guarded():
    """Asked for 6 to 2 weeks before the first session, fitted 10.25 days later."""
    early = replace(DEMAND, scan_before=6.0, scan_weeks=4.0)
    assert made(early).ready_at_start == 1
    assert made().ready_at_start == 0
    assert made(early).covered.mean() == approx(0.5, rel=0.01)
    assert made(early).covered.mean() > made().covered.mean()
    assert len(ahead(early).by_week) == 21


def test_without_waiting_a_guard_takes_printing_and_the_time_outside():
    found = made()
    assert found.queue.grows_from is found.queue.clears_in is None
    assert found.wait_days.p95 == 0
    assert found.turnaround_days.median == approx((6 + 240) / 24)
    assert found.turnaround_days.p95 == approx((6 + 240) / 24)


def test_times_outside_are_drawn_by_their_weights():
    found = made(printing=replace(FREE, outside=(24.0, 480.0), outside_weights=(9.0, 1.0)))
    assert found.turnaround_days.median == approx((6 + 24) / 24)
    assert found.turnaround_days.p80 == approx((6 + 24) / 24)
    assert found.turnaround_days.p95 == approx((6 + 480) / 24)


def test_guards_at_once_wait_their_turn():
    """20 asked for in two weeks, 2 a week: the last waits near 20 × 84 − 336 hours, 8 weeks."""
    demand = Demand(20, Share(1.0), 1.0, 0.0, 0.0, 15.0)
    found = made(demand, Printing(1, 84.0, 6.0, (240.0,), (1.0,)))
    assert ahead(demand).prints.median == 20
    assert found.wait_days.p95 == approx(0.95 * (20 * 84 - 336) / 24, rel=0.1)
    assert found.turnaround_days.median == approx(found.wait_days.median + 246 / 24)
    queue = found.queue
    assert (queue.grows_from, queue.longest, queue.left_over) == (1, approx(16, abs=1), 0)
    assert queue.clears_in == approx(10, abs=1)


def test_a_plan_that_cannot_hold_the_demand_has_prints_left_over():
    """60 asked for, 2 a week over 15 weeks: some 30 still wait."""
    demand = Demand(60, Share(1.0), 1.0, 0.0, 0.0, 15.0)
    queue = made(demand, Printing(1, 84.0, 6.0, (240.0,), (1.0,))).queue
    assert queue.left_over == approx(30, abs=2)
    assert queue.clears_in is None


def test_nobody_who_takes_a_guard_needs_no_print():
    nobody = replace(DEMAND, take_up=Share(0.0))
    found = made(nobody, Printing(1, 84.0, 6.0, (240.0,), (1.0,)))
    assert ahead(nobody).prints.high_95 == 0
    assert found.wait_days is found.turnaround_days is None
    assert not found.covered.any()


def test_covered_is_takers_times_the_season_left():
    """Asked for at 7 of 105 days in the middle, fitted 10.25 days later: 87.75 / 105 are left."""
    found = made(Demand(1000, Share(0.5), 1.0, 0.0, 0.0, 15.0), seasons=400)
    assert found.covered.mean() == approx(0.5 * 87.75 / 105, rel=0.01)


@settings(max_examples=10)
@given(a_week=st.floats(4, 40), factor=st.floats(1.05, 3), athletes=st.integers(5, 80))
def test_more_prints_a_week_never_take_longer(a_week, factor, athletes):
    demand = replace(DEMAND, athletes=athletes)
    slow = made(demand, Printing(1, 168 / a_week, 6.0, (240.0,), (1.0,)), seasons=200)
    fast = made(demand, Printing(1, 168 / a_week / factor, 6.0, (240.0,), (1.0,)), seasons=200)
    assert fast.wait_days.p95 <= slow.wait_days.p95 + 1e-9
    assert (fast.covered >= slow.covered - 1e-12).all()
    assert fast.queue.longest <= slow.queue.longest


def test_very_many_prints_are_followed_in_fewer_seasons():
    found = ahead(Demand(2000, Share(0.5), 1.0, 0.0, 0.0, 15.0), seasons=4000)
    assert 200 <= found.seasons < 4000
    assert len(found.takers) == found.seasons


def test_the_same_seed_gives_the_same_numbers():
    assert ahead() == ahead()
    assert np.array_equal(made().covered, made().covered)
