"""How good chances told beforehand were: Brier score, its parts, what was told and what came."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seasonboard.stats.estimate import Estimate

EDGES = (0.0, 0.15, 0.3, 0.5, 0.7, 0.85, 1.0)
"""Where the groups of chances begin and end."""
MOVES_TOGETHER = 1.6
"""Standard deviation of a sum of orders that wait on one day over that of independent ones. From
memory of simulated seasons; what they show now is in tests/truthfulness/RESULTS.md."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class ToldGroup:
    """Forecasts with a chance from `low` to `high`: how many, the mean told, the share that came.

    Without a forecast `told` and `came` are None.
    """

    low: float
    high: float
    forecasts: int
    told: float | None
    came: float | None


@dataclass(frozen=True, slots=True)
class Grading:
    """The grade of forecasts; without any, `why` says so and the figures are None.

    `brier` is the mean squared difference between chance and outcome (0 to 1, less is better),
    `base` that of one who always tells the share that came. In groups of equal chance
    `brier = reliability - resolution + uncertainty`; in wider groups a small rest within them is
    left, which is not told.
    """

    forecasts: int
    told: float | None
    came: float | None
    brier: float | None
    base: float | None
    reliability: float | None
    resolution: float | None
    groups: tuple[ToldGroup, ...]
    why: str = ""


def grading(told: Floats, came: Floats, edges: Sequence[float] = EDGES) -> Grading:
    """Return the grade of chances `told` (0 to 1) by what `came` (1 or 0).

    A group holds chances from its lower edge up to its upper one, which only the last includes.

    Raises:
        ValueError: The columns differ in length, or a chance does not lie from 0 to 1.

    Source: Brier (1950), Mon Weather Rev 78, 1-3; Murphy (1973), J Appl Meteorol 12, 595-600.
    """
    if len(told) != len(came):
        raise ValueError("chances and outcomes differ in number")
    if len(told) and not (told.min() >= 0 and told.max() <= 1):
        raise ValueError("a chance lies from 0 to 1")
    which = np.clip(np.searchsorted(edges, told, side="right") - 1, 0, len(edges) - 2)
    count = np.bincount(which, minlength=len(edges) - 1)
    sums = [np.bincount(which, column, minlength=len(edges) - 1) for column in (told, came)]
    groups = tuple(
        ToldGroup(low, high, int(n), *((float(t / n), float(c / n)) if n else (None, None)))
        for low, high, n, t, c in zip(edges[:-1], edges[1:], count, *sums, strict=True)
    )
    if not len(told):
        why = "no forecast of the past can be graded yet"
        return Grading(0, None, None, None, None, None, None, groups, why)
    share = float(came.mean())
    own = [(g.forecasts, g.told or 0.0, g.came or 0.0) for g in groups if g.forecasts]
    return Grading(
        len(told),
        float(told.mean()),
        share,
        float(((told - came) ** 2).mean()),
        share * (1 - share),
        sum(n * (t - c) ** 2 for n, t, c in own) / len(told),
        sum(n * (c - share) ** 2 for n, _, c in own) / len(told),
        groups,
    )


def expected_sum(chances: Sequence[float], z: float) -> Estimate:
    """Return how many of several that wait on one day can be expected to come, with a range.

    They move together: what holds one up holds up others. The standard deviation is that of
    independent ones times `MOVES_TOGETHER`; `z` is the normal quantile of the range.
    """
    if not chances:
        return Estimate(None, why="there is no forecast to add up")
    total = math.fsum(chances)
    half = z * MOVES_TOGETHER * math.sqrt(math.fsum(p * (1 - p) for p in chances))
    return Estimate(total, max(0.0, total - half), min(float(len(chances)), total + half))


def drift(told: Floats, came: Floats) -> float:
    """Return by how many standard errors more came than was told; 0 without forecasts."""
    variance = float((told * (1 - told)).sum()) * MOVES_TOGETHER**2
    return float((came - told).sum()) / math.sqrt(variance) if variance > 0 else 0.0
