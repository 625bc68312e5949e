"""The few special functions the statistics need, imported where used to keep start-up fast."""

import math
from collections.abc import Sequence
from statistics import NormalDist
from typing import Any

import numpy as np

Floats = np.ndarray[tuple[int], np.dtype[np.float64]]
Column = Sequence[float] | np.ndarray[Any, np.dtype[Any]]
"""A column of numbers; long ones are handed over as arrays."""


def normal_quantile(share: float) -> float:
    """Return z with P(Z ≤ z) = `share` for a standard normal Z."""
    return NormalDist().inv_cdf(share)


def two_sided(level: float) -> float:
    """Return z for a two-sided interval: 1.959964 at `level` 0.95.

    Raises:
        ValueError: `level` does not lie between 0 and 1.
    """
    check_level(level)
    return normal_quantile((1 + level) / 2)


def normal_p(z: float) -> float:
    """Return the two-sided tail probability of a standard normal at `z`."""
    return math.erfc(abs(z) / math.sqrt(2))


def chi_square_p(chi_square: float, df: int) -> float:
    """Return P(X ≥ `chi_square`) for a chi-square with `df` degrees of freedom."""
    from scipy.special import chdtrc

    return float(chdtrc(df, chi_square))


def gamma_quantile(shape: float, share: float) -> float:
    """Return the `share` quantile of a unit-scale gamma with `shape`; 0 when `shape` is 0."""
    from scipy.special import gammaincinv

    return float(gammaincinv(shape, share)) if shape > 0 else 0.0


def beta_quantile(a: float, b: float, share: float) -> float:
    """Return the `share` quantile of a beta distribution with parameters `a` and `b`.

    Where one of them is 1 it is a power; those cases, the limits beside none or all of a count,
    need no library then.
    """
    if b == 1:
        return float(share ** (1 / a))
    if a == 1:
        return -math.expm1(math.log1p(-share) / b)
    from scipy.special import betaincinv

    return float(betaincinv(a, b, share))


def log_choose(total: int) -> Floats:
    """Return the logs of the binomial coefficients `total` over 0, 1, ..., `total`."""
    if total == 1:
        return np.zeros(2)
    from scipy.special import gammaln

    below = gammaln(np.arange(total + 1) + 1.0)
    logs: Floats = below[-1] - below - below[::-1]
    return logs


def float_columns(*columns: Column) -> list[Floats]:
    """Return columns as arrays.

    Raises:
        ValueError: They differ in length.
    """
    if len({len(column) for column in columns}) != 1:
        raise ValueError("the columns differ in length")
    return [np.asarray(column, dtype=np.float64) for column in columns]


def check_level(level: float) -> None:
    """Refuse a confidence level outside (0, 1).

    Raises:
        ValueError: It is.
    """
    if not 0 < level < 1:
        raise ValueError(f"a confidence level lies between 0 and 1, not {level}")
