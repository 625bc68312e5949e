"""An interval for a Mantel-Haenszel ratio that knows that athletes are hurt again and again."""

import math
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.special import Column, float_columns, two_sided

CLUSTERED = "clustered by athlete"

_NO_SPREAD = 1e-9
"""A standard error below this is rounding: sums that are exactly 0 on paper."""


@dataclass(frozen=True, slots=True)
class AthleteCells:
    """What each athlete adds to each stratum, as columns of one length.

    A position is one athlete in one stratum; `stratum` and `athlete` are whole numbers.
    """

    stratum: Column
    athlete: Column
    injuries_guarded: Column
    injuries_unguarded: Column
    exposures_guarded: Column
    exposures_unguarded: Column


@dataclass(frozen=True, slots=True, kw_only=True)
class ClusteredRatio(Estimate):
    """The ratio with a confidence interval from the spread between athletes.

    `std_error` is that of its log, None where there is no interval.
    """

    std_error: float | None = None
    athletes: int


def clustered_ratio(cells: AthleteCells, *, level: float = 0.95) -> ClusteredRatio:
    """Return the Mantel-Haenszel ratio with its athlete-clustered confidence interval.

    The estimating function Σ (a·T0 − θ·b·T1) / T is split into what each athlete adds to it, beyond
    what the athlete's own exposures lead one to expect; those sums are squared and added up.
    In a single stratum this is the cluster-robust error of a Poisson regression without
    small-sample factor.

    Strata without an injury add nothing and may be left out.

    Raises:
        ValueError: The columns differ in length.

    Source: Liang & Zeger (1986), Biometrika 73, 13-22; Greenland & Robins (1985), Biometrics 41,
    55-68.
    """
    a, b, t1, t0, strata, athletes = float_columns(
        *(cells.injuries_guarded, cells.injuries_unguarded),
        *(cells.exposures_guarded, cells.exposures_unguarded),
        *(cells.stratum, cells.athlete),
    )
    _, stratum = np.unique(strata, return_inverse=True)
    names, athlete = np.unique(athletes, return_inverse=True)
    whole_a, whole_b, whole_t1, whole_t0 = (
        np.bincount(stratum, column, minlength=1)[stratum] if len(a) else column
        for column in (a, b, t1, t0)
    )
    exposed = np.maximum(whole_t1 + whole_t0, 1e-300)
    above = float((a * whole_t0 / exposed).sum())
    under = float((b * whole_t1 / exposed).sum())
    if above == 0 or under == 0:
        why = "no injury in one of the groups where both were exposed"
        return ClusteredRatio(None, level=level, why=why, athletes=len(names))
    ratio = above / under
    base = (whole_a + whole_b) / np.maximum(ratio * whole_t1 + whole_t0, 1e-300)
    beyond_guarded = (a - ratio * base * t1) * whole_t0 / exposed
    beyond_bare = ratio * (b - base * t0) * whole_t1 / exposed
    added = np.bincount(athlete, beyond_guarded - beyond_bare)
    std_error = math.sqrt(float((added**2).sum())) / above
    if std_error < _NO_SPREAD:
        both = (whole_t1 > 0) & (whole_t0 > 0) & (whole_a + whole_b > 0)
        single = len(np.unique(athlete[both])) == 1
        why = "a single athlete informs it" if single else "the athletes do not differ"
        return ClusteredRatio(ratio, level=level, why=why, athletes=len(names))
    reach = math.exp(two_sided(level) * std_error)
    estimate = (ratio, ratio / reach, ratio * reach, level, CLUSTERED)
    return ClusteredRatio(*estimate, std_error=std_error, athletes=len(names))
