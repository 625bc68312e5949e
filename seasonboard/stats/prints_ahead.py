"""Prints that a new department would ask for, week by week, and how long its guards would take."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from seasonboard.stats.absence_duration import Floats
from seasonboard.stats.queueing import waits
from seasonboard.stats.season_ahead import Spread, spread

WEEK_HOURS = 168.0
DAY_HOURS = 24.0
FIRST_WEEKS = 2
"""Weeks, from the season's start, in which the first guards are asked for, evenly."""
REMAKE_DAYS = 30
MOST_JOBS = 250_000
"""Jobs followed in all: with more prints a season, fewer seasons are followed (at least 200)."""


@dataclass(frozen=True, slots=True)
class Demand:
    """What makes prints: athletes, who takes guards, how many each, and what comes back.

    `remake_share` is the share of guards made again within 30 days; `later_per_guard` the prints
    asked for in a guard's place after that, over the rest of the season.
    """

    athletes: int
    take_up: float
    guards_per_athlete: float
    remake_share: float
    later_per_guard: float
    weeks: float


@dataclass(frozen=True, slots=True)
class Printing:
    """How prints are made. Times in hours.

    A printer holds a print for `service`, an allotment lets one begin every `service`; without
    `servers` no print waits. `finish` is how long a print takes once begun. `outside` are times
    apart from waiting and printing, with their weights; without any, no turnaround is known.
    """

    servers: int | None
    service: float
    finish: float
    outside: tuple[float, ...]
    outside_weights: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class WeekAhead:
    """Prints asked for in one week of the season, from 1."""

    week: int
    prints: Spread


@dataclass(frozen=True, slots=True)
class Percentiles:
    """The median, and what four in five and 19 in 20 stay within."""

    median: float
    p80: float
    p95: float


@dataclass(frozen=True, slots=True)
class PrintsAhead:
    """Prints over a season, and what follows for the first guards. None where it is not known.

    `guards` are first and later ones, without remakes; `busiest_week` is of each season's week with
    the most prints; `wait_hours` is the wait for a printer or the allotment, `turnaround_days` from
    asked for to fitted. `covered` is, of each simulated season, the share of athletes with a guard
    times the part of the season left when it is fitted.
    """

    seasons: int
    first: Spread
    remakes: Spread
    later: Spread
    prints: Spread
    guards: Spread
    by_week: tuple[WeekAhead, ...]
    busiest_week: Spread
    wait_hours: Percentiles | None
    turnaround_days: Percentiles | None
    covered: Floats = field(compare=False, repr=False)


def prints_ahead(demand: Demand, printing: Printing, *, seasons: int, seed: int) -> PrintsAhead:
    """Simulate the prints of one season ahead.

    First guards are asked for in the first two weeks, evenly; a remake within 30 days of when its
    guard is usually fitted; later prints evenly over the season. A remake is not made again, and
    what would be asked for after the season's end is not counted.

    The same seed gives the same numbers.

    Raises:
        ValueError: A share or a number is out of range.
    """
    _check(demand, printing, seasons)
    random = np.random.default_rng([seed, 11])
    per_season = demand.athletes * demand.guards_per_athlete * (1 + demand.later_per_guard)
    seasons = min(seasons, max(200, int(MOST_JOBS / max(per_season, 1))))
    takers = random.binomial(demand.athletes, demand.take_up, seasons)
    whole, part = divmod(demand.guards_per_athlete, 1)
    firsts = takers * int(whole) + random.binomial(takers, part)
    end = demand.weeks * WEEK_HOURS
    asked = _times(firsts, min(FIRST_WEEKS * WEEK_HOURS, end), random)
    usual = _weighted_median(printing) + printing.finish
    remade = asked + usual + random.random(asked.shape) * REMAKE_DAYS * DAY_HOURS
    remade[(random.random(asked.shape) >= demand.remake_share) | (remade >= end)] = np.inf
    later = _times(random.poisson(firsts * demand.later_per_guard), end, random)
    when, is_first = _in_order(asked, remade, later)
    waited = np.zeros(when.shape)
    if printing.servers and when.size:
        waited = waits(when, np.full(when.shape, printing.service), printing.servers)
    turnaround, days = None, None
    if printing.outside:
        outside = _outside(printing, is_first.shape, random)
        turnaround = np.where(is_first, waited + printing.finish + outside, np.nan)
        days = _percentiles(turnaround[is_first] / DAY_HOURS)
    by_week = _by_week(when, demand.weeks)
    counts = [np.isfinite(t).sum(axis=1).astype(np.float64) for t in (asked, remade, later)]
    both = (counts[0] + counts[1] + counts[2], counts[0] + counts[2])
    first, again, after, prints, guards = (spread(count) for count in (*counts, *both))
    return PrintsAhead(
        *(seasons, first, again, after, prints, guards),
        by_week=tuple(WeekAhead(n + 1, spread(column)) for n, column in enumerate(by_week.T)),
        busiest_week=spread(by_week.max(axis=1)),
        wait_hours=_percentiles(waited[is_first]) if printing.servers else None,
        turnaround_days=days,
        covered=_covered(demand, takers, when, is_first, turnaround),
    )


