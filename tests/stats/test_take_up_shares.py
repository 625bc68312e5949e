"""Shares of sessions with intervals that know how athletes differ."""

import math
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from seasonboard.stats.clustered_shares import ClusterSums, clustered_share
from seasonboard.stats.proportions import wilson


def sums(pairs):
    """Return the sums over (successes, trials) of each cluster."""
    x = np.array([a for a, _ in pairs], dtype=np.int64)
    n = np.array([b for _, b in pairs], dtype=np.int64)
    return ClusterSums(len(pairs), *(int(v) for v in (x.sum(), n.sum(), x @ x, x @ n, n @ n)))


PAIRS = st.lists(
    st.integers(1, 30).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))),
    min_size=2,
    max_size=20,
)


@given(st.lists(st.booleans(), min_size=2, max_size=60))
def test_with_one_session_an_athlete_the_limits_are_wilsons(worn):
    share = clustered_share(sums([(int(w), 1) for w in worn]))
    independent = wilson(sum(worn), len(worn))
    assert (share.value, share.low, share.high) == approx(
        (independent.value, independent.low, independent.high)
    )


@given(PAIRS)
def test_limits_hold_the_share_and_are_never_narrower_than_independent_sessions(pairs):
    share = clustered_share(sums(pairs))
    independent = wilson(share.successes, share.trials)
    assert share.value == independent.value
    assert 0 <= share.low <= independent.low + 1e-12
    assert independent.high - 1e-12 <= share.high <= 1


def test_the_design_effect_is_the_linearised_variance_over_that_of_independent_sessions():
    """Kish (1965), section 6.4, by hand: three athletes, (9 of 10), (5 of 10), (1 of 10).

    p = 0.5; residuals 4, 0, −4; variance 32 / 900 · 3/2 = 0.05333; of 30 independent sessions
    0.25 / 29; effect 6.187, so as good as 4.849 sessions.
    """
    share = clustered_share(sums([(9, 10), (5, 10), (1, 10)]))
    effective = 30 / (32 / 900 * 1.5 / (0.25 / 29))
    assert effective == approx(4.849, abs=0.001)
    z = 1.959963984540054
    half = z / (1 + z * z / effective) * math.sqrt(0.25 / effective + (z / (2 * effective)) ** 2)
    assert (share.low, share.high) == approx((0.5 - half, 0.5 + half))


def test_where_all_sessions_end_alike_each_athlete_counts_once():
    share = clustered_share(sums([(10, 10), (12, 12), (7, 7)]))
    assert (share.value, share.low, share.high) == approx((1, wilson(3, 3).low, 1))


@pytest.mark.parametrize(
    ("pairs", "why"), [([], "nothing was counted"), ([(3, 10)], "a single athlete shows no spread")]
)
def test_what_cannot_be_told_says_why(pairs, why):
    share = clustered_share(sums(pairs))
    assert (share.low, share.high, share.why) == (None, None, why)


def test_the_limits_hold_the_truth_where_those_of_independent_sessions_do_not():
    """Sixty athletes with twenty sessions each, whose own shares differ (beta 2.8, 1.2)."""
    dice = random.Random(20261125)
    held = {"clustered": 0, "independent": 0}
    for _ in range(400):
        pairs = []
        for _ in range(60):
            own = dice.betavariate(2.8, 1.2)
            pairs.append((sum(dice.random() < own for _ in range(20)), 20))
        share = clustered_share(sums(pairs))
        independent = wilson(share.successes, share.trials)
        held["clustered"] += share.low <= 0.7 <= share.high
        held["independent"] += independent.low <= 0.7 <= independent.high
    assert held["clustered"] / 400 > 0.92
    assert held["independent"] / 400 < 0.75
