"""A curve by few points: so coarse that no step of it is a small count."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

FINE = 0.005
"""Half of what the last figure of a whole percentage stands for."""
_SLACK = 1e-9
_MOST_STRETCHES = 6
"""Stretches of a curve in about equal parts of what ends: more would be told apart by nobody."""


@dataclass(frozen=True, slots=True)
class Tick:
    """One place of a curve: who was at risk there, how many ended there, the share after it."""

    at: float
    at_risk: int
    events: int
    share: float


@dataclass(frozen=True, slots=True)
class CoarsePoint:
    """A point that may be shown: how many were at risk there, and the share left, in whole percent.

    Since the point before, whose share is `before` (None: the start), as many `events` ended, and
    `least` to `most` were at risk, this point included.
    """

    at: float
    at_risk: int
    share: float
    events: int
    least: int
    most: int
    before: float | None = None

    def event_range(self) -> tuple[int, int | None]:
        """Return the fewest and the most that can have ended since the point before.

        For who knows the two shares in whole percent and how many were at risk in between: one
        step at the fewest at risk takes the fewest, single steps at the most at risk take the
        most. None: no most.
        """
        low, high = (1.0, 1.0) if self.before is None else (self.before - FINE, self.before + FINE)
        upper = min(1.0, (self.share + FINE) / max(low, FINE))
        lower = max(0.0, self.share - FINE) / min(high, 1.0)
        fewest = max(0, math.ceil(self.least * (1 - upper) - _SLACK))
        if lower <= 0 or self.most < 2:
            return fewest, None
        return fewest, math.floor(math.log(lower) / math.log(1 - 1 / self.most) + _SLACK)


def coarse_points(
    ticks: Sequence[Tick], threshold: int, *, start: float = 0.0
) -> tuple[CoarsePoint, ...]:
    """Return the points of a curve that may be shown; fewer than two: none.

    At each point `threshold` or more are at risk and left. Between two points, and after the last
    one, `threshold` or more end, or none at all. The first point is at `start`, where the share is
    1; `ticks` are all places at which something was counted, in order.
    """
    total = sum(tick.events for tick in ticks)
    if not ticks or ticks[0].at_risk < threshold or 0 < total < threshold:
        return ()
    first = ticks[0].at_risk
    points = [CoarsePoint(start, first, 1.0, 0, first, first)]
    enough = max(threshold, math.ceil(total / _MOST_STRETCHES))
    since, left, at_risk = 0, total, []
    for tick in ticks:
        since, left = since + tick.events, left - tick.events
        at_risk.append(tick.at_risk)
        is_large = tick.at_risk - tick.events >= threshold
        if since >= enough and is_large and (left == 0 or left >= threshold):
            points.append(_point(tick, since, at_risk, points))
            since, at_risk = 0, []
    quiet = [tick for tick in ticks if tick.at > points[-1].at]
    while quiet and quiet[-1].at_risk < threshold:
        quiet.pop()
    if since == 0 and quiet:
        at_risk = [tick.at_risk for tick in quiet]
        points.append(_point(quiet[-1], 0, at_risk, points))
    return tuple(points) if len(points) > 1 else ()


def _point(
    tick: Tick, since: int, at_risk: Sequence[int], points: Sequence[CoarsePoint]
) -> CoarsePoint:
    before = points[-1].share if len(points) > 1 else None
    share = round(tick.share, 2)
    return CoarsePoint(tick.at, tick.at_risk, share, since, min(at_risk), max(at_risk), before)
