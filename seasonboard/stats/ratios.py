"""Comparing two injury rates, whole or over strata: the Mantel-Haenszel family."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.exact_ratio import ExactRatio, GuardedSum
from seasonboard.stats.special import Floats, chi_square_p, float_columns, normal_p, two_sided

MID_P = "mid-P, exact conditional"
GREENLAND_ROBINS = "Mantel-Haenszel, Greenland-Robins"


@dataclass(frozen=True, slots=True)
class Strata:
    """Injuries and exposures of each stratum, as four columns of one length.

    `standing_for` is how many strata a position stands for: strata without any injury change no
    estimate, so they may be summed into one position.
    """

    injuries_guarded: Sequence[float]
    injuries_unguarded: Sequence[float]
    exposures_guarded: Sequence[float]
    exposures_unguarded: Sequence[float]
    standing_for: Sequence[int] | None = None


@dataclass(frozen=True, slots=True)
class ChiSquare:
    """A chi-square statistic; `why` says why it is None."""

    chi_square: float | None
    df: int | None
    p: float | None
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RateRatio(Estimate):
    """The rate ratio guarded / unguarded, with the counts behind it and what tests it."""

    injuries_guarded: int
    injuries_unguarded: int
    exposures_guarded: int
    exposures_unguarded: int
    strata: int
    informative_strata: int
    informative_injuries: int
    p: float | None
    std_error: float | None
    guarded_sum: GuardedSum
    score: ChiSquare
    homogeneity: ChiSquare

    @property
    def exact(self) -> ExactRatio:
        """Return the exact limits of the same ratio."""
        return self.guarded_sum.exact


def mantel_haenszel(strata: Strata, *, level: float = 0.95) -> RateRatio:
    """Return the rate ratio common to the strata; a single stratum gives the crude ratio.

    The ratio is Σ a·T0/T over Σ b·T1/T. Over several strata the interval is Greenland and
    Robins', on the log scale. Where a single stratum informs it, and where one group has no
    informative injury (so that no log exists), it is the mid-P interval of the exact conditional
    distribution. The score test of a ratio of 1 has no continuity correction.

    Raises:
        ValueError: Columns differ in length, a count is negative, or injuries lack exposures.

    Source: Greenland & Robins (1985), Biometrics 41, 55-68; Breslow & Day (1987), section 3.6.
    """
    a, b, t1, t0 = float_columns(
        *(strata.injuries_guarded, strata.injuries_unguarded),
        *(strata.exposures_guarded, strata.exposures_unguarded),
    )
    if min(column.min(initial=0) for column in (a, b, t1, t0)) < 0:
        raise ValueError("counts are 0 or more")
    if ((a > 0) & (t1 == 0)).any() or ((b > 0) & (t0 == 0)).any():
        raise ValueError("injuries without exposures in a stratum")
    informative = (a + b > 0) & (t1 > 0) & (t0 > 0)
    a_in, b_in, t1_in, t0_in = a[informative], b[informative], t1[informative], t0[informative]
    injuries, totals = int((a_in + b_in).sum()), tuple(int(total) for total in a_in + b_in)
    guarded_sum = GuardedSum(int(a_in.sum()), totals, tuple((t1_in / t0_in).tolist()), level)
    exposed = t1_in + t0_in
    above, under = float((a_in * t0_in / exposed).sum()), float((b_in * t1_in / exposed).sum())
    spread = float(((a_in + b_in) * t1_in * t0_in / exposed**2).sum())
    ratio = above / under if under > 0 else None
    std_error = None
    if not ratio or int(informative.sum()) < 2:
        exact = guarded_sum.exact
        low, high, p, method = exact.mid_p_low, exact.mid_p_high, exact.mid_p, MID_P
    else:
        std_error = math.sqrt(spread / (above * under))
        reach = two_sided(level) * std_error
        low, high = ratio * math.exp(-reach), ratio * math.exp(reach)
        p, method = normal_p(math.log(ratio) / std_error), GREENLAND_ROBINS
    return RateRatio(
        *(ratio, low, high, level, method, _why(injuries, above, under)),
        injuries_guarded=int(a.sum()),
        injuries_unguarded=int(b.sum()),
        exposures_guarded=int(t1.sum()),
        exposures_unguarded=int(t0.sum()),
        strata=len(a) if strata.standing_for is None else int(sum(strata.standing_for)),
        informative_strata=int(informative.sum()),
        informative_injuries=injuries,
        p=p,
        std_error=std_error,
        guarded_sum=guarded_sum,
        score=_score(float(a_in.sum()), (a_in + b_in) * t1_in / exposed, spread),
        homogeneity=_homogeneity(a_in, b_in, t1_in, t0_in, ratio),
    )


def _score(observed: float, expected: Floats, variance: float) -> ChiSquare:
    if variance <= 0:
        return ChiSquare(None, None, None, "no informative stratum")
    chi_square = (observed - float(expected.sum())) ** 2 / variance
    return ChiSquare(chi_square, 1, chi_square_p(chi_square, 1))


def _homogeneity(a: Floats, b: Floats, t1: Floats, t0: Floats, ratio: float | None) -> ChiSquare:
    """Weighted squares of the strata's log ratios about the common one (weights ab/(a+b))."""
    if len(a) < 2:
        return ChiSquare(None, None, None, "needs two informative strata or more")
    if ratio is None or not ratio or (a == 0).any() or (b == 0).any():
        return ChiSquare(None, None, None, "needs injuries in both groups of every stratum")
    gaps = np.log(a * t0 / (b * t1)) - math.log(ratio)
    chi_square = float((a * b / (a + b) * gaps**2).sum())
    return ChiSquare(chi_square, len(a) - 1, chi_square_p(chi_square, len(a) - 1))


def _why(injuries: int, above: float, under: float) -> str:
    if injuries == 0:
        return "no injury where both guarded and unguarded were exposed"
    if under == 0:
        return "no unguarded injury to compare with: no upper limit yet"
    return "no guarded injury" if above == 0 else ""