def _check(demand: Demand, printing: Printing, seasons: int) -> None:
    shares = (demand.take_up, demand.remake_share)
    numbers = (demand.athletes, demand.guards_per_athlete, demand.later_per_guard)
    if not all(0 <= share <= 1 for share in shares) or min(*numbers, printing.service) < 0:
        raise ValueError("shares lie between 0 and 1, numbers are 0 or more")
    if demand.weeks <= 0 or seasons < 1:
        raise ValueError("give a season of some weeks, and at least one of them")


def _times(counts: NDArray[np.int64], end: float, random: np.random.Generator) -> Floats:
    """Return so many times a row between 0 and `end`, in any order; inf where there is none."""
    width = int(counts.max(initial=0))
    drawn = random.random((len(counts), width)) * end
    drawn[np.arange(width) >= counts[:, None]] = np.inf
    return drawn


def _in_order(asked: Floats, remade: Floats, later: Floats) -> tuple[Floats, NDArray[np.bool_]]:
    """Return all times of asking in order, season by season, and which are of first guards."""
    most = int(np.isfinite(remade).sum(axis=1).max(initial=0))
    again = np.sort(remade, axis=1)[:, :most]
    times = np.concatenate((asked, again, later), axis=1)
    order = np.argsort(times, axis=1, kind="stable")
    when = np.take_along_axis(times, order, axis=1)
    return when, (order < asked.shape[1]) & np.isfinite(when)


def _outside(printing: Printing, shape: tuple[int, ...], random: np.random.Generator) -> Floats:
    hours = np.asarray(printing.outside, dtype=np.float64)
    reached = np.cumsum(np.asarray(printing.outside_weights, dtype=np.float64))
    place = np.searchsorted(reached, random.random(shape) * reached[-1], side="right")
    drawn: Floats = hours[np.minimum(place, len(hours) - 1)]
    return drawn


def _weighted_median(printing: Printing) -> float:
    if not printing.outside:
        return 0.0
    reached = np.cumsum(np.asarray(printing.outside_weights, dtype=np.float64))
    return printing.outside[int(np.searchsorted(reached, reached[-1] / 2))]


def _by_week(when: Floats, weeks: float) -> Floats:
    """Return the prints asked for, a season a row and a week a column."""
    width = max(1, int(np.ceil(weeks)))
    season, job = np.nonzero(np.isfinite(when))
    week = np.minimum((when[season, job] // WEEK_HOURS).astype(np.int64), width - 1)
    counts = np.bincount(season * width + week, minlength=len(when) * width)
    return counts.reshape(len(when), width).astype(np.float64)


def _percentiles(values: Floats) -> Percentiles | None:
    if not len(values):
        return None
    return Percentiles(*np.quantile(values, [0.5, 0.8, 0.95]).tolist())


def _covered(
    demand: Demand,
    takers: NDArray[np.int64],
    when: Floats,
    is_first: NDArray[np.bool_],
    turnaround: Floats | None,
) -> Floats:
    end = demand.weeks * WEEK_HOURS
    fitted = np.where(is_first, when, 0.0) + (0.0 if turnaround is None else turnaround)
    left = np.where(is_first, np.maximum(1 - np.nan_to_num(fitted, nan=end) / end, 0), 0.0)
    part = left.sum(axis=1) / np.maximum(is_first.sum(axis=1), 1)
    covered: Floats = takers / max(demand.athletes, 1) * part
    return covered
