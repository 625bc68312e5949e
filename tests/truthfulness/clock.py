"""Games before an injury: the difference of two restricted means, and what it should be."""

import math
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.restricted_mean_difference import means_compared
from seasonboard.stats.survival import TickCount, kaplan_meier
from tests.truthfulness.seasons import (
    CELL_OF,
    COURSE,
    GAME_RISK,
    GROUP_OF_CELL,
    SESSIONS,
    SPORT_OF_CELL,
    TEAM_OF,
    Seasons,
)

TICKS = 40
MIN_AT_RISK = 5
_KIND = (SPORT_OF_CELL * 4 + GROUP_OF_CELL)[CELL_OF]


@dataclass(slots=True)
class Clock:
    """Per season: difference (guarded − bare), its limits, first tick, horizon, and the injuries of
    the group with fewer; NaN if unknown.

    `risk` and `number` [kind of athlete, tick] sum the bare game rates of those who play a tick.
    """

    rows: np.ndarray
    risk: np.ndarray
    number: np.ndarray


def clock(seasons: Seasons) -> Clock:
    """Follow every site over its athlete's own games, to its first injury."""
    played = seasons.part & seasons.game[:, TEAM_OF, :].transpose(2, 0, 1)
    tick = np.cumsum(played, axis=0)
    at_risk = np.zeros((seasons.count, 2, TICKS), dtype=np.int64)
    session = np.arange(SESSIONS)[:, None, None]
    for site in (0, 1):
        s, c, a = np.nonzero(played & (session <= seasons.first_injury[:, :, site]))
        guarded = seasons.worn[s, c, a] & seasons.covers[c, a, site]
        np.add.at(at_risk, (c, guarded.astype(int), tick[s, c, a]), 1)
    injuries = np.zeros_like(at_risk)
    hurt = seasons.injuries
    at = hurt.session, hurt.season, hurt.athlete
    told = hurt.first & played[at]
    np.add.at(injuries, (hurt.season[told], hurt.guarded[told].astype(int), tick[at][told]), 1)
    rows = np.array([_difference(n, d) for n, d in zip(at_risk, injuries, strict=True)])
    s, c, a = np.nonzero(played)
    risk = np.zeros((_KIND.max() + 1, TICKS))
    number = np.zeros_like(risk)
    traps = seasons.scenario.variation.traps
    of_session = COURSE * GAME_RISK if traps else np.ones(SESSIONS)
    np.add.at(risk, (_KIND[a], tick[s, c, a]), seasons.risk[c, a] * of_session[s])
    np.add.at(number, (_KIND[a], tick[s, c, a]), 1)
    return Clock(rows, risk, number)


def _difference(at_risk: np.ndarray, injuries: np.ndarray) -> tuple[float, ...]:
    counts = [
        [TickCount(int(k), int(n[k]), int(d[k]), 0, 0) for k in np.flatnonzero(n)]
        for n, d in zip(at_risk, injuries, strict=True)
    ]
    curves = [kaplan_meier(group, min_at_risk=MIN_AT_RISK) for group in counts]
    large = [np.flatnonzero(n >= MIN_AT_RISK) for n in at_risk]
    if any(curve.start is None for curve in curves):
        return (math.nan,) * 6
    start = max(curve.start or 0 for curve in curves)
    horizon = int(min(ticks[-1] for ticks in large))
    bare, guarded = (kaplan_meier(group, min_at_risk=MIN_AT_RISK, start=start) for group in counts)
    gap = means_compared(guarded, bare, horizon)
    if gap.value is None or gap.low is None or gap.high is None:
        return (math.nan,) * 6
    fewest = min(int(d[start : horizon + 1].sum()) for d in injuries)
    return gap.value, gap.low, gap.high, float(start), float(horizon), float(fewest)


def true_difference(
    rates: np.ndarray, mix: np.ndarray, ratio: float, start: int, horizon: int
) -> float:
    """Return the difference were everyone guarded against were everyone bare.

    `rates` [kind, tick] are bare game rates of the kinds of athlete, `mix` their shares.
    """
    areas = []
    for factor in (ratio, 1.0):
        survival = np.cumprod(1 - factor * rates, axis=1)
        curve = mix @ survival
        areas.append(curve[start - 1 : horizon].sum() / curve[start - 1])
    return float(areas[0] - areas[1])
