"""Two survival curves brought to one mix of athletes.

The guarded and the unguarded curve differ in who stands behind them. Where every kind of athlete
of a mix was at risk in both groups all the way to a horizon, the curves of the kinds can be
averaged with the same weights for both groups; where one was not, there is no such average.
"""

import math
from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace

from seasonboard.stats.bounded_intervals import log_log_limits
from seasonboard.stats.special import two_sided
from seasonboard.stats.survival import (
    Curve,
    RestrictedMean,
    TickCount,
    kaplan_meier,
    restricted_mean,
    restricted_mean_difference,
)

_EDGE = 1e-12

GUARDED = "guarded"
UNGUARDED = "unguarded"


@dataclass(frozen=True, slots=True)
class StratumTicks:
    """One kind of athlete: its weight in the mix, and the tick counts of both groups."""

    stratum: Hashable
    weight: float
    guarded: Sequence[TickCount]
    unguarded: Sequence[TickCount]


@dataclass(frozen=True, slots=True)
class Lacking:
    """A stratum without a large enough risk set in one group, from a tick on.

    `share` is its share of the mix.
    """

    stratum: Hashable
    group: str
    tick: int
    share: float


@dataclass(frozen=True, slots=True)
class StandardPoint:
    """One tick of a standardised curve; `at_risk` and `injuries` are summed over the strata.

    The standard error and limits are None once a stratum has nobody left uninjured.
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

    When a stratum with weight fails there are no curves and means; `why` says so in words,
    `lacking` which strata fail, `share_lacking` how much of the mix they hold, and `reach` is the
    last tick to which none fails (None: one fails at the start).
    """

    start: int
    horizon: int
    guarded: tuple[StandardPoint, ...]
    unguarded: tuple[StandardPoint, ...]
    mean_guarded: RestrictedMean
    mean_unguarded: RestrictedMean
    difference: RestrictedMean
    lacking: tuple[Lacking, ...]
    share_lacking: float
    reach: int | None
    why: str = ""


def standardised(
    strata: Sequence[StratumTicks],
    *,
    horizon: int,
    start: int = 1,
    min_at_risk: int = 1,
    level: float = 0.95,
) -> Standardised:
    """Return the survival curves of both groups at the mix that the strata's weights describe.

    Args:
        strata: The kinds of athletes. Weights need not add up to 1; without weight a stratum
            counts for nothing.
        horizon: The last tick asked for.
        start: The first tick; both curves are conditional on having come so far.
        min_at_risk: How many each stratum needs at risk in each group at every tick from the
            start to the horizon, or until nobody in it is left uninjured.
        level: Confidence level of the log-log limits.

    Returns:
        A point for every tick from the start to the horizon, with the standard error of a
        weighted sum of independent Kaplan-Meier estimates (Greenwood); and the restricted means,
        guarded minus unguarded.

    Raises:
        ValueError: A weight is negative, a stratum occurs twice, or the horizon lies before the
            start.

    Source: Makuch (1982), J Chron Dis 35, 437-443 (direct adjustment of survival curves); Greenwood
    (1926); Karrison (1987), J Am Stat Assoc 82, 1169-1176, for restricted means over strata.
    """
    if horizon < start:
        raise ValueError(f"the horizon of {horizon} lies before the start at {start}")
    if any(s.weight < 0 or not math.isfinite(s.weight) for s in strata):
        raise ValueError("weights are 0 or more")
    if len({s.stratum for s in strata}) != len(strata):
        raise ValueError("a stratum occurs twice")
    mix = math.fsum(s.weight for s in strata)
    kept = [s for s in strata if s.weight > 0]
    shares = [s.weight / mix for s in kept]
    gaps = [
        Lacking(s.stratum, group, tick, share)
        for s, share in zip(kept, shares, strict=True)
        for group, counts in ((GUARDED, s.guarded), (UNGUARDED, s.unguarded))
        if (tick := _gap(counts, start, min_at_risk)) is not None
    ]
    reach = min((gap.tick for gap in gaps), default=horizon + 1) - 1
    lacking = tuple(gap for gap in gaps if gap.tick <= horizon)
    if lacking or not kept:
        last = reach if kept and reach >= start else None
        return _none(lacking, len(kept), start, horizon, last)
    sides = ([s.guarded for s in kept], [s.unguarded for s in kept])
    curves = [[kaplan_meier(counts, start=start, level=level) for counts in s] for s in sides]
    ticks, z = range(start, horizon + 1), two_sided(level)
    guarded, unguarded = (_points(group, shares, ticks, z) for group in curves)
    first, second = (_mean(group, shares, horizon) for group in curves)
    gap = restricted_mean_difference(first, second, level=level)
    return Standardised(start, horizon, guarded, unguarded, first, second, gap, (), 0.0, reach)


def _gap(counts: Sequence[TickCount], start: int, min_at_risk: int) -> int | None:
    """Return the first tick from `start` on with too few at risk; None if all were injured."""
    expected = start
    for count in counts:
        if count.tick < start:
            continue
        if count.tick > expected or count.at_risk < min_at_risk:
            return expected
        if count.injuries == count.at_risk:
            return None
        expected += 1
    return expected


def _mean(curves: Sequence[Curve], shares: Sequence[float], horizon: int) -> RestrictedMean:
    means, variances = [], []
    for curve, share in zip(curves, shares, strict=True):
        mean = restricted_mean(curve, horizon)
        if mean.value is None or mean.std_error is None:
            return mean
        means.append(share * mean.value)
        variances.append((share * mean.std_error) ** 2)
    whole, error = math.fsum(means), math.sqrt(math.fsum(variances))
    return replace(mean, value=whole, std_error=error)


def _points(
    curves: Sequence[Curve], shares: Sequence[float], ticks: range, z: float
) -> tuple[StandardPoint, ...]:
    by_tick = [{p.tick: p for p in curve.points} for curve in curves]
    survival: list[float] = [1.0] * len(curves)
    errors: list[float | None] = [0.0] * len(curves)
    points = []
    for tick in ticks:
        now = [(k, own[tick]) for k, own in enumerate(by_tick) if tick in own]
        for k, point in now:
            survival[k], errors[k] = point.survival or 0.0, point.std_error
        whole = math.fsum(share * s for share, s in zip(shares, survival, strict=True))
        spread: tuple[float | None, ...] = (None, None, None)
        if all(error is not None for error in errors):
            weighted = (share * (e or 0.0) for share, e in zip(shares, errors, strict=True))
            error = math.hypot(*weighted)
            limits = (1.0, 1.0) if whole > 1 - _EDGE else log_log_limits(whole, error, z)
            spread = (error, *limits)
        at_risk, injuries = sum(p.at_risk for _, p in now), sum(p.injuries for _, p in now)
        points.append(StandardPoint(tick, at_risk, injuries, whole, *spread))
    return tuple(points)


def _none(
    lacking: tuple[Lacking, ...], strata: int, start: int, horizon: int, reach: int | None
) -> Standardised:
    failing = {gap.stratum: gap.share for gap in lacking}
    share = math.fsum(failing.values())
    groups = " and ".join(dict.fromkeys(gap.group for gap in lacking))
    why = "the mix holds no athletes"
    if strata:
        why = (
            f"too few {groups} at risk in {len(failing)} of {strata} strata "
            f"({share:.0%} of the mix) at some tick up to {horizon}"
        )
    mean = RestrictedMean(None, why=why, horizon=horizon)
    nothing = restricted_mean_difference(mean, mean)
    return Standardised(start, horizon, (), (), mean, mean, nothing, lacking, share, reach, why)
