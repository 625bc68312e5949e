"""Two rates compared: exact and mid-P limits of one ratio, and what is said without one."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import astuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.exact_ratio import exact_ratio
from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel
from tests.stats.laws import law


def two_rates(a: int, t1: int, b: int, t0: int, *, level: float = 0.95) -> RateRatio:
    return mantel_haenszel(Strata([a], [b], [t1], [t0]), level=level)


def test_fluoroscopy_and_breast_cancer():
    """Boice & Monson 1977, J Natl Cancer Inst 59, 823; exact limits as Stata prints them."""
    found = two_rates(41, 28010, 15, 19017)
    assert found.value == pytest.approx(1.855759, abs=1e-6)
    assert found.exact.low == pytest.approx(1.005684, abs=1e-6)
    assert found.exact.high == pytest.approx(3.6093, abs=1e-4)
    assert found.exact.p == pytest.approx(0.0476602, abs=1e-7)
    assert found.exact.mid_p_low == pytest.approx(1.041075, abs=1e-6)
    assert found.exact.mid_p_high == pytest.approx(3.449423, abs=1e-6)
    assert found.p == pytest.approx(0.0355, abs=5e-5)


def test_hormone_therapy_and_coronary_disease():
    """Gu et al. 2008, Biom J 50, 283-298; limits as R's exactci gives them (p to five digits)."""
    found = exact_ratio(60, [90], [51477.5 / 54308.7])
    assert found.low == pytest.approx(1.339735721772650, abs=1e-9)
    assert found.high == pytest.approx(3.388365573616252, abs=1e-9)
    assert found.p / 2 == pytest.approx(0.000428, abs=1e-6)
    assert found.mid_p / 2 == pytest.approx(0.000310, abs=1e-6)
    assert (found.mid_p_low, found.mid_p_high) == pytest.approx((1.368104, 3.307297), abs=1e-6)


def test_a_ratio_other_than_one_can_be_tested_by_scaling_the_exposures():
    """Gu et al. 2008, example 2: the fluoroscopy data against a ratio of 1.5."""
    found = exact_ratio(41, [56], [1.5 * 28010 / 19017])
    assert found.p / 2 == pytest.approx(0.2913, abs=5e-4)
    assert found.mid_p / 2 == pytest.approx(0.2450, abs=5e-4)


def test_no_guarded_injury_gives_a_finite_upper_limit():
    found = two_rates(0, 1000, 5, 1200)
    assert found.value == 0
    assert (found.exact.low, found.low) == (0, 0)
    assert found.exact.high == pytest.approx(1.309535, abs=1e-6)
    assert found.high == pytest.approx(0.984677, abs=1e-6)
    assert found.exact.p == pytest.approx(0.0965657, abs=1e-7)
    assert found.p == pytest.approx(0.0482828, abs=1e-7)
    assert found.why == "no guarded injury"


def test_no_unguarded_injury_gives_a_lower_limit_and_words_for_the_rest():
    found = two_rates(4, 800, 0, 900)
    assert found.value is None
    assert found.exact.low == pytest.approx(0.742640, abs=1e-6)
    assert found.low == pytest.approx(1.009202, abs=1e-6)
    assert (found.exact.high, found.high) == (None, None)
    assert found.exact.p == pytest.approx(0.0980831, abs=1e-7)
    assert "no upper limit yet" in found.why
    assert "no upper limit yet" in found.exact.why


def test_no_injury_at_all_gives_neither_ratio_nor_limits_but_words():
    found = two_rates(0, 500, 0, 700)
    assert (found.value, found.low, found.high, found.p) == (None, None, None, None)
    assert found.why == "no injury where both guarded and unguarded were exposed"
    assert found.exact.why == "no injuries where both were exposed"
    assert found.score.why == "no informative stratum"


def test_a_group_without_exposures_is_not_compared():
    found = two_rates(0, 0, 3, 500)
    assert (found.value, found.low, found.high, found.p) == (None, None, None, None)
    assert found.why


injuries = st.integers(0, 60)
exposures = st.integers(60, 100_000)


@law
@given(injuries, exposures, injuries, exposures)
def test_swapping_the_groups_turns_ratio_and_limits_upside_down(a, t1, b, t0):
    one, other = two_rates(a, t1, b, t0), two_rates(b, t0, a, t1)
    assert one.p == (None if other.p is None else pytest.approx(other.p, rel=1e-9, abs=1e-12))
    for value, mirrored in (
        (one.value, other.value),
        (one.low, other.high),
        (one.high, other.low),
        (one.exact.low, other.exact.high),
        (one.exact.high, other.exact.low),
    ):
        if value and mirrored:
            assert value * mirrored == pytest.approx(1, rel=1e-9)
        else:
            assert not value
            assert not mirrored


@law
@given(injuries, exposures, injuries, exposures)
def test_limits_hold_the_ratio_and_mid_p_lies_within_exact(a, t1, b, t0):
    found = two_rates(a, t1, b, t0)
    if a + b == 0:
        return
    assert found.exact.low <= found.low
    if found.high is None:
        assert b == 0
        assert found.exact.high is None
    else:
        assert found.low <= found.value <= found.high <= found.exact.high


@law
@given(injuries, exposures, injuries, exposures)
def test_p_is_below_alpha_exactly_when_the_limits_leave_out_one(a, t1, b, t0):
    exact = two_rates(a, t1, b, t0).exact
    if a + b == 0:
        return
    for low, high, p in (
        (exact.low, exact.high, exact.p),
        (exact.mid_p_low, exact.mid_p_high, exact.mid_p),
    ):
        excludes = low > 1 or (high is not None and high < 1)
        assert excludes == (p < 0.05) or p == pytest.approx(0.05, abs=1e-9)


@law
@given(injuries, exposures, injuries, exposures, st.floats(0.5, 0.98))
def test_a_higher_level_is_never_narrower(a, t1, b, t0, level):
    narrow, wide = two_rates(a, t1, b, t0, level=level), two_rates(a, t1, b, t0, level=0.99)
    if a:
        assert wide.low < narrow.low
    if b:
        assert narrow.high < wide.high


@law
@given(injuries, exposures, injuries, exposures)
def test_no_number_is_ever_infinite_or_undefined(a, t1, b, t0):
    found = two_rates(a, t1, b, t0)
    numbers = [v for v in _flat(astuple(found)) if isinstance(v, float)]
    assert all(math.isfinite(value) for value in numbers)
    assert found.why or None not in (found.value, found.low, found.high, found.p)


def _flat(values: Iterable[object]) -> Iterator[object]:
    for value in values:
        if isinstance(value, tuple):
            yield from _flat(value)
        else:
            yield value
