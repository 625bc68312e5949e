"""Time to an event with open ones censored and cancelled ones competing, on real-valued time."""

import csv
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from seasonboard.stats.waiting_times import (
    Ending,
    finished_only,
    shares_by_age,
    wait_curve,
    wait_quantile,
)

REFERENCE = Path(__file__).parents[1] / "reference"
OPEN, DONE, OFF = Ending.OPEN, Ending.FINISHED, Ending.CANCELLED
TEN = [3, 5, 5, 6, 8, 9, 12, 14, 15, 16]
TEN_ENDED = [DONE, DONE, DONE, DONE, OPEN, DONE, OPEN, DONE, OPEN, DONE]
ORDERS = st.lists(
    st.tuples(st.integers(0, 12).map(lambda n: n / 2), st.sampled_from(list(Ending))),
    min_size=1,
    max_size=30,
)


def reference(name):
    with (REFERENCE / name).open(encoding="utf-8") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def columns(orders):
    return [t for t, _ in orders], [e for _, e in orders]


def test_open_orders_count_up_to_their_age():
    """Ten orders, three open: by hand, and the same from lifelines' KaplanMeierFitter."""
    curve = wait_curve(TEN, TEN_ENDED)
    waiting = {p.time: p.waiting for p in curve.points if p.finished}
    expected = {3: 0.9, 5: 0.7, 6: 0.6, 9: 0.48, 14: 0.32, 16: 0}
    assert waiting == {t: approx(s) for t, s in expected.items()}
    assert next(p.std_error for p in curve.points if p.time == 9) == approx(0.163951, abs=1e-6)
    assert wait_quantile(curve).value == 9
    assert wait_quantile(curve, 0.9).value == 16
    alone = finished_only(TEN, TEN_ENDED)
    assert (alone.median, alone.open_left_out, alone.longest_open) == (6, 3, 15)


@pytest.mark.parametrize(
    ("arm", "median", "low", "high"), [("6-MP", 23, 13, None), ("control", 8, 4, 11)]
)
def test_the_limits_of_a_median_are_where_log_log_limits_cross(arm, median, low, high):
    """Freireich 1963; R survival 3.5-3: survfit(Surv(weeks, relapse) ~ 1, conf.type="log-log")."""
    rows = [r for r in reference("freireich_6mp.csv") if r["arm"] == arm]
    weeks, relapse = [float(r["weeks"]) for r in rows], [int(r["relapse"]) for r in rows]
    found = wait_quantile(wait_curve(weeks, relapse))
    assert (found.value, found.low, found.high) == (median, low, high)
    assert bool(found.why) is (high is None)


def test_quartiles_that_are_not_reached_say_so():
    """Quartiles of the 6-MP arm: 13, 23, not reached."""
    rows = [r for r in reference("freireich_6mp.csv") if r["arm"] == "6-MP"]
    curve = wait_curve([float(r["weeks"]) for r in rows], [int(r["relapse"]) for r in rows])
    first, middle, last = (wait_quantile(curve, share) for share in (0.25, 0.5, 0.75))
    assert (first.value, middle.value, last.value) == (13, 23, None)
    assert last.why == "not reached: 45 % were still waiting at the last"
    assert last.high is None


def test_without_open_ones_quantiles_are_those_of_type_two():
    """Hyndman & Fan 1996, type 2, by numpy's averaged_inverted_cdf: 4, 6.5, 9, 16.5, 21."""
    data = [3, 4, 4, 5, 6, 7, 7, 9, 12, 21]
    curve = wait_curve(data, [DONE] * 10)
    found = [wait_quantile(curve, share).value for share in (0.25, 0.5, 0.75, 0.9, 0.95)]
    assert found == [4, 6.5, 9, 16.5, 21]


def test_cancelled_orders_compete():
    """Marubini & Valsecchi 1995, table 10.1, group A; cmprsk and survival in R agree."""
    rows = reference("competing_risks_35.csv")
    times, causes = [float(r["days"]) for r in rows], [int(r["status"]) for r in rows]
    shares = shares_by_age(times, causes)
    expected = {13: (0.057143, 0.142857), 100: (0.240199, 0.456180), 200: (0.314417, 0.604617)}
    for time, (finished, cancelled) in expected.items():
        here = [s for s in shares if s.time <= time][-1]
        assert (here.finished, here.cancelled) == approx((finished, cancelled), abs=1e-6)
    at_100 = [p for p in wait_curve(times, causes).points if p.time <= 100][-1]
    assert 1 - at_100.waiting == approx(0.332651, abs=1e-6), "of those still wanted, more"


@given(ORDERS)
def test_finished_cancelled_and_open_shares_add_up_to_one(orders):
    for s in shares_by_age(*columns(orders)):
        assert s.finished + s.cancelled + s.open == approx(1)


@given(ORDERS)
def test_without_cancelled_ones_both_readings_are_the_same(orders):
    times, ended = columns(orders)
    ended = [DONE if e is OFF else e for e in ended]
    shares = [s.finished for s in shares_by_age(times, ended)]
    assert shares == approx([1 - p.waiting for p in wait_curve(times, ended).points])


@given(ORDERS)
def test_a_curve_never_rises_and_limits_hold_it(orders):
    points = wait_curve(*columns(orders)).points
    assert all(b.waiting <= a.waiting for a, b in pairwise(points))
    for p in points:
        assert p.low is None or p.low <= p.waiting + 1e-12 <= p.high + 2e-12
    found = wait_quantile(wait_curve(*columns(orders)))
    if found.value is not None:
        assert found.low <= found.value


@given(ORDERS)
def test_another_unit_changes_the_times_and_nothing_else(orders):
    times, ended = columns(orders)
    in_days = wait_quantile(wait_curve(times, ended))
    in_hours = wait_quantile(wait_curve([24 * t for t in times], ended))
    assert in_hours.value == (None if in_days.value is None else approx(24 * in_days.value))


def test_nothing_all_open_and_all_cancelled():
    nothing = wait_curve([], [])
    assert (nothing.orders, nothing.why) == (0, "there are no orders")
    assert wait_quantile(nothing).why == "there are no orders"
    assert shares_by_age([], []) == ()
    assert finished_only([], []).why == "none has finished"
    for ending in (OPEN, OFF):
        found = wait_quantile(wait_curve([4, 9], [ending] * 2))
        assert (found.value, found.low, found.high) == (None, None, None)
        assert found.why == "not reached: none has finished yet"
    at_once = wait_curve([0, 0], [DONE, DONE])
    assert wait_quantile(at_once).value == 0
