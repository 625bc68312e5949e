"""Cumulative incidence on an integer clock when follow-up can end in several ways.

A season can end by an injury to the site, by an injury elsewhere, by leaving the roster. Counting
all but one of these as mere censoring, and showing one minus Kaplan-Meier, gives the share that
would be injured if the other ends did not exist; it is too high for the season as it is. The
Aalen-Johansen shares add up, with those still free of any end, to 1 at every tick.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.stats.bounded_intervals import log_log_limits
from seasonboard.stats.special import two_sided
from seasonboard.stats.survival import CurvePoint, TickCount, kaplan_meier

_EDGE = 1e-12


@dataclass(frozen=True, slots=True)
class CauseTick:
    """Who was at risk at one tick, and how many ended at it by each cause.

    `events` has one count per cause, in the order in which the causes are named. Whoever is at
    risk, does not end and is not at risk at the next tick is censored, and not counted here;
    whoever enters late is counted from the first tick at risk.
    """

    tick: int
    at_risk: int
    events: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class SharePoint:
    """One tick of a curve of shares.

    `share` is None before the curve's start. The standard error and limits are None there, and
    where the counts set none: while no event was seen, and where everybody ended so.
    """

    tick: int
    at_risk: int
    events: int
    share: float | None
    std_error: float | None
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class CauseCurve:
    """The share that ended by one cause, tick by tick."""

    cause: str
    points: tuple[SharePoint, ...]


@dataclass(frozen=True, slots=True)
class Incidence:
    """Cumulative incidence of each cause, and the share still free of all of them.

    At every tick from the start on, the share of `survival` and those of all `causes` add up to
    1. With a `start` above 1 they are shares of those who came so far. Without a start there are
    no shares, and `why` says so.
    """

    causes: tuple[CauseCurve, ...]
    survival: tuple[SharePoint, ...]
    start: int | None
    min_at_risk: int
    level: float
    why: str = ""


def cumulative_incidence(
    ticks: Sequence[CauseTick],
    causes: Sequence[str],
    *,
    min_at_risk: int = 1,
    start: int | None = None,
    level: float = 0.95,
) -> Incidence:
    """Return the Aalen-Johansen share of each cause at each tick.

    Ends by different causes at one tick are taken as what they are: none of them comes first.

    Args:
        ticks: One row per tick at which someone was at risk, ticks rising.
        causes: The names of the causes, in the order of the counts.
        min_at_risk: The curves start at the first tick with this many at risk.
        start: Start at this tick or later.
        level: Confidence level of the log-log limits.

    Returns:
        For every tick given, each cause's share with the standard error of Aalen (multinomial
        within a tick); and the all-cause Kaplan-Meier curve with Greenwood's error.

    Raises:
        ValueError: Ticks do not rise, counts contradict each other, or a row does not have one
            count per cause.

    Source: Aalen & Johansen (1978), Scand J Stat 5, 141-150; Andersen, Borgan, Gill & Keiding
    (1993), Statistical Models Based on Counting Processes, section IV.4, for the variance.
    """
    for row in ticks:
        if len(row.events) != len(causes) or min(row.events, default=0) < 0:
            wanted = f"{len(causes)} counts of 0 or more"
            raise ValueError(f"tick {row.tick}: {wanted} are needed, not {row.events}")
    # Kaplan-Meier itself needs no more than the counts; entries and exits only accompany them.
    counts = [TickCount(row.tick, row.at_risk, sum(row.events), 0, 0) for row in ticks]
    whole = kaplan_meier(counts, min_at_risk=min_at_risk, start=start, level=level)
    z = two_sided(level)
    curves = tuple(
        CauseCurve(cause, _curve(whole.points, [row.events[k] for row in ticks], z))
        for k, cause in enumerate(causes)
    )
    free = tuple(
        SharePoint(p.tick, p.at_risk, p.injuries, p.survival, p.std_error, p.low, p.high)
        for p in whole.points
    )
    return Incidence(curves, free, whole.start, min_at_risk, level, whole.why)


def _curve(whole: Sequence[CurvePoint], events: Sequence[int], z: float) -> tuple[SharePoint, ...]:
    """Carry share, variance and covariance forward, tick by tick."""
    free, share = 1.0, 0.0
    of_free, of_share, of_both = 0.0, 0.0, 0.0
    points = []
    for point, ended in zip(whole, events, strict=True):
        if point.survival is None:
            points.append(SharePoint(point.tick, point.at_risk, ended, None, None, None, None))
            continue
        n, hazard, any_hazard = point.at_risk, ended / point.at_risk, point.injuries / point.at_risk
        stays = 1 - any_hazard
        of_share += 2 * hazard * of_both + hazard**2 * of_free + free**2 * hazard * (1 - hazard) / n
        of_both = stays * (of_both + hazard * of_free - free**2 * hazard / n)
        of_free = stays * (stays * of_free + free**2 * any_hazard / n)
        share += free * hazard
        free = point.survival
        estimate: tuple[float | None, ...] = (0.0 if share < 0.5 else 1.0, None, None, None)
        if _EDGE < share < 1 - _EDGE:
            error = math.sqrt(of_share)
            estimate = (share, error, *log_log_limits(share, error, z))
        points.append(SharePoint(point.tick, n, ended, *estimate))
    return tuple(points)
