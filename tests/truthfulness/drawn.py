"""Drawn turns in seasons with a known truth: careful athletes, jumped turns, late fits, leaving.

python -m tests.truthfulness.drawn [--seasons 1000] [--seed 20261]

Careful: athletes with a lower risk of their own accept and wear guards more. Who accepted is drawn
by the product's own draw, in team and position group, over eight weeks of printing.
"""

import argparse
import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import repeat

import numpy as np

from seasonboard.stats.anytime_valid import RiskSet, anytime_valid_trace
from seasonboard.stats.complier_range import DrawnStrata, complier_range
from seasonboard.stats.drawn_turns import draw_turns
from seasonboard.stats.ratios import Strata, mantel_haenszel
from tests.truthfulness.seasons import (
    ATHLETES,
    CELL_OF,
    CELLS,
    COURSE,
    GAME_RISK,
    GROUP_OF_CELL,
    GROUP_RISK,
    SESSIONS,
    TEAM_OF,
    TEAMS,
    WEEK,
)
from tests.truthfulness.study import workers_pool
from tests.truthfulness.tables import markdown, percent

SEASONS, SEED = 1000, 20261
QUEUE, READY = 8, 1
"""Weeks of printing, and weeks from the turn to the fitted guard."""
INJURIES, GAME_SHARE, AT_SESSIONS = 220.0, 0.22, 0.85


@dataclass(frozen=True, slots=True)
class DrawnScenario:
    """How careful athletes are (variance of own risk), what goes wrong, and the planted ratio."""

    name: str
    care: float
    jumps: float = 0.0
    late: float = 0.0
    leave: float = 0.0
    ratio: float = 1.0


_AMISS = {"jumps": 0.10, "late": 0.25, "leave": 0.20}
SCENARIOS = (
    DrawnScenario("careful 0.5", 0.5),
    DrawnScenario("careful 1.5", 1.5),
    DrawnScenario("careful 1.5; 10 % jump, 25 % late, 20 % leave", 1.5, **_AMISS),
    DrawnScenario("the same, ratio 0.3", 1.5, **_AMISS, ratio=0.3),
)


@dataclass(frozen=True, slots=True)
class _World:
    """One season's athletes: [a] or, of sites, [a, 2]; sessions are counted from 0."""

    risk: np.ndarray
    wears: np.ndarray
    drawn: np.ndarray
    come: np.ndarray
    fitted: np.ndarray
    leaves: np.ndarray


def _world(scenario: DrawnScenario, rng: np.random.Generator) -> _World:
    frail = rng.gamma(1 / scenario.care, scenario.care, ATHLETES)
    careful = 1 - frail.argsort().argsort() / ATHLETES
    accepts = rng.random(ATHLETES) < 0.35 + 0.6 * careful
    waiting = np.flatnonzero(accepts)
    turns = draw_turns(
        [f"{cell:03}" for cell in CELL_OF[waiting]],
        prints_per_week=math.ceil(len(waiting) / QUEUE),
        seed=int(rng.integers(2**31)),
    )
    first = np.searchsorted(WEEK, np.arange(QUEUE + READY + 1))
    come = np.full(ATHLETES, SESSIONS)
    come[waiting] = [first[turn.week - 1 + READY] for turn in turns]
    late = rng.random(ATHLETES) < scenario.late
    fitted = come + np.where(late, rng.geometric(1 / 8, ATHLETES), 0)
    jumps = accepts & (rng.random(ATHLETES) < 2 * scenario.jumps * careful)
    fitted = np.where(jumps, (come * rng.random(ATHLETES)).astype(int), fitted)
    leaving = rng.random(ATHLETES) < np.minimum(scenario.leave * frail, 0.9)
    leaves = np.where(leaving, rng.integers(5, SESSIONS, ATHLETES), SESSIONS)
    return _World(
        frail * GROUP_RISK[GROUP_OF_CELL[CELL_OF]],
        0.3 + 0.65 * careful,
        accepts,
        come,
        np.where(accepts, fitted, SESSIONS),
        leaves,
    )


