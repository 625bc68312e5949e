"""Turns drawn at random among those who wait, and how many injuries it takes to learn from them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

import numpy as np

from seasonboard.stats.special import check_level, normal_quantile

_WEEKS = (0.0, 4.0, 8.0, 12.0, 16.0)
_INFORMATION = (0.0, 0.06, 0.08, 0.10, 0.11)
"""What one injury at a drawn site tells, the mean T1·T0/T², by weeks of queue (simulated)."""


@dataclass(frozen=True, slots=True)
class DrawnTurn:
    """Whose turn is when: `turn` from 1 over all, `week` of printing from 1, the drawn `key`."""

    turn: int
    week: int
    key: float


def draw_turns(strata: Sequence[str], *, prints_per_week: int, seed: int) -> tuple[DrawnTurn, ...]:
    """Draw an order among those who wait, so that each stratum is spread evenly over it.

    In a stratum of n everybody gets a random rank r = 0 … n − 1; with one U from (0, 1) for the
    stratum the key is (r + U) / n, so that each turn is as likely for one as for another. All keys
    are sorted, ties by a second draw, and cut into weeks of printing. The same strata in the same
    order and the same seed give the same turns on every machine.

    Args:
        strata: The stratum of everybody who waits.
        prints_per_week: Guards made a week.
        seed: Seed of the draw, 0 or more.

    Raises:
        ValueError: `prints_per_week` is under 1, or `seed` under 0.

    Source: systematic sampling from a random start, Madow & Madow (1944), Annals of Mathematical
    Statistics 15, 1-24; Random.random() gives the same for a seed in every version of Python.
    """
    if prints_per_week < 1 or seed < 0:
        raise ValueError("prints_per_week is 1 or more, and seed 0 or more")
    random = Random(seed).random  # noqa: S311 - drawn openly, by its seed
    keys, ties = [0.0] * len(strata), [0.0] * len(strata)
    for stratum in sorted(set(strata)):
        members = [number for number, one in enumerate(strata) if one == stratum]
        shuffled = sorted((random(), number) for number in members)
        start = random()
        for rank, (_, number) in enumerate(shuffled):
            keys[number], ties[number] = (rank + start) / len(members), random()
    order = sorted(range(len(strata)), key=lambda number: (keys[number], ties[number], number))
    turns = {number: turn for turn, number in enumerate(order, 1)}
    return tuple(
        DrawnTurn(turns[number], (turns[number] - 1) // prints_per_week + 1, key)
        for number, key in enumerate(keys)
    )


@dataclass(frozen=True, slots=True)
class InjuriesNeeded:
    """Injuries at drawn sites until `ratio` is told from 1; None with `why` where none tells.

    `weeks` is how long the queue is, from the first turn to the last.
    """

    ratio: float
    power: float
    weeks: float
    injuries: int | None
    more: int | None
    why: str = ""


def injuries_needed(
    *, injuries: int, weeks: float, ratio: float = 0.7, power: float = 0.8, level: float = 0.95
) -> InjuriesNeeded:
    """Return how many injuries at drawn sites it takes in all, and how many more.

    (z₁₋α/₂ + z_power)² / (ln ratio)² / g, where g is what one injury tells: the log of a
    Mantel-Haenszel ratio near 1 has variance 1 / Σ T1·T0/T². g was simulated for queues of 4, 8, 12
    and 16 weeks; between them it is interpolated, beyond them the last holds.

    Args:
        injuries: Injuries at drawn sites so far.
        weeks: Weeks from the first turn to the last.
        ratio: Come over not come, the ratio that is to be told from 1.
        power: Chance of telling it.
        level: Of the confidence interval.

    Raises:
        ValueError: An argument is out of range.

    Source: Breslow & Day (1987), Statistical Methods in Cancer Research II, chapter 7.
    """
    check_level(level)
    if not 0 < power < 1 or ratio <= 0 or ratio == 1 or weeks < 0 or injuries < 0:
        raise ValueError("ratio is above 0 and not 1, power between 0 and 1, the rest 0 or more")
    told_by_one = float(np.interp(weeks, _WEEKS, _INFORMATION))
    if told_by_one == 0:
        why = "nobody waits while the turn of another has come"
        return InjuriesNeeded(ratio, power, weeks, None, None, why)
    z = normal_quantile((1 + level) / 2) + normal_quantile(power)
    total = math.ceil(z**2 / math.log(ratio) ** 2 / told_by_one)
    return InjuriesNeeded(ratio, power, weeks, total, max(0, total - injuries))
