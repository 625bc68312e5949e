"""Control charts against published worked examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.control_charts import ControlLimits, individuals_chart, p_chart, u_chart

FLOW = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)
BORES = (
    *(78.4, 80.1, 84.4, 79.1, 80.4, 83.5, 73.8, 83.5, 75.0, 76.8),
    *(70.5, 80.3, 82.4, 79.4, 86.4, 90.5, 77.7, 82.5, 79.9, 83.2),
)
WAFERS = (
    *(12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22),
    *(8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7, 13, 9, 6),
)
DEFECTS = (
    *(16, 14, 28, 16, 12, 20, 10, 12, 10, 17, 19, 17, 14),
    *(16, 15, 13, 14, 16, 11, 20, 11, 19, 16, 31, 13),
)


def outside(chart):
    """Return which groups lie outside their limits, counted from 1."""
    return [number for number, one in enumerate(chart.limits, 1) if one.is_outside]


def test_flow_rates_of_the_nist_handbook():
    """NIST/SEMATECH e-Handbook 6.3.2.2 (data from memory, limits as printed there)."""
    chart = individuals_chart(FLOW)
    assert chart.centre == pytest.approx(50.81)
    assert (chart.low, chart.high) == pytest.approx((45.8159, 55.8041), abs=1e-3)
    assert not any(chart.outside)


def test_bores_of_a_published_individuals_chart():
    """Jet engine bores, an example of the documentation of a statistics package."""
    chart = individuals_chart(BORES)
    assert chart.centre == pytest.approx(80.39)
    assert (chart.low, chart.high) == pytest.approx((66.2290, 94.5510), abs=6e-3)


def test_wafers_of_the_nist_handbook():
    """NIST/SEMATECH e-Handbook 6.3.3.2, samples of 50 wafers: the 15th and the 23rd are out."""
    chart = p_chart(WAFERS, [50] * 30)
    assert chart.centre == pytest.approx(347 / 1500)
    first = chart.limits[0]
    assert (first.low, first.high) == pytest.approx((0.052428, 0.410239), abs=1e-6)
    assert outside(chart) == [15, 23]
    kept = [count for n, count in enumerate(WAFERS, 1) if n not in {15, 23}]
    again = p_chart(kept, [50] * 28)
    assert again.centre == pytest.approx(0.2150, abs=5e-5)
    first = again.limits[0]
    assert (first.low, first.high) == pytest.approx((0.0407, 0.3893), abs=1e-4)


def test_defects_of_the_nist_handbook():
    """NIST/SEMATECH e-Handbook 6.3.3.1: mean 16, limits 4 and 28; 28 is on the line, 31 is out."""
    chart = u_chart(DEFECTS, [1] * 25)
    assert (chart.centre, chart.limits[0].low, chart.limits[0].high) == (16, 4, 28)
    assert outside(chart) == [24]


def test_dyed_cloth_of_a_textbook():
    """Montgomery, Introduction to Statistical Quality Control: unequal lengths, none out."""
    chart = u_chart(
        [14, 12, 20, 11, 7, 10, 21, 16, 19, 23], [10, 8, 13, 10, 9.5, 10, 12, 10.5, 12, 12.5]
    )
    assert chart.centre == pytest.approx(1.423256, abs=1e-6)
    printed = ((0, (0.291, 2.555)), (1, (0.158, 2.689)), (2, (0.431, 2.416)), (9, (0.411, 2.436)))
    for number, limits in printed:
        one = chart.limits[number]
        assert (one.low, one.high) == pytest.approx(limits, abs=6e-4)
    assert outside(chart) == []


def test_trucks_of_a_published_counts_chart():
    """An example of the documentation of a statistics package: a limit below 0 is shown as 0."""
    trucks = (5, 4, 4, 8, 7, 12, 3, 11, 8, 4, 9, 13, 5, 4, 9, 15, 8, 9, 10, 8)
    chart = u_chart(trucks, [1] * 20)
    assert (chart.centre, chart.limits[0].low) == (7.8, 0)
    assert chart.limits[0].high == pytest.approx(16.1785, abs=5e-5)
    assert outside(chart) == []


def test_too_little_has_words_and_no_limits():
    assert individuals_chart([]).why == individuals_chart([3.0]).why == "fewer than 2 values"
    assert p_chart([], []).why == u_chart([0], [0]).why == "nothing was counted"
    single = p_chart([1], [4])
    assert (single.centre, single.why) == (0.25, "fewer than 2 groups")
    assert single.limits == (ControlLimits(why="fewer than 2 groups"),)
    assert individuals_chart([3.0]).outside == (None,)


def test_of_a_group_of_nobody_nothing_is_known_and_why():
    chart = p_chart([1, 0, 2], [10, 0, 12])
    assert chart.values == (0.1, None, pytest.approx(1 / 6))
    assert chart.limits[1] == ControlLimits(None, None, None, "nothing was counted")
    assert [one.is_outside for one in chart.limits] == [False, None, False]


@given(st.lists(st.integers(0, 40), min_size=2, max_size=20), st.integers(40, 100))
def test_limits_hold_the_centre_and_stay_within_what_can_be(counts, size):
    chart = p_chart(counts, [size] * len(counts))
    for one in chart.limits:
        assert 0 <= one.low <= chart.centre <= one.high <= 1


@given(st.lists(st.floats(-1e6, 1e6), min_size=2, max_size=20), st.floats(-1e3, 1e3))
def test_a_shift_of_all_values_shifts_the_chart(values, by):
    chart, moved = individuals_chart(values), individuals_chart([v + by for v in values])
    assert moved.centre == pytest.approx(chart.centre + by, abs=1e-6)
    assert moved.high - moved.low == pytest.approx(chart.high - chart.low, abs=1e-5)