@dataclass(frozen=True, slots=True)
class DrawnSeason:
    """One season: come over waiting, any weekly look, among compliers, and as it is now.

    `above` and `under` are the two sums of the ratio; the limits are None where there are none.
    """

    above: float
    under: float
    high: float | None
    covers: bool
    refuted: bool
    compliers: bool
    now_above: float
    now_under: float
    now_high: float | None
    injuries: int


def drawn_season(scenario: DrawnScenario, seed: Sequence[int]) -> DrawnSeason:
    """Return what the product's statistics say of one season."""
    rng = np.random.default_rng(seed)
    world = _world(scenario, rng)
    scale = INJURIES / (COURSE.sum() * AT_SESSIONS * 2 * world.risk.sum() * 1.5)
    fresh = np.ones((ATHLETES, 2), dtype=bool)
    turns, now, weeks = [], [], []
    for s in range(SESSIONS):
        game = rng.random(TEAMS) < GAME_SHARE
        part = (rng.random(ATHLETES) < AT_SESSIONS) & (s < world.leaves)
        worn = part & (s >= world.fitted) & (rng.random(ATHLETES) < world.wears)
        rate = scale * world.risk * COURSE[s] * np.where(game[TEAM_OF], GAME_RISK, 1.0)
        chance = (rate * np.where(worn, scenario.ratio, 1.0) * part)[:, None]
        hurt = (rng.random((ATHLETES, 2)) < chance) & fresh
        at_risk = fresh.sum(axis=1) * part
        injured = hurt.sum(axis=1)
        is_come = s >= world.come
        own = world.drawn
        counts = [
            np.bincount(TEAM_OF, injured * (own & side & kept), TEAMS)
            for side in (is_come, ~is_come)
            for kept in (worn, ~worn)
        ]
        counts += [np.bincount(TEAM_OF, at_risk * (own & x), TEAMS) for x in (is_come, ~is_come)]
        table = np.stack(counts, axis=1)
        there = table[:, :4].sum(axis=1) > 0
        turns.append(table[there])
        weeks += [int(WEEK[s])] * int(there.sum())
        as_now = [np.bincount(CELL_OF, injured * x, CELLS) for x in (worn, ~worn)]
        as_now += [np.bincount(CELL_OF, at_risk * x, CELLS) for x in (worn, ~worn)]
        table = np.stack(as_now, axis=1)
        now.append(table[table[:, :2].sum(axis=1) > 0])
        fresh &= ~hurt
    return _told(scenario, np.vstack(turns), weeks, np.vstack(now))


def _told(
    scenario: DrawnScenario, turns: np.ndarray, weeks: list[int], now: np.ndarray
) -> DrawnSeason:
    a, b = turns[:, :2].sum(axis=1), turns[:, 2:4].sum(axis=1)
    come, waiting = turns[:, 4], turns[:, 5]
    rows = np.stack([a, b, come, waiting], axis=1)
    ratio = mantel_haenszel(Strata(*(column.tolist() for column in rows.T)))
    looks: dict[int, list[RiskSet]] = {}
    for week, (hurt, bare, t1, t0) in zip(weeks, rows.astype(int).tolist(), strict=True):
        looks.setdefault(week, []).append(RiskSet(t1, t0, hurt, bare))
    states = anytime_valid_trace(list(looks.values()))
    range_ = complier_range(DrawnStrata(*(column.tolist() for column in turns.T)))
    as_now = mantel_haenszel(Strata(*(column.tolist() for column in now.T)))
    planted = scenario.ratio
    return DrawnSeason(
        *_sums(rows),
        ratio.high,
        (ratio.low or 0.0) <= planted <= (math.inf if ratio.high is None else ratio.high),
        any(state.high is not None and state.high < 1 for state in states),
        (range_.low or 0.0) <= planted <= (math.inf if range_.high is None else range_.high),
        *_sums(now),
        as_now.high,
        int((a + b).sum()),
    )


