"""Shares with limits against published values."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.proportions import clopper_pearson, likely_count, wilson

NEWCOMBE = {
    (81, 263): ((0.2553, 0.3662), (0.2527, 0.3676)),
    (15, 148): ((0.0624, 0.1605), (0.0578, 0.1617)),
    (0, 20): ((0.0, 0.1611), (0.0, 0.1684)),
    (1, 29): ((0.0061, 0.1718), (0.0009, 0.1776)),
}
"""Newcombe 1998, Stat Med 17:857, table I: score without correction, and Clopper-Pearson."""


@pytest.mark.parametrize(("counted", "limits"), NEWCOMBE.items())
def test_newcombe_s_four_shares(counted, limits):
    for measure, expected in zip((wilson, clopper_pearson), limits, strict=True):
        found = measure(*counted)
        assert found.value == counted[0] / counted[1]
        assert (found.low, found.high) == pytest.approx(expected, abs=5.1e-5)


def test_statsmodels_agrees_at_another_level():
    from statsmodels.stats.proportion import proportion_confint

    for measure, name in ((wilson, "wilson"), (clopper_pearson, "beta")):
        found = measure(3, 40, level=0.8)
        assert (found.low, found.high) == pytest.approx(
            proportion_confint(3, 40, alpha=0.2, method=name), rel=1e-9
        )


@pytest.mark.parametrize("trials", [1, 2, 19, 400])
@pytest.mark.parametrize("level", [0.5, 0.95, 0.999])
def test_none_and_all_of_a_count_have_the_limits_that_scipy_gives(trials, level):
    from scipy.special import betaincinv

    tail = (1 - level) / 2
    none, every = (clopper_pearson(n, trials, level=level) for n in (0, trials))
    assert (none.low, every.high) == (0, 1)
    assert none.high == pytest.approx(float(betaincinv(1, trials, 1 - tail)), rel=1e-12)
    assert every.low == pytest.approx(float(betaincinv(trials, 1, tail)), rel=1e-12)


def test_nothing_counted_has_words_and_no_share():
    for measure in (wilson, clopper_pearson):
        found = measure(0, 0)
        assert (found.value, found.low, found.high) == (None, None, None)
        assert found.why == "nothing was counted"


@given(st.integers(1, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_limits_hold_the_share_stay_within_0_and_1_and_mirror(counted):
    x, n = counted
    for measure in (wilson, clopper_pearson):
        found, mirror = measure(x, n), measure(n - x, n)
        assert 0 <= found.low <= found.value <= found.high <= 1
        assert (mirror.low, mirror.high) == pytest.approx((1 - found.high, 1 - found.low))


def test_a_later_count_lies_where_repeated_trials_put_it():
    """Against draws: a share from Jeffreys' posterior, then a count; seed fixed."""
    random = np.random.default_rng(4)
    share = random.beta(6.5, 14.5, 200_000)
    drawn = np.quantile(random.binomial(12, share), [0.025, 0.975])
    assert likely_count(0.3, 20, 12) == tuple(drawn)
    assert likely_count(0.3, 20, 0) == (0, 0)
    with pytest.raises(ValueError, match="a share lies"):
        likely_count(1.2, 20, 1)
