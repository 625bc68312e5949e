"""Every displayed interval of one season, by the product's own statistics."""

import math
from dataclasses import dataclass

import numpy as np

from seasonboard.answers.compare.verdict import verdict
from seasonboard.stats.anytime_valid import RiskSet, anytime_valid_trace
from seasonboard.stats.clustered_ratio import AthleteCells, clustered_ratio
from seasonboard.stats.indirect_standardisation import MultiplicativeRates
from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel
from tests.truthfulness.counting import (
    KINDS_OF_ATHLETE,
    Counts,
    Pairs,
    alike_members,
    athlete_stratum,
    course_rows,
    session_members,
    session_strata,
)
from tests.truthfulness.seasons import BLOCKS, SESSIONS, WEEK, Seasons

_LEVELS = [
    ("area", kind // 4, kind % 4, setting, block)
    for kind in range(KINDS_OF_ATHLETE)
    for setting in (0, 1)
    for block in range(BLOCKS)
]


@dataclass(frozen=True, slots=True)
class Found:
    """One interval of one season; NaN limits where it sets none on either side.

    `above` and `under` are the sums whose quotient is the Mantel-Haenszel ratio (NaN where the
    ratio is another): pooled over seasons they show bias free of small numbers.
    """

    ratio: float
    low: float
    high: float
    above: float = math.nan
    under: float = math.nan


def limits(ratio: float | None, low: float | None, high: float | None) -> Found:
    """Return an interval with its open ends as 0 and infinity."""
    if low is None and high is None:
        return Found(math.nan if ratio is None else ratio, math.nan, math.nan)
    return Found(
        math.inf if ratio is None else ratio,
        0.0 if low is None else low,
        math.inf if high is None else high,
    )


def sums(rows: np.ndarray) -> tuple[float, float, float]:
    """Return Σ a·T0/T, Σ b·T1/T and the Greenland-Robins numerator of [n, 4] strata."""
    a, b, t1, t0 = rows[(rows[:, 2] > 0) & (rows[:, 3] > 0)].T
    whole = t1 + t0
    spread = float(((a + b) * t1 * t0 / whole**2).sum())
    return float((a * t0 / whole).sum()), float((b * t1 / whole).sum()), spread


def shown(ratio: RateRatio, rows: np.ndarray) -> Found:
    """Return the displayed interval of a ratio."""
    above, under, _ = sums(rows)
    found = limits(ratio.value, ratio.low, ratio.high)
    return Found(found.ratio, found.low, found.high, above, under)


def estimate(rows: np.ndarray) -> RateRatio:
    """Return the product's ratio of [n, 4] strata."""
    return mantel_haenszel(Strata(*(column.tolist() for column in rows.T)))


def of_season(
    seasons: Seasons, counts: Counts, pairs: Pairs, c: int, weights: np.ndarray
) -> tuple[dict[str, Found], str]:
    """Return the intervals of season `c` by name, and the verdict; `weights` are expected ones."""
    s, _, session = session_strata(counts, c)
    session_ratio = estimate(session)
    crude_rows = session.sum(axis=0, keepdims=True)
    crude = estimate(crude_rows)
    alike_rows = counts.alike[c]
    alike_ratio = estimate(alike_rows)
    athlete_rows, athlete_no, athlete_ratio = same_athlete(seasons, c, weights)
    found = {
        "crude, mid-P": shown(crude, crude_rows),
        "crude, exact": limits(crude.value, crude.exact.low, crude.exact.high),
        "alike athletes": shown(alike_ratio, alike_rows),
        "alike athletes, clustered": clustered(alike_members(seasons, counts, c)),
        "same session": shown(session_ratio, session),
        "same session, exact": exact(session_ratio),
        "same session, clustered": clustered(session_members(seasons, counts, c)),
        "same athlete": shown(athlete_ratio, athlete_rows),
        "same athlete, clustered": clustered(
            [np.arange(len(athlete_rows)), athlete_no, *athlete_rows.T]
        ),
    }
    side_ratio, side_rows, side_cells = other_side(pairs, c)
    found |= {
        "other side": shown(side_ratio, side_rows),
        "other side, exact": exact(side_ratio),
        "other side, clustered": clustered(side_cells),
    }
    found |= peek_proofs(s, session[:-1])
    others = {"alike athletes": alike_ratio, "same athlete": athlete_ratio}
    return found, verdict(session_ratio, {**others, "other side": side_ratio})


def peek_proofs(session: np.ndarray, rows: np.ndarray) -> dict[str, Found]:
    """Return the peek-proof interval at the end, and what no weekly look has refused."""
    states = [
        limits(state.value, state.low, state.high)
        for state in anytime_valid_trace(weekly(session, rows))
    ]
    return {
        "peek-proof, at the end": states[-1] if states else limits(None, None, None),
        "peek-proof, any weekly look": all_looks(states),
    }


def all_looks(states: list[Found]) -> Found:
    """Return what is left when every look cuts off what it refuses."""
    told = [state for state in states if not math.isnan(state.low)]
    if not told:
        return limits(None, None, None)
    return Found(told[-1].ratio, max(s.low for s in told), min(s.high for s in told))


def exact(ratio: RateRatio) -> Found:
    """Return the exact conditional limits beside a ratio."""
    return limits(ratio.value, ratio.exact.low, ratio.exact.high)


def clustered(columns: list[np.ndarray]) -> Found:
    """Return the athlete-clustered interval; its ratio is the middle of its limits."""
    got = clustered_ratio(AthleteCells(*columns))
    if got.low is None or got.high is None:
        return limits(None, None, None)
    return Found(math.sqrt(got.low * got.high), got.low, got.high)


def weekly(session: np.ndarray, rows: np.ndarray) -> list[list[RiskSet]]:
    """Return the risk sets that each week brings, for the weeks that bring any."""
    looks: dict[int, list[RiskSet]] = {}
    for week, (a, b, t1, t0) in zip(WEEK[session], rows.astype(int).tolist(), strict=True):
        looks.setdefault(int(week), []).append(RiskSet(t1, t0, a, b))
    return list(looks.values())


def expected_weights(counts: Counts, c: int) -> np.ndarray:
    """Return the bare rate of each stratum of alike athletes, by the product's own fit."""
    injuries, exposures = counts.through[c].T
    there = np.flatnonzero(exposures)
    cells = [_LEVELS[i] for i in there]
    rates = MultiplicativeRates(cells, injuries[there].tolist(), exposures[there].tolist())
    return np.array([rates.rate(cell) for cell in _LEVELS])


def same_athlete(
    seasons: Seasons, c: int, weights: np.ndarray
) -> tuple[np.ndarray, np.ndarray, RateRatio]:
    """Return rows, athletes and ratio of the same-athlete comparison: from the day of asking on."""
    athlete, site = course_rows(seasons, c)
    kept = seasons.first_injury[c, athlete, site] >= seasons.asked[c, athlete]
    athlete, site = athlete[kept], site[kept]
    followed = np.arange(SESSIONS) >= seasons.asked[c, athlete][:, None]
    rows = course_sums(seasons, c, (athlete, site), followed, weights)
    there = rows[:, 0] + rows[:, 1] > 0
    return rows[there], athlete[there], estimate(rows[there])


def course_sums(
    seasons: Seasons,
    c: int,
    sites: tuple[np.ndarray, np.ndarray],
    followed: np.ndarray,
    weights: np.ndarray | None,
) -> np.ndarray:
    """Return a, b and weighted exposures of each site over its followed sessions: [n, 4]."""
    athlete, site = sites
    part = seasons.part[:, c, athlete].T & followed
    guarded = seasons.worn[:, c, athlete].T & seasons.covers[c, athlete, site][:, None]
    weight = 1.0 if weights is None else weights[athlete_stratum(seasons, c, athlete)]
    hurt = seasons.injuries
    table = np.zeros((*seasons.first_injury.shape[1:], SESSIONS), dtype=bool)
    own = hurt.season == c
    table[hurt.athlete[own], hurt.site[own], hurt.session[own]] = True
    injured = table[athlete, site] & part
    return np.stack(
        [
            (injured & guarded).sum(axis=1),
            (injured & ~guarded).sum(axis=1),
            (part * weight * guarded).sum(axis=1),
            (part * weight * ~guarded).sum(axis=1),
        ],
        axis=1,
    )


def other_side(pairs: Pairs, c: int) -> tuple[RateRatio, np.ndarray, list[np.ndarray]]:
    """Return the ratio, rows and athletes' cells of the guarded side against the bare one."""
    own, a, b = pairs.season == c, pairs.guarded, pairs.bare
    ones = np.ones(int(own.sum()))
    rows = np.stack([a[own], b[own], ones, ones], axis=1)
    quiet = np.array([[0, 0, *[pairs.number[c] - len(rows)] * 2]])
    cells = [np.arange(len(rows)), pairs.athlete[own], *rows.T]
    rows = np.vstack([rows, quiet])
    return estimate(rows), rows, cells