def _sums(rows: np.ndarray) -> tuple[float, float]:
    a, b, t1, t0 = rows[(rows[:, 2] > 0) & (rows[:, 3] > 0)].T
    return float((a * t0 / (t1 + t0)).sum()), float((b * t1 / (t1 + t0)).sum())


@dataclass(frozen=True, slots=True)
class DrawnResult:
    """One scenario summed up: pooled ratios, and shares of seasons."""

    scenario: DrawnScenario
    ratio: float
    fewer: float
    covered: float
    any_look: float
    compliers: float
    as_now: float
    fewer_now: float
    injuries: float


def drawn_result(scenario: DrawnScenario, seasons: Sequence[DrawnSeason]) -> DrawnResult:
    """Sum up the seasons of a scenario."""

    def share(flags: Sequence[bool]) -> float:
        return float(np.mean(flags))

    return DrawnResult(
        scenario,
        sum(one.above for one in seasons) / sum(one.under for one in seasons),
        share([one.high is not None and one.high < 1 for one in seasons]),
        share([one.covers for one in seasons]),
        share([one.refuted for one in seasons]),
        share([one.compliers for one in seasons]),
        sum(one.now_above for one in seasons) / sum(one.now_under for one in seasons),
        share([one.now_high is not None and one.now_high < 1 for one in seasons]),
        float(np.mean([one.injuries for one in seasons])),
    )


def run_drawn(*, seasons: int, seed: int, workers: int = 1) -> list[DrawnResult]:
    """Simulate every scenario."""
    results = []
    for number, scenario in enumerate(SCENARIOS):
        seeds = [(seed, 900 + number, season) for season in range(seasons)]
        if workers == 1:
            made = [drawn_season(scenario, one) for one in seeds]
        else:
            with workers_pool(workers) as pool:
                made = list(pool.map(drawn_season, repeat(scenario), seeds, chunksize=20))
        results.append(drawn_result(scenario, made))
    return results


_SAYS = """\
Ten teams of 25, {weeks} weeks of printing, athletes with a lower risk of their own accept and wear
more (*careful*: variance of that risk). *Turns*: turn come over waiting, by session and team, as
drawn, pooled over {seasons} seasons; “less”: its interval lies under 1, with no effect a false
declaration. *Any look*: the anytime-valid interval lies under 1 at some weekly look. *Compliers*:
the range holds the planted ratio. *As now*: the headline of the same seasons, for contrast.
"""


def drawn_report(results: Sequence[DrawnResult], *, seasons: int, command: str) -> str:
    """Return the section of the report."""
    head = (
        *("no effect, if not said otherwise", "injuries", "turns", "“less” %", "coverage %"),
        *("any look “less” %", "compliers %", "as now", "as now “less” %"),
    )
    rows = [
        (
            *(one.scenario.name, f"{one.injuries:.0f}", f"{one.ratio:.2f}", percent(one.fewer)),
            *("–" if one.scenario.ratio != 1 else percent(one.covered), percent(one.any_look)),
            *(percent(one.compliers), f"{one.as_now:.2f}", percent(one.fewer_now)),
        )
        for one in results
    ]
    says = _SAYS.format(weeks=QUEUE, seasons=seasons)
    return f"## Drawn turns\n\n{says}\nMade by `{command}`.\n\n{markdown(head, rows)}"


def drawn_section(*, seasons: int, seed: int, workers: int) -> str:
    """Run the scenarios; return the section of the report."""
    command = f"python -m tests.truthfulness.drawn --seasons {seasons} --seed {seed}"
    results = run_drawn(seasons=seasons, seed=seed, workers=workers)
    return drawn_report(results, seasons=seasons, command=command)


def main() -> None:
    """Run the scenarios and print the section."""
    parser = argparse.ArgumentParser(prog="python -m tests.truthfulness.drawn")
    parser.add_argument("--seasons", type=int, default=SEASONS, help="of each scenario")
    parser.add_argument("--seed", type=int, default=SEED)
    asked = parser.parse_args()
    print(drawn_section(seasons=asked.seasons, seed=asked.seed, workers=2))


if __name__ == "__main__":
    main()
