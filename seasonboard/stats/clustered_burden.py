"""Days lost per 1000 exposures of two groups, with limits that know how athletes differ."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.rates import PER
from seasonboard.stats.special import float_columns

BOOTSTRAP = "bootstrap over athletes, percentiles"
DRAWS = 1000
SEED = 1018
"""The same seed gives the same numbers."""

FEWEST_HURT = 5
"""Athletes with a day lost below which resampling them tells nothing of the spread."""

MANY = 100
"""Athletes without a day lost from which the sum of their exposures counts as normal."""


@dataclass(frozen=True, slots=True)
class AthleteDays:
    """Days lost and exposures of each athlete, guarded and bare, as columns of one length."""

    days_guarded: Sequence[float]
    days_unguarded: Sequence[float]
    exposures_guarded: Sequence[float]
    exposures_unguarded: Sequence[float]


@dataclass(frozen=True, slots=True)
class GroupBurdens:
    """Days lost per 1000 exposures, guarded and bare, and the one over the other."""

    guarded: Estimate
    unguarded: Estimate
    ratio: Estimate


def group_burdens(athletes: AthleteDays, *, level: float = 0.95, seed: int = SEED) -> GroupBurdens:
    """Return the burden of both groups and its ratio, with limits by resampling athletes.

    An athlete is drawn with all sessions of both groups. There are no limits where fewer than 5
    athletes of a group lost a day.

    Raises:
        ValueError: The columns differ in length.

    Source: Bahr, Clarsen & Ekstrand (2018), Br J Sports Med 52, 1018-1021, for the burden; Efron &
    Tibshirani (1993), An Introduction to the Bootstrap, chapter 13; Field & Welsh (2007), J R Stat
    Soc B 69, 369-390, for drawing whole clusters.
    """
    columns = float_columns(
        *(athletes.days_guarded, athletes.days_unguarded),
        *(athletes.exposures_guarded, athletes.exposures_unguarded),
    )
    sums = np.stack(columns, axis=1)
    whole, hurt = sums.sum(axis=0), (sums[:, :2] > 0).sum(axis=0)
    drawn = _resampled(sums, seed) if hurt.max(initial=0) >= FEWEST_HURT else sums[:0]
    with np.errstate(divide="ignore", invalid="ignore"):
        rates, drawn_rates = PER * whole[:2] / whole[2:], PER * drawn[:, :2] / drawn[:, 2:]
        ratio, ratios = rates[0] / rates[1], drawn_rates[:, 0] / drawn_rates[:, 1]
    few = [
        "" if many >= FEWEST_HURT else f"no limits: fewer than {FEWEST_HURT} athletes lost a day"
        for many in hurt
    ]
    guarded, unguarded = (
        _estimate(rates[n], drawn_rates[:, n], few[n], "no exposures", level) for n in (0, 1)
    )
    why_not = "no day lost bare to compare with" if whole[2:].all() else "no exposures of a group"
    return GroupBurdens(guarded, unguarded, _estimate(ratio, ratios, max(few), why_not, level))


def _estimate(
    value: np.float64, drawn: NDArray[np.float64], few: str, why_not: str, level: float
) -> Estimate:
    if not np.isfinite(value):
        return Estimate(None, level=level, method=BOOTSTRAP, why=why_not)
    drawn = drawn[~np.isnan(drawn)]
    if few or not len(drawn):
        return Estimate(float(value), level=level, method=BOOTSTRAP, why=few)
    tails = [(1 - level) / 2, (1 + level) / 2]
    low, high = np.quantile(drawn, tails, method="closest_observation")
    least, most = (float(end) if np.isfinite(end) else None for end in (low, high))
    why = "" if most is not None else "no upper limit: some draws have no day lost bare"
    return Estimate(float(value), least, most, level, BOOTSTRAP, why)


def _resampled(sums: NDArray[np.float64], seed: int) -> NDArray[np.float64]:
    """Return the sums of as many athletes drawn with replacement, a row a draw.

    Those who lost a day are drawn one by one. Of the many others only their number is drawn: what
    they add are exposures alone, a sum so long that it is normal.
    """
    random, many = np.random.default_rng(seed), len(sums)
    is_single: NDArray[np.bool_] = np.any(sums[:, :2] > 0, axis=1)
    if many - is_single.sum() < MANY:
        is_single = np.ones(many, dtype=bool)
    single, others = sums[is_single], sums[~is_single]
    shares = np.append(np.full(len(single), 1 / many), len(others) / many)
    times = random.multinomial(many, shares, size=DRAWS).astype(np.float64)
    drawn: NDArray[np.float64] = times[:, :-1] @ single
    if len(others):
        centre, spread = others.mean(axis=0), np.cov(others, rowvar=False, bias=True)
        noise = random.multivariate_normal(np.zeros(4), spread, size=DRAWS, method="eigh")
        drawn += times[:, -1:] * centre + np.sqrt(times[:, -1:]) * noise
    return drawn
