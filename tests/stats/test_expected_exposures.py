"""Mantel-Haenszel over exposures that are not whole: expected injuries stand in for sessions."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel
from tests.stats.laws import law

Row = tuple[int, int, float, float]


def over(rows: list[Row]) -> RateRatio:
    return mantel_haenszel(Strata(*zip(*rows, strict=True)))


def numbers(found: RateRatio) -> list[float | None]:
    return [
        found.value, found.low, found.high, found.p, found.std_error, found.exact.low,
        found.exact.high, found.exact.p, found.exact.mid_p_low, found.exact.mid_p_high,
        found.score.chi_square, found.homogeneity.chi_square,
    ]  # fmt: skip


def test_two_athletes_by_hand():
    """Expected 0.5 and 0.25, then 0.2 and 0.6: (2·0.25/0.75 + 1·0.6/0.8) / (1·0.5/0.75 + …)."""
    found = over([(2, 1, 0.5, 0.25), (1, 3, 0.2, 0.6)])
    above = 2 * 0.25 / 0.75 + 1 * 0.6 / 0.8
    under = 1 * 0.5 / 0.75 + 3 * 0.2 / 0.8
    assert found.value == pytest.approx(above / under, rel=1e-12)
    spread = 3 * 0.5 * 0.25 / 0.75**2 + 4 * 0.2 * 0.6 / 0.8**2
    assert found.std_error == pytest.approx((spread / (above * under)) ** 0.5, rel=1e-12)


def test_exact_limits_hold_below_one_expected_injury():
    """5 of 12 with 0.02 against 0.03 expected: Clopper-Pearson on the share, times 0.03 / 0.02."""
    from scipy.stats import beta

    found = over([(5, 7, 0.02, 0.03)])
    low, high = beta.ppf(0.025, 5, 8), beta.ppf(0.975, 6, 7)
    assert found.exact.low == pytest.approx(low / (1 - low) * 1.5, rel=1e-9)
    assert found.exact.high == pytest.approx(high / (1 - high) * 1.5, rel=1e-9)


def test_a_trickle_of_exposure_still_informs():
    found = over([(1, 0, 1e-4, 2e-4), (0, 1, 3e-4, 1e-4)])
    assert found.informative_strata == 2
    assert found.value == pytest.approx((2 / 3) / (3 / 4), rel=1e-12)


row = st.tuples(st.integers(0, 8), st.integers(0, 8), st.integers(1, 5000), st.integers(1, 5000))


@law
@given(st.lists(row, min_size=1, max_size=6), st.floats(1e-6, 0.9))
def test_the_unit_of_exposure_changes_no_ratio_limit_or_test(rows, unit):
    whole = over(rows)
    scaled = over([(a, b, t1 * unit, t0 * unit) for a, b, t1, t0 in rows])
    for value, same in zip(numbers(scaled), numbers(whole), strict=True):
        assert value == (None if same is None else pytest.approx(same, rel=1e-6, abs=1e-9))
    assert (scaled.method, scaled.why) == (whole.method, whole.why)


@law
@given(
    st.lists(row, min_size=1, max_size=6), st.lists(st.floats(0.01, 100), min_size=6, max_size=6)
)
def test_each_stratum_may_have_a_unit_of_its_own(rows, units):
    """Only the balance within a stratum counts: a·T0/T and b·T1/T do not change with its scale."""
    scaled = [(a, b, t1 * u, t0 * u) for (a, b, t1, t0), u in zip(rows, units, strict=False)]
    one, other = over(rows), over(scaled)
    for value, same in zip(numbers(other), numbers(one), strict=True):
        assert value == (None if same is None else pytest.approx(same, rel=1e-6, abs=1e-9))
