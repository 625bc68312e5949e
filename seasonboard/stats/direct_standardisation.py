"""Two survival curves at one mix of athletes, and the difference of their restricted means.

Guarded and bare sites differ in who stands behind them, and both groups are small within a
stratum. So the hazards of a tick are compared within its strata and averaged with the same weights
for both groups, n1·n0 / (n1 + n0) of a stratum: those of Mantel and Haenszel. They depend on who
was at risk, not on who was hurt, and a stratum where one group is lacking has none. From both
averages follow two curves that exist at every tick at which somebody guarded had somebody bare
alike beside him or her, also with late entry.

Source: Mantel & Haenszel (1959), J Natl Cancer Inst 22, 719-748, and Greenland & Robins (1985),
Biometrics 41, 55-68, for the weights; Makuch (1982), J Chron Dis 35, 437-443, for curves at one
mix; Karrison (1987), J Am Stat Assoc 82, 1169-1176, for restricted means over strata; Fay & Feuer
(1997), Stat Med 16, 791-801, and Tiwari, Clegg & Zou (2006), Stat Methods Med Res 15, 547-569, for
gamma limits; Zou & Donner (2008), Stat Med 27, 1693-1702, for combining limits.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from seasonboard.stats.bounded_intervals import log_log_limits
from seasonboard.stats.log_rank import TwoGroupTick
from seasonboard.stats.special import gamma_quantile, two_sided
from seasonboard.stats.survival import NORMAL, RestrictedMean

FEW = 5
"""With fewer injuries of equal weight than this in a group, the gamma limits are taken."""

GAMMA = "gamma limits of each group put together, since few were injured"
_EDGE = 1e-12


@dataclass(frozen=True, slots=True)
class StandardPoint:
    """One tick of a standardised curve; `at_risk` and `injuries` are those with others alike.

    The standard error and limits are None once nobody is left uninjured.
    """

    tick: int
    at_risk: int
    injuries: int
    survival: float
    std_error: float | None
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Standardised:
    """Both curves at one mix, their means within the horizon and the difference of these.

    Where they cannot be had up to the horizon there are no curves and means; `why` says why.
    """

    start: int | None
    horizon: int | None
    guarded: tuple[StandardPoint, ...]
    unguarded: tuple[StandardPoint, ...]
    mean_guarded: RestrictedMean
    mean_unguarded: RestrictedMean
    difference: RestrictedMean
    why: str = ""


@dataclass(slots=True)
class _Group:
    """The strata's rows of one group; `share` is by how much an injury there weighs, over Σ W."""

    tick: np.ndarray
    at_risk: np.ndarray
    injuries: np.ndarray
    share: np.ndarray
    hazard: np.ndarray = field(init=False)
    variance: np.ndarray = field(init=False)
    survival: np.ndarray = field(init=False)

    def estimate(self, start: int, horizon: int) -> None:
        """Work out hazards, their variances, and the curve from `start` on: 1 before it."""
        size = max(int(self.tick.max()), horizon) + 1
        binomial = self.injuries * (1 - self.injuries / self.at_risk)
        self.hazard, self.variance = (
            np.bincount(self.tick, column, size)
            for column in (self.share * self.injuries, self.share**2 * binomial)
        )
        self.hazard[:start], self.variance[:start] = 0.0, 0.0
        self.survival = np.cumprod(1 - np.minimum(self.hazard, 1.0))


def standardised(
    ticks: Sequence[TwoGroupTick],
    *,
    horizon: int | None,
    min_at_risk: int = 1,
    level: float = 0.95,
) -> Standardised:
    """Return the survival curves of both groups at one mix, and their restricted means.

    Args:
        ticks: Both groups by stratum and tick; rows with one group alone tell nothing. A single
            stratum gives the curves of Kaplan and Meier.
        horizon: The last tick asked for; None: nobody was followed.
        min_at_risk: The curves start at the first tick with this many of both groups; they are
            conditional on having come so far.
        level: Confidence level of the limits.

    Returns:
        Points up to the horizon with Greenwood's error of the weighted hazards and log-log limits;
        and the means with their difference, guarded minus bare. Its limits are normal where both
        groups have the weight of 5 injuries; else the gamma limits of each group's loss are put
        together: distances from the estimates, squared and added.
    """
    rows = [t[1:] for t in ticks if t.at_risk_guarded and t.at_risk_unguarded]
    if horizon is None or not rows:
        return _none("no guarded site had a bare one alike beside it", None, horizon)
    tick, n1, d1, n0, d0 = _each_tick(np.array(rows, dtype=np.int64).T)
    size = max(int(tick.max()), horizon) + 1
    weight, *at_risk = (np.bincount(tick, x, size) for x in (n1 * n0 / (n1 + n0), n1, n0))
    start, why = _start(weight, np.minimum(*at_risk), horizon, min_at_risk)
    if start is None or why:
        return _none(why, start, horizon)
    groups = [
        _Group(tick, n, d, other / (n1 + n0) / weight[tick])
        for n, d, other in ((n1, d1, n0), (n0, d0, n1))
    ]
    return _compared(groups, start, horizon, level)


def _each_tick(rows: np.ndarray) -> np.ndarray:
    """Return columns with a row for each tick; injuries stay at the last tick of a wide row."""
    *columns, width = rows
    last = np.cumsum(width) - 1
    place = np.repeat(np.arange(len(width)), width)
    tick, n1, d1, n0, d0 = (column[place] for column in columns)
    before = last[place] - np.arange(len(place))
    return np.stack([tick - before, n1, d1 * (before == 0), n0, d0 * (before == 0)])


