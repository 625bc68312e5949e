"""Runs scenarios on several processes and sums up how their intervals fared."""

from collections import Counter
from collections.abc import Iterable, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context

import numpy as np

from seasonboard.stats.rates import PER, injury_rate
from tests.truthfulness import intervals, wrong
from tests.truthfulness.counting import Counts, count, side_pairs
from tests.truthfulness.scenarios import Scenario
from tests.truthfulness.seasons import Seasons, simulate

CHUNK = 50


@dataclass(slots=True)
class Chunk:
    """What some seasons of one scenario gave.

    `found` holds, by interval, one row per season: ratio, low, high, above, under. `rates` is
    [c, bare / guarded, 5]: injuries, exposures, the limits, and the true expected injuries.
    """

    found: dict[str, np.ndarray]
    verdicts: Counter[str]
    rates: np.ndarray


@dataclass(frozen=True, slots=True)
class Fared:
    """How one interval fared in one scenario; shares of 1, log ratios.

    `told` is the share of seasons with an interval at all, and `coverage` is among those; `fewer`
    is the share of all seasons in which it lies under 1.
    """

    told: float
    coverage: float
    width: float
    bias_pooled: float
    bias_median: float
    fewer: float


@dataclass(frozen=True, slots=True)
class RateFared:
    """Coverage of a rate's interval: of the rate of these athletes, and of the long-run rate."""

    injuries: float
    of_these: float
    of_long_run: float


@dataclass(frozen=True, slots=True)
class Result:
    """One scenario, summed up."""

    scenario: Scenario
    seasons: int
    fared: dict[str, Fared]
    verdicts: dict[str, float]
    rates: tuple[RateFared, RateFared]


def workers_pool(workers: int) -> ProcessPoolExecutor:
    """Return processes that start anew: a fork of one that has threads may wait for ever."""
    return ProcessPoolExecutor(workers, mp_context=get_context("spawn"))


def run(scenarios: Sequence[Scenario], *, seasons: int, seed: int, workers: int) -> list[Result]:
    """Simulate `seasons` seasons of each scenario, and sum up."""
    if workers == 1:
        return [_sum_up(s, map(_measure, _tasks(s, seasons, seed))) for s in scenarios]
    with workers_pool(workers) as pool:
        waiting = [_sent(pool, s, seasons, seed) for s in scenarios]
        return [_sum_up(s, chunks) for s, chunks in zip(scenarios, waiting, strict=True)]


def _sent(pool: Executor, scenario: Scenario, seasons: int, seed: int) -> Iterable[Chunk]:
    return pool.map(_measure, _tasks(scenario, seasons, seed))


def _tasks(scenario: Scenario, seasons: int, seed: int) -> list[tuple[Scenario, list[int], int]]:
    """Cut the seasons into chunks; the seeds do not depend on how many processes there are."""
    return [
        (scenario, [seed, scenario.number, i], min(CHUNK, seasons - begin))
        for i, begin in enumerate(range(0, seasons, CHUNK))
    ]


def _measure(task: tuple[Scenario, list[int], int]) -> Chunk:
    scenario, seed, number = task
    seasons = simulate(scenario, np.random.default_rng(seed), number)
    counts, pairs = count(seasons), side_pairs(seasons)
    rows: dict[str, list[tuple[float, ...]]] = {}
    verdicts: Counter[str] = Counter()
    for c in range(number):
        weights = intervals.expected_weights(counts, c)
        right, summary = intervals.of_season(seasons, counts, pairs, c, weights)
        verdicts[summary] += 1
        for name, f in (right | wrong.of_season(seasons, counts, c, weights)).items():
            rows.setdefault(name, []).append((f.ratio, f.low, f.high, f.above, f.under))
    found = {name: np.array(values) for name, values in rows.items()}
    return Chunk(found, verdicts, _rates(seasons, counts))


def _rates(seasons: Seasons, counts: Counts) -> np.ndarray:
    totals = counts.cells.sum(axis=(1, 2)).astype(int)
    rates = np.zeros((seasons.count, 2, 5))
    for c, (a, b, t1, t0) in enumerate(totals.tolist()):
        for group, (injuries, exposures) in enumerate(((b, t0), (a, t1))):
            rate = injury_rate(injuries, exposures)
            low, high = (np.nan if x is None else x / PER for x in (rate.low, rate.high))
            rates[c, group] = injuries, exposures, low, high, seasons.expected[c, group]
    return rates


def _sum_up(scenario: Scenario, chunks: Iterable[Chunk]) -> Result:
    parts = list(chunks)
    found = {name: np.concatenate([p.found[name] for p in parts]) for name in parts[0].found}
    rates = np.concatenate([p.rates for p in parts])
    verdicts = sum((p.verdicts for p in parts), Counter())
    number = len(rates)
    return Result(
        scenario=scenario,
        seasons=number,
        fared={name: fared(rows, scenario.ratio) for name, rows in found.items()},
        verdicts={summary: times / number for summary, times in verdicts.items()},
        rates=(_rate_fared(rates[:, 0]), _rate_fared(rates[:, 1])),
    )


def fared(rows: np.ndarray, truth: float) -> Fared:
    """Sum up one interval over [season, 5] rows."""
    ratio, low, high, above, under = rows.T
    told = ~np.isnan(low)
    with np.errstate(divide="ignore", invalid="ignore"):
        logs = np.log(ratio[~np.isnan(ratio)] / truth)
        widths = np.log(high[told] / low[told])
        pooled = float(np.log(above.sum() / under.sum() / truth))
    return Fared(
        told=float(told.mean()),
        coverage=_mean((low[told] <= truth) & (truth <= high[told])),
        width=_middle(widths),
        bias_pooled=pooled,
        bias_median=_middle(logs),
        fewer=float((high < 1).mean()),
    )


def _mean(values: np.ndarray) -> float:
    return float(values.mean()) if len(values) else float("nan")


def _middle(values: np.ndarray) -> float:
    """Return the median; the lower of two middle ones, since infinities have no mean."""
    return float(np.sort(values)[(len(values) - 1) // 2]) if len(values) else float("nan")


def _rate_fared(rows: np.ndarray) -> RateFared:
    injuries, exposures, low, high, expected = rows[rows[:, 1] > 0].T
    these = expected / exposures
    long_run = injuries.sum() / exposures.sum()
    return RateFared(
        float(injuries.mean()),
        _mean((low <= these) & (these <= high)),
        _mean((low <= long_run) & (long_run <= high)),
    )
