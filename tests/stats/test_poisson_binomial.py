"""The Poisson binomial distribution: by hand, as a binomial, and against every way there is."""

from itertools import product
from math import prod

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom

from seasonboard.stats.poisson_binomial import poisson_binomial, upper_mid_p
from tests.stats.laws import law


def test_three_trials_by_hand():
    """With 0.1, 0.2 and 0.5 none comes in 0.9·0.8·0.5 = 0.36, all in 0.01."""
    assert poisson_binomial([0.1, 0.2, 0.5]) == pytest.approx([0.36, 0.49, 0.14, 0.01])
    assert upper_mid_p(2, [0.1, 0.2, 0.5]) == pytest.approx(0.01 + 0.07)
    assert upper_mid_p(0, []) == 0.5


@pytest.mark.parametrize(("trials", "chance"), [(1, 0.3), (10, 0.05), (40, 0.5), (200, 0.02)])
def test_equal_chances_are_a_binomial(trials, chance):
    """scipy.stats.binom."""
    law = poisson_binomial([chance] * trials)
    assert law == pytest.approx(binom.pmf(range(trials + 1), trials, chance), abs=1e-14)
    at = trials // 3
    assert upper_mid_p(at, [chance] * trials) == pytest.approx(
        binom.sf(at, trials, chance) + binom.pmf(at, trials, chance) / 2
    )


@law
@given(st.lists(st.floats(0, 1), max_size=7))
def test_every_way_there_is_adds_up_to_it(chances):
    sums = [0.0] * (len(chances) + 1)
    for ways in product((0, 1), repeat=len(chances)):
        sums[sum(ways)] += prod(p if hit else 1 - p for p, hit in zip(chances, ways, strict=True))
    assert poisson_binomial(chances) == pytest.approx(sums, abs=1e-12)


@pytest.mark.parametrize(("chances", "successes"), [([1.2], 0), ([-0.1], 0), ([0.5], 2)])
def test_what_cannot_be_is_refused(chances, successes):
    with pytest.raises(ValueError, match=r"between|in 1 trials"):
        upper_mid_p(successes, chances)
