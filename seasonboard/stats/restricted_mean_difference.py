"""The difference of two restricted means, also when few were injured.

The games lost to injury before a horizon, H less the restricted mean, are a weighted sum over the
injuries: an injury at tick k weighs S(k−1) (H − k) / at risk. With few of them the normal limits
are too narrow, and with none they vanish. A weighted sum of Poisson counts has gamma limits; those
of the two groups are put together into limits of the difference.
"""

import math
from dataclasses import dataclass, replace

from seasonboard.stats.special import gamma_quantile
from seasonboard.stats.survival import (
    Curve,
    RestrictedMean,
    restricted_mean,
    restricted_mean_difference,
)

FEW = 5
"""With fewer injuries than this in a group, the gamma limits are taken."""

GAMMA = "gamma limits of each group put together, since few were injured"


@dataclass(frozen=True, slots=True)
class GamesLost:
    """Ticks lost to injury per site before the horizon, with limits."""

    injuries: int
    lost: float
    low: float
    high: float


def games_lost(curve: Curve, horizon: int, *, level: float = 0.95) -> GamesLost:
    """Return the ticks lost to injury between the start of a curve and the horizon.

    The loss is H − (start − 1) less the restricted mean, with gamma limits. Without injuries the
    low limit is 0 and the high one rests on the average weight an injury would have had.

    Source: Fay & Feuer (1997), Stat Med 16, 791-801; Tiwari, Clegg & Zou (2006), Stat Methods Med
    Res 15, 547-569, for the average in place of the largest weight.
    """
    injuries, lost, variance = 0, 0.0, 0.0
    exposed, weighed, squared = 0, 0.0, 0.0
    survival = 1.0
    for point in curve.points:
        if point.survival is None or point.tick >= horizon:
            continue
        weight = survival * (horizon - point.tick) / point.at_risk
        injuries += point.injuries
        lost += point.injuries * weight
        variance += point.injuries * weight**2
        exposed += point.at_risk
        weighed += point.at_risk * weight
        squared += point.at_risk * weight**2
        survival = point.survival
    tail = (1 - level) / 2
    low = _gamma(lost, variance, tail) if injuries else 0.0
    if not exposed or not weighed:
        return GamesLost(injuries, lost, low, lost)
    high = _gamma(lost + weighed / exposed, variance + squared / exposed, 1 - tail)
    return GamesLost(injuries, lost, low, high)


def means_compared(
    first: Curve, second: Curve, horizon: int, *, level: float = 0.95
) -> RestrictedMean:
    """Return the first curve's restricted mean minus the second's, with limits.

    With at least `FEW` injuries in both groups the limits are normal. Else the limits of each
    group's loss are combined: the distances from the estimates, squared and added.

    Source: Zou & Donner (2008), Stat Med 27, 1693-1702, for combining limits; Karrison (1997),
    Control Clin Trials 18, 151-167, for the normal ones.
    """
    means = (restricted_mean(curve, horizon) for curve in (first, second))
    gap = restricted_mean_difference(*means, level=level)
    if gap.value is None:
        return gap
    one, two = (games_lost(curve, horizon, level=level) for curve in (first, second))
    if min(one.injuries, two.injuries) >= FEW:
        return gap
    below = math.hypot(one.high - one.lost, two.lost - two.low)
    above = math.hypot(one.lost - one.low, two.high - two.lost)
    return replace(gap, low=gap.value - below, high=gap.value + above, method=GAMMA)


def _gamma(mean: float, variance: float, share: float) -> float:
    """Return the quantile of a gamma with this mean and variance."""
    return gamma_quantile(mean**2 / variance, share) * variance / mean
