"""Partial pooling of counts: what a unit's own count says, pooled with units like it.

A unit's count is Poisson about its relative rate times what is expected of it; relative rates of
like units are gamma about 1, with a coefficient of variation of `spread`. Its posterior is gamma
again, between its own count over what was expected and 1.

Source: Clayton & Kaldor (1987), Biometrics 43, 671-681; Efron & Hastie (2016), Computer Age
Statistical Inference, section 6.1.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from seasonboard.stats.absence_duration import Floats

_SPREADS = np.linspace(0.02, 2.0, 100)


@dataclass(frozen=True, slots=True)
class Pooled:
    """A relative rate: gamma with this mean, as sure as `shape` injuries.

    `own_weight` (0 to 1) is how much the unit's own count weighs beside units like it.
    """

    mean: float
    shape: float
    own_weight: float


def pooled(count: float, expected: float, shape: float) -> Pooled:
    """Return a unit's relative rate from its own count and that of units like it.

    `shape` says how alike they are: 1 / spread², as many injuries as being like them is worth.

    Raises:
        ValueError: A number is negative, or the shape is not above 0.
    """
    if count < 0 or expected < 0 or shape <= 0:
        raise ValueError("count and expected are 0 or more, the shape is above 0")
    whole = shape + expected
    return Pooled((shape + count) / whole, shape + count, expected / whole)


def log_likelihood(
    spreads: Floats, counts: Floats, expected: Floats, unsure: Floats | float = 0.0
) -> Floats:
    """Return the log-likelihood of each spread: counts are then negative binomial.

    `unsure` is the relative variance of what is expected itself.
    """
    from scipy.special import gammaln

    shape = 1 / (spreads[:, None] ** 2 + unsure)
    each = gammaln(shape + counts) - gammaln(shape) + shape * np.log(shape)
    each = each + counts * np.log(np.maximum(expected, 1e-12))
    total: Floats = (each - (shape + counts) * np.log(shape + expected)).sum(axis=1)
    return total


def spread_between(
    counts: ArrayLike, expected: ArrayLike, usual: float, unsure: ArrayLike = 0.0
) -> float:
    """Return by how much relative rates of units differ: their coefficient of variation.

    A posterior mean: before any count is seen the spread is taken to be half-normal about 0, so
    that two in three are below `usual`; few counts leave it near that. `unsure` is the relative
    variance of what is expected.
    """
    own, mean = np.asarray(counts, dtype=np.float64), np.asarray(expected, dtype=np.float64)
    log = log_likelihood(
        _SPREADS, own, mean, np.asarray(unsure, dtype=np.float64)
    ) - _SPREADS**2 / (2 * usual**2)
    weight = np.exp(log - log.max())
    return float(np.sqrt((weight * _SPREADS**2).sum() / weight.sum()))


def both(one: float, other: float) -> float:
    """Return the shape of a product of two gamma variables of mean 1, by its variance."""
    return 1 / ((1 + 1 / one) * (1 + 1 / other) - 1)
