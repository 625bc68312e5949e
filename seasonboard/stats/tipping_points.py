"""Tipping points: how many wrong records would bring the nearer limit of a ratio to 1."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel
from seasonboard.stats.special import Floats, float_columns, two_sided

Columns = tuple[Floats, Floats, Floats, Floats]

_HALVINGS = 30
_ALMOST_ALL = 1 - 1e-6


@dataclass(frozen=True, slots=True)
class WearFlips:
    """The fewest of so many `candidates` whose wear, recorded otherwise, would undo a ratio.

    `needed` is None where no number would, or nothing is there to undo, and `why` says which;
    `all_flipped` is the ratio with every candidate recorded otherwise.
    """

    needed: int | None
    candidates: int
    all_flipped: RateRatio
    why: str = ""


NO_NUMBER = "no number would undo it"


def is_shown(ratio: Estimate) -> bool:
    """Say whether the interval of a ratio lies on one side of 1."""
    return is_less(ratio) or (ratio.low is not None and ratio.low > 1)


def is_less(ratio: Estimate) -> bool:
    """Say whether the interval of a ratio lies under 1."""
    return ratio.high is not None and ratio.high < 1


def mirrored(strata: Strata) -> Strata:
    """Return strata with guarded and bare in each other's place: a ratio over 1 lies under it."""
    a, b = strata.injuries_guarded, strata.injuries_unguarded
    return Strata(b, a, strata.exposures_unguarded, strata.exposures_guarded, strata.standing_for)


def wear_flips(strata: Strata, candidates: Sequence[float], *, level: float = 0.95) -> WearFlips:
    """Return how many bare injuries, had a guard been on, bring the upper limit to 1.

    Each in turn is the one that lifts the upper limit most: guarded injuries and exposures of its
    stratum rise by one, bare ones fall by one; of equals, the one in the earlier stratum. A ratio
    over 1 is turned about with `mirrored` first. `candidates` are as many of each stratum's bare
    injuries as may be flipped.

    Raises:
        ValueError: The columns differ in length, or there are more candidates than bare injuries.

    Source: our own; after the tipping points of Rosenbaum & Rubin (1983), J R Stat Soc B 45,
    212-218.
    """
    *columns, left = float_columns(*_columns(strata), candidates)
    a, b, t1, t0 = columns
    if (left > b).any():
        raise ValueError("more candidates than bare injuries in a stratum")
    many = int(left.sum())
    everything = _ratio((a + left, b - left, t1 + left, t0 - left), level)
    if not is_less(_ratio((a, b, t1, t0), level)):
        return WearFlips(None, many, everything, "no difference is shown that could be undone")
    a, b, t1, t0, left = (column.copy() for column in (a, b, t1, t0, left))
    for needed in range(1, many + 1):
        limits = np.where(left > 0, _limits_after(a, b, t1, t0, two_sided(level)), -np.inf)
        stratum = int(limits.argmax())
        for column, step in ((a, 1), (b, -1), (t1, 1), (t0, -1), (left, -1)):
            column[stratum] += step
        if not is_less(_ratio((a, b, t1, t0), level)):
            return WearFlips(needed, many, everything)
    return WearFlips(None, many, everything, NO_NUMBER)


def attendance_share(strata: Strata, *, level: float = 0.95) -> float | None:
    """Return the least share of bare exposures that, if never recorded, undoes a ratio under 1.

    With a share x lost, the bare exposures of every stratum were T0 / (1 - x). None where nothing
    is there to undo, or no share would. A ratio over 1 is turned about with `mirrored` first.
    """
    a, b, t1, t0 = float_columns(*_columns(strata))

    def is_undone(share: float) -> bool:
        return not is_less(_ratio((a, b, t1, t0 / (1 - share)), level))

    low, high = 0.0, _ALMOST_ALL
    if is_undone(low) or not is_undone(high):
        return None
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if is_undone(middle) else (middle, high)
    return high


def _columns(strata: Strata) -> tuple[Sequence[float], ...]:
    return (
        *(strata.injuries_guarded, strata.injuries_unguarded),
        *(strata.exposures_guarded, strata.exposures_unguarded),
    )


def _ratio(columns: Columns, level: float) -> RateRatio:
    a, b, t1, t0 = (column.tolist() for column in columns)
    return mantel_haenszel(Strata(a, b, t1, t0), level=level)


def _limits_after(a: Floats, b: Floats, t1: Floats, t0: Floats, reach: float) -> Floats:
    """Return the log of the upper limit after a flip in each of the strata alone."""

    def sums(a: Floats, b: Floats, t1: Floats, t0: Floats) -> Columns:
        every = np.maximum(t1 + t0, 1)
        return a * t0 / every, b * t1 / every, (a + b) * t1 * t0 / every**2, every

    before, after = sums(a, b, t1, t0), sums(a + 1, b - 1, t1 + 1, t0 - 1)
    above, under, spread = (
        was.sum() - was + now for was, now in zip(before[:3], after[:3], strict=True)
    )
    with np.errstate(divide="ignore", invalid="ignore"):
        limits = np.log(above / under) + reach * np.sqrt(spread / (above * under))
    return np.where(under <= 0, np.inf, np.nan_to_num(limits, nan=-np.inf, posinf=np.inf))