def _start(
    weight: np.ndarray, least: np.ndarray, horizon: int, min_at_risk: int
) -> tuple[int | None, str]:
    """Return the first tick with enough of both groups, and why there are no curves, if so."""
    large = np.flatnonzero(least >= min_at_risk)
    if not len(large):
        return None, f"never {min_at_risk} guarded and bare ones alike at once"
    start = int(large[0])
    if start >= horizon:
        return start, f"guarded and bare ones alike from {start} on, the horizon is {horizon}"
    gaps = start + np.flatnonzero(weight[start:horizon] == 0)
    if len(gaps):
        why = f"no guarded and bare ones alike at {gaps[0]}, before the horizon of {horizon}"
        return start, why
    return start, ""


def _compared(groups: Sequence[_Group], start: int, horizon: int, level: float) -> Standardised:
    for group in groups:
        group.estimate(start, horizon)
    guarded, bare = (_points(group, start, horizon, two_sided(level)) for group in groups)
    means = [_mean(group, start, horizon, level) for group in groups]
    gap = _difference(groups, means, level)
    return Standardised(start, horizon, guarded, bare, means[0], means[1], gap)


def _points(group: _Group, start: int, horizon: int, z: float) -> tuple[StandardPoint, ...]:
    at_risk, injuries = (
        np.bincount(group.tick, column, horizon + 1) for column in (group.at_risk, group.injuries)
    )
    points, greenwood = [], 0.0
    for tick in range(start, horizon + 1):
        if not at_risk[tick]:
            break
        share, remaining = float(group.survival[tick]), 1 - float(group.hazard[tick])
        spread: tuple[float | None, float | None, float | None] = (None, None, None)
        if share > _EDGE:
            greenwood += float(group.variance[tick]) / remaining**2
            error = share * math.sqrt(greenwood)
            limits = (1.0, 1.0) if share > 1 - _EDGE else log_log_limits(share, error, z)
            spread = (error, *limits)
        points.append(StandardPoint(tick, int(at_risk[tick]), int(injuries[tick]), share, *spread))
    return tuple(points)


def _mean(group: _Group, start: int, horizon: int, level: float) -> RestrictedMean:
    """Return the area under the curve with the error Σ A(k)² var(h) / (1 − h)²."""
    after = np.cumsum(group.survival[start:horizon][::-1])[::-1]
    remaining = np.maximum(1 - group.hazard[start:horizon], _EDGE)
    variance = float((after**2 * group.variance[start:horizon] / remaining**2).sum())
    return RestrictedMean(
        1 + float(after[0]),
        level=level,
        horizon=horizon,
        start=start,
        std_error=math.sqrt(variance),
    )


@dataclass(frozen=True, slots=True)
class GamesLost:
    """Ticks lost to injury before the horizon, with limits; `injuries` are those of equal weight.

    An injury at tick k loses S(k−1) (H − k), weighted as its stratum is.
    """

    injuries: float
    lost: float
    low: float
    high: float


def _lost(group: _Group, start: int, horizon: int, level: float) -> GamesLost:
    """Return one group's loss with limits.

    Without injuries the low one is 0; the high one rests on the average weight of an injury.
    """
    own = (group.tick >= start) & (group.tick < horizon)
    tick, at_risk, injuries = group.tick[own], group.at_risk[own], group.injuries[own]
    weight = group.survival[tick - 1] * (horizon - tick) * group.share[own]
    lost, variance = float((injuries * weight).sum()), float((injuries * weight**2).sum())
    average, square = (float((at_risk * w).sum() / at_risk.sum()) for w in (weight, weight**2))
    tail = (1 - level) / 2
    low = _gamma(lost, variance, tail) if lost else 0.0
    high = _gamma(lost + average, variance + square, 1 - tail)
    return GamesLost(lost**2 / variance if lost else 0.0, lost, low, high)


def _difference(
    groups: Sequence[_Group], means: Sequence[RestrictedMean], level: float
) -> RestrictedMean:
    first, second = means
    start, horizon = first.start or 1, first.horizon or 1
    gap = (first.value or 0.0) - (second.value or 0.0)
    error = math.hypot(first.std_error or 0.0, second.std_error or 0.0)
    reach = two_sided(level) * error
    normal = RestrictedMean(
        *(gap, gap - reach, gap + reach, level, NORMAL),
        horizon=horizon,
        start=start,
        std_error=error,
    )
    one, two = (_lost(group, start, horizon, level) for group in groups)
    if min(one.injuries, two.injuries) >= FEW:
        return normal
    below = math.hypot(one.high - one.lost, two.lost - two.low)
    above = math.hypot(one.lost - one.low, two.high - two.lost)
    return replace(normal, low=gap - below, high=gap + above, method=GAMMA)


def _gamma(mean: float, variance: float, share: float) -> float:
    """Return the quantile of a gamma with this mean and variance."""
    return gamma_quantile(mean**2 / variance, share) * variance / mean


def _none(why: str, start: int | None, horizon: int | None) -> Standardised:
    mean = RestrictedMean(None, why=why, horizon=horizon, start=start)
    return Standardised(start, horizon, (), (), mean, mean, mean, why)
