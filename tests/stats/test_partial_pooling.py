"""Partial pooling of counts, against published examples of gamma-Poisson estimates."""

import numpy as np
import pytest
from pytest import approx

from seasonboard.stats.partial_pooling import (
    both,
    log_likelihood,
    pooled,
    spread_between,
)

CLAIMS = (7840, 1317, 239, 42, 14, 4, 4, 1)
"""Holders of an insurance with 0, 1, … claims in a year: Efron & Hastie (2016), Table 6.1."""
CLAIMS_EXPECTED = (0.164, 0.398, 0.633, 0.87, 1.10, 1.34, 1.57)
"""Claims expected of them in the next year: the same table, row "Gamma MLE" (from memory)."""

PUMPS = ((5, 94.3), (1, 15.7), (5, 62.9), (14, 126), (3, 5.24), (19, 31.4), (1, 1.05), (1, 1.05),
         (4, 2.10), (22, 10.5))  # fmt: skip
"""Failures and thousands of hours of ten pumps: Gaver & O'Muircheartaigh (1987), Technometrics 29,
1-15, as in the examples of BUGS, "Pumps: conjugate gamma-Poisson hierarchical model"."""
PUMPS_RATES = (0.060, 0.102, 0.089, 0.116, 0.60, 0.61, 0.90, 0.90, 1.59, 1.99)
"""Posterior means of their rates there (from memory); shape and scale have priors of their own."""


def best_spread(counts, expected):
    spreads = np.linspace(0.5, 2.5, 4001)
    return spreads[log_likelihood(spreads, np.asarray(counts), np.asarray(expected)).argmax()]


def test_claims_of_the_next_year_are_those_of_the_published_table():
    counts = np.repeat(np.arange(8.0), CLAIMS)
    mean = counts.mean()
    shape = 1 / best_spread(counts, np.full(len(counts), mean)) ** 2
    assert shape == approx(0.70, abs=0.005)
    found = [mean * pooled(count, mean, shape).mean for count in range(7)]
    assert found == approx(CLAIMS_EXPECTED, abs=0.006)


def test_rates_of_pumps_are_near_those_published_with_priors_of_their_own():
    """Shape 0.70 and scale 0.93 are the posterior means that are published with the rates."""
    found = [0.70 / 0.93 * pooled(n, t * 0.70 / 0.93, 0.70).mean for n, t in PUMPS]
    assert found == approx(PUMPS_RATES, rel=0.05)


def test_a_count_weighs_as_much_as_is_expected_of_it_beside_the_shape():
    found = pooled(12, 6, 18)
    assert found.own_weight == approx(6 / 24)
    assert found.mean == approx(0.25 * 12 / 6 + 0.75 * 1)
    assert pooled(0, 0, 4).mean == 1


def test_a_spread_that_was_planted_is_found_and_few_counts_leave_the_usual_one():
    rng = np.random.default_rng(1)
    expected = np.full(400, 8.0)
    counts = rng.poisson(expected * rng.gamma(1 / 0.4**2, 0.4**2, 400))
    assert spread_between(counts, expected, 0.3) == approx(0.4, abs=0.05)
    alike = rng.poisson(expected)
    assert spread_between(alike, expected, 0.3) < 0.15
    assert spread_between([1], [1.0], 0.3) == approx(0.3, abs=0.05)


def test_the_shape_of_a_product_is_that_of_its_variance():
    rng = np.random.default_rng(2)
    drawn = rng.gamma(9, 1 / 9, 400_000) * rng.gamma(4, 1 / 4, 400_000)
    assert both(9, 4) == approx(1 / drawn.var(), rel=0.02)


@pytest.mark.parametrize("given", [(-1, 1, 1), (1, -1, 1), (1, 1, 0)])
def test_what_cannot_be_is_refused(given):
    with pytest.raises(ValueError, match="0 or more"):
        pooled(*given)
