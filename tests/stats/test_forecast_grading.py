"""Grades of forecasts: Murphy's parts on a worked table, sums that move together, and drift."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from seasonboard.stats.forecast_grading import MOVES_TOGETHER, drift, expected_sum, grading
from tests.stats.laws import law

TENTHS = [n / 10 for n in range(11)] + [1.0001]


def test_murphys_parts_on_a_worked_table():
    """A table worked by hand after Murphy (1973): chance told, times told, times it came.

    0.1: 40, 2. 0.4: 20, 9. 0.8: 40, 34. The share that came is 45 of 100.
    reliability = (40·0.05² + 20·0.05² + 40·0.05²) / 100 = 0.0025
    resolution = (40·0.40² + 20·0 + 40·0.40²) / 100 = 0.128; uncertainty = 0.45·0.55 = 0.2475
    """
    table = ((0.1, 40, 2), (0.4, 20, 9), (0.8, 40, 34))
    told = np.concatenate([np.full(n, chance) for chance, n, _ in table])
    came = np.concatenate([np.r_[np.ones(k), np.zeros(n - k)] for _, n, k in table])
    grade = grading(told, came, TENTHS)
    assert (grade.reliability, grade.resolution, grade.base) == approx((0.0025, 0.128, 0.2475))
    assert grade.brier == approx(0.0025 - 0.128 + 0.2475)
    assert [(g.forecasts, g.came) for g in grade.groups if g.forecasts] == [
        (40, approx(0.05)), (20, approx(0.45)), (40, approx(0.85)),
    ]  # fmt: skip


@law
@given(st.lists(st.tuples(st.integers(0, 10), st.booleans()), min_size=1, max_size=80))
def test_the_parts_add_up_where_groups_hold_equal_chances(rows):
    told = np.array([tenth / 10 for tenth, _ in rows])
    came = np.array([float(one) for _, one in rows])
    grade = grading(told, came, [(n - 0.5) / 10 for n in range(12)])
    assert grade.brier == approx(grade.reliability - grade.resolution + grade.base, abs=1e-12)


def test_without_forecasts_the_grade_says_why():
    grade = grading(np.zeros(0), np.zeros(0))
    assert (grade.brier, grade.forecasts) == (None, 0)
    assert grade.why == "no forecast of the past can be graded yet"
    assert all(group.told is None for group in grade.groups)


def test_a_sum_has_a_wider_range_than_independent_orders_would():
    total = expected_sum([0.5] * 16, 1.96)
    assert total.value == 8
    assert (total.low, total.high) == approx((8 - 1.96 * MOVES_TOGETHER * 2, 8 + 1.96 * 1.6 * 2))
    assert expected_sum([0.01] * 4, 1.96).low == 0
    assert expected_sum([], 1.96).value is None


def test_drift_counts_standard_errors():
    told, came = np.full(100, 0.5), np.r_[np.ones(70), np.zeros(30)]
    assert drift(told, came) == approx(20 / (1.6 * math.sqrt(25)))
    assert drift(told[:0], came[:0]) == 0


@pytest.mark.parametrize(
    ("told", "came", "why"), [([0.5], [1, 0], "differ in number"), ([1.5], [1], "from 0 to 1")]
)
def test_wrong_columns_are_refused(told, came, why):
    with pytest.raises(ValueError, match=why):
        grading(np.array(told), np.array(came))
