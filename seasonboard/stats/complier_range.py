"""The ratio among compliers: those who wear the guard once their turn has come, and not before."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.special import float_columns, two_sided

CUZICK_EDWARDS_SEGNAN = "Cuzick, Edwards & Segnan, range by Fieller's theorem"
_NO_GUARDED = "no guarded injury: no upper limit yet"
_NO_UPPER = "no upper limit: too few bare injuries of those who wait"


@dataclass(frozen=True, slots=True)
class DrawnStrata:
    """Injuries by whether the turn had come and the guard was worn, and the exposures of both.

    Six columns of one length: injuries of those whose turn had come, guarded and bare; of those
    whose turn had not, guarded and bare; exposures of the two.
    """

    come_guarded: Sequence[int]
    come_bare: Sequence[int]
    waiting_guarded: Sequence[int]
    waiting_bare: Sequence[int]
    exposures_come: Sequence[int]
    exposures_waiting: Sequence[int]


def complier_range(strata: DrawnStrata, *, level: float = 0.95) -> Estimate:
    """Return the ratio guarded over bare among compliers, with its range.

    An injury weighs w = T0/T where its turn had come and T1/T where it had not, T1 and T0 being
    the exposures of the two. With p the weighted guarded injuries come less not come, and q the
    bare ones not come less come, the ratio is p/q. Its range is every θ ≥ 0 with
    (p − θq)² ≤ z² (r + θ²t), r and t the sums of w² over guarded and bare injuries.

    Raises:
        ValueError: Columns differ in length, a count is negative, or injuries lack exposures.

    Source: after Cuzick, Edwards & Segnan (1997), Statistics in Medicine 16, 1017-1029; Fieller
    (1954), Journal of the Royal Statistical Society B 16, 175-185, for the range.
    """
    columns = (getattr(strata, name) for name in DrawnStrata.__slots__)
    come_g, come_b, wait_g, wait_b, t1, t0 = float_columns(*columns)
    if min(c.min(initial=0) for c in (come_g, come_b, wait_g, wait_b, t1, t0)) < 0:
        raise ValueError("counts are 0 or more")
    if ((come_g + come_b > 0) & (t1 == 0)).any() or ((wait_g + wait_b > 0) & (t0 == 0)).any():
        raise ValueError("injuries without exposures in a stratum")
    whole = np.maximum(t1 + t0, 1)
    come, waiting = t0 / whole, t1 / whole
    p = float((come_g * come).sum() - (wait_g * waiting).sum())
    q = float((wait_b * waiting).sum() - (come_b * come).sum())
    r = float((come_g * come**2 + wait_g * waiting**2).sum())
    t = float((come_b * come**2 + wait_b * waiting**2).sum())
    if r + t == 0:
        why = "no injury while the turn of some had come and that of others had not"
        return Estimate(None, level=level, why=why)
    value = max(p / q, 0.0) if q > 0 else None
    if r == 0:
        return Estimate(value, 0.0, None, level, CUZICK_EDWARDS_SEGNAN, _NO_GUARDED)
    low, high = _range(p, q, two_sided(level) ** 2 * r, two_sided(level) ** 2 * t)
    why = "" if high is not None else _NO_UPPER
    return Estimate(value, low, high, level, CUZICK_EDWARDS_SEGNAN, why)


def _range(p: float, q: float, r: float, t: float) -> tuple[float | None, float | None]:
    """Return the least and the largest θ ≥ 0 with (p − θq)² ≤ r + θ²t; None: there is no end."""
    square, half, rest = q * q - t, p * q, p * p - r
    inside = half * half - square * rest
    root = math.sqrt(max(inside, 0.0))
    if q > 0 and square > 0:
        return max(0.0, (half - root) / square), max(0.0, (half + root) / square)
    if rest <= 0 or (square < 0 and inside < 0):
        return 0.0, None
    ends = [rest / (2 * half)] if half and not square else []
    if square:
        ends = [(half - root) / square, (half + root) / square]
    return min((end for end in ends if end > 0), default=None), None
