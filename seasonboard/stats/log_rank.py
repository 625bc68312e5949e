"""The log-rank test of two groups on an integer clock, plain and stratified."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from seasonboard.stats.special import chi_square_p


class TwoGroupTick(NamedTuple):
    """At risk and injured of both groups at one tick of one stratum.

    With a `width` above 1 it stands for so many ticks up to this one, at which nobody came or went;
    the injuries are at this one.
    """

    stratum: Hashable
    tick: int
    at_risk_guarded: int
    injuries_guarded: int
    at_risk_unguarded: int
    injuries_unguarded: int
    width: int = 1


@dataclass(frozen=True, slots=True)
class LogRank:
    """Injuries of the guarded, as observed and as expected were there no difference."""

    observed: int
    expected: float
    variance: float
    chi_square: float | None
    df: int
    p: float | None
    strata: int
    why: str = ""


def log_rank(ticks: Sequence[TwoGroupTick]) -> LogRank:
    """Return the log-rank test over the ticks given; with several strata it is stratified.

    Risk sets may grow (late entry). The variance is the hypergeometric one.

    Source: Mantel (1966), Cancer Chemother Rep 50, 163-170; Peto & Peto (1972), J R Stat Soc A 135,
    185-207.
    """
    counts = [
        (t.at_risk_guarded, t.at_risk_unguarded, t.injuries_guarded, t.injuries_unguarded)
        for t in ticks
        if t.at_risk_guarded + t.at_risk_unguarded > 0
    ]
    n1, n0, d1, d0 = np.array(counts, dtype=np.float64).reshape(-1, 4).T
    n, d = n1 + n0, d1 + d0
    expected = float((d * n1 / n).sum())
    variance = float((d * n1 * n0 * (n - d) / (n**2 * np.maximum(n - 1, 1))).sum())
    observed = int(d1.sum())
    strata = len({tick.stratum for tick in ticks})
    if variance <= 0:
        why = "no injury while both groups were at risk"
        return LogRank(observed, expected, 0.0, None, 1, None, strata, why)
    chi_square = (observed - expected) ** 2 / variance
    return LogRank(observed, expected, variance, chi_square, 1, chi_square_p(chi_square, 1), strata)
