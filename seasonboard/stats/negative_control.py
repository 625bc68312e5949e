"""A negative control outcome: harm where what is studied can have done nothing."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.ratios import RateRatio
from seasonboard.stats.special import float_columns, normal_p, two_sided

NEGATIVE_CONTROL = "negative control, weighted by exposures"


@dataclass(frozen=True, slots=True)
class ControlInjuries:
    """Injuries at control sites as columns of one length; a position is one in one stratum.

    `injury` is a whole number, the same in each stratum that the injury falls into. `guarded` and
    `unguarded` are the studied sites of its athlete that were so in its session, times the injuries
    it stands for; the exposures are those of everybody in the stratum.
    """

    injury: Sequence[int]
    guarded: Sequence[float]
    unguarded: Sequence[float]
    exposures_guarded: Sequence[float]
    exposures_unguarded: Sequence[float]


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlRatio(Estimate):
    """The ratio at control sites; `std_error` is that of its log, None where there is no interval.

    `injuries` are those it rests on, in sessions in which both groups were exposed.
    """

    injuries: int
    std_error: float | None = None

    @property
    def is_quiet(self) -> bool:
        """Say whether its interval holds 1; without an interval it says nothing, so no."""
        return self.low is not None and self.high is not None and self.low <= 1 <= self.high


def control_ratio(found: ControlInjuries, *, level: float = 0.95) -> ControlRatio:
    """Return how many times as often athletes were hurt at control sites, guarded as bare.

    With a and b the guarded and bare sites of the injured, A = Σ a·T0/T over B = Σ b·T1/T. The
    variance of its log is the sum over injuries of (their part of A − ratio × their part of B)²,
    over A².

    Raises:
        ValueError: Columns differ in length.

    Source: Lipsitch, Tchetgen Tchetgen & Cohen (2010), Epidemiology 21, 383-388, for the idea; the
    weights are those of Mantel and Haenszel.
    """
    injury, a, b, t1, t0 = float_columns(
        *(found.injury, found.guarded, found.unguarded),
        *(found.exposures_guarded, found.exposures_unguarded),
    )
    tells = (t1 > 0) & (t0 > 0) & (a + b > 0)
    injury, a, b, t1, t0 = (column[tells] for column in (injury, a, b, t1, t0))
    own, which = np.unique(injury, return_inverse=True)
    above = np.bincount(which, a * t0 / (t1 + t0), minlength=len(own))
    under = np.bincount(which, b * t1 / (t1 + t0), minlength=len(own))
    guarded, bare, number = float(above.sum()), float(under.sum()), len(own)
    if guarded == 0 or bare == 0:
        return ControlRatio(None, level=level, why=_why(number, bare), injuries=number)
    ratio = guarded / bare
    std_error = math.sqrt(float(((above - ratio * under) ** 2).sum())) / guarded
    reach = math.exp(two_sided(level) * std_error)
    return ControlRatio(
        *(ratio, ratio / reach, ratio * reach, level, NEGATIVE_CONTROL),
        injuries=number,
        std_error=std_error,
    )


def _why(number: int, bare: float) -> str:
    if not number:
        return "no injury there where both guarded and bare were exposed"
    return "no bare injury there" if bare == 0 else "no guarded injury there"


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectedRatio(Estimate):
    """A ratio over that of its control sites; `p` tests 1."""

    p: float | None = None


def corrected_ratio(ratio: RateRatio, control: ControlRatio) -> CorrectedRatio:
    """Return a ratio divided by that of its control sites, variances added on the log scale.

    Not known where either has no large-sample interval.

    Source: Lipsitch, Tchetgen Tchetgen & Cohen (2010), as above: right where what tips the
    balance tips both outcomes alike.
    """
    if not ratio.value or ratio.std_error is None:
        why = "the ratio itself has no large-sample interval"
        return CorrectedRatio(None, level=ratio.level, why=why)
    if control.value is None or control.std_error is None:
        return CorrectedRatio(None, level=ratio.level, why=control.why)
    value, std_error = ratio.value / control.value, math.hypot(ratio.std_error, control.std_error)
    reach = math.exp(two_sided(ratio.level) * std_error)
    p = normal_p(math.log(value) / std_error)
    limits = value / reach, value * reach
    return CorrectedRatio(value, *limits, ratio.level, NEGATIVE_CONTROL, p=p)
