"""Prints that a new department would ask for, week by week, and how a plan holds them."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from seasonboard.stats.absence_duration import Floats
from seasonboard.stats.queueing import waits
from seasonboard.stats.season_ahead import Spread, spread
from seasonboard.stats.special import two_sided

WEEK_HOURS, DAY_HOURS = 168.0, 24.0
REMAKE_DAYS = 30
MOST_JOBS = 250_000
"""Jobs followed in all: with more prints a season, fewer seasons are followed (at least 200)."""


@dataclass(frozen=True, slots=True)
class Share:
    """A share of something, 0 to 1, and the 95 % limits within which it may lie."""

    value: float
    low: float | None = None
    high: float | None = None

    def drawn(self, size: int, random: np.random.Generator) -> Floats:
        """Draw the share: log-odds about the value, as far apart as the limits say."""
        normal = random.standard_normal(size)
        if self.low is None or self.high is None or not 0 < self.value < 1:
            return np.full(size, self.value)
        ends = np.clip([self.low, self.high], 1e-4, 1 - 1e-4)
        low, high = np.log(ends / (1 - ends))
        odds = np.log(self.value / (1 - self.value)) + (high - low) / (2 * two_sided(0.95)) * normal
        drawn: Floats = 1 / (1 + np.exp(-odds))
        return drawn


@dataclass(frozen=True, slots=True)
class Demand:
    """What makes prints: athletes, who takes guards, how many each, what comes back, and when.

    `remake_share` is the share of guards made again within 30 days; `later_per_guard` the prints
    asked for in a guard's place after that, over the rest of the season. First guards are asked for
    evenly over `scan_weeks`, from `scan_before` weeks before the season's first session on.
    `usual_days` is how long a guard usually takes: a remake comes after that.
    """

    athletes: int
    take_up: Share
    guards_per_athlete: float
    remake_share: float
    later_per_guard: float
    weeks: float
    scan_before: float = 0.0
    scan_weeks: float = 2.0
    usual_days: float = 10.0


@dataclass(frozen=True, slots=True)
class Printing:
    """How prints are made. Times in hours.

    A printer holds a print for `service`, a weekly maximum lets one begin every `service`.
    `finish` is how long a print takes once begun. `outside` are times apart from waiting and
    printing, with their weights; without any, no turnaround is known.
    """

    servers: int
    service: float
    finish: float
    outside: tuple[float, ...]
    outside_weights: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class WeekAhead:
    """Prints asked for in one week, from 1: the first of scanning, or of the season."""

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
    """Prints over a season, whoever makes them.

    `guards` are first and later ones, without remakes; `busiest_week` is of each season's week with
    the most prints, `busiest_p95` what that week stays within in 19 of 20 seasons. `asked` are the
    hours, from the first session on, at which prints are asked for, a season a row; `is_first`
    which of them are first guards; `takers` the athletes who take one.
    """

    seasons: int
    first: Spread
    remakes: Spread
    later: Spread
    prints: Spread
    guards: Spread
    by_week: tuple[WeekAhead, ...]
    busiest_week: Spread
    busiest_p95: float
    asked: Floats = field(compare=False, repr=False)
    is_first: NDArray[np.bool_] = field(compare=False, repr=False)
    takers: Floats = field(compare=False, repr=False)
    guards_each: Floats = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class QueueAhead:
    """Prints that wait at the ends of weeks, in half of the seasons so many or more.

    `grows_from` is the first week in which the queue grows, `longest` how many wait at most,
    `clears_in` the first week after that at whose end none waits, `left_over` how many wait at the
    season's end. Weeks count from 1; None: in none.
    """

    grows_from: int | None
    longest: float
    clears_in: int | None
    left_over: float


@dataclass(frozen=True, slots=True)
class MadeAhead:
    """What a plan of printing makes of the prints that are asked for.

    `wait_days` is a first guard's wait for its print, `turnaround_days` from asked for to fitted;
    `ready_at_start` the share of first guards fitted before the first session. `covered` is, of
    each season, the share of athletes with a guard times the part of the season left when it is
    fitted. None where it is not known.
    """

    queue: QueueAhead
    wait_days: Percentiles | None
    turnaround_days: Percentiles | None
    ready_at_start: float | None
    covered: Floats = field(compare=False, repr=False)


def prints_ahead(demand: Demand, *, seasons: int, seed: int) -> PrintsAhead:
    """Simulate the prints that are asked for before and in one season ahead.

    A remake comes within 30 days of when its guard is usually fitted, later prints evenly over the
    season. A remake is not made again, and what would be asked for after the season's end is not
    counted. The same seed gives the same numbers.

    Raises:
        ValueError: A share or a number is out of range.
    """
    _check(demand, seasons)
    random = np.random.default_rng([seed, 11])
    per_season = demand.athletes * demand.guards_per_athlete * (1 + demand.later_per_guard)
    seasons = min(seasons, max(200, int(MOST_JOBS / max(per_season, 1))))
    takers = random.binomial(demand.athletes, demand.take_up.drawn(seasons, random))
    whole, part = divmod(demand.guards_per_athlete, 1)
    firsts = takers * int(whole) + random.binomial(takers, part)
    end, start = demand.weeks * WEEK_HOURS, -demand.scan_before * WEEK_HOURS
    asked = _times(firsts, start, min(start + demand.scan_weeks * WEEK_HOURS, end), random)
    remade = asked + (demand.usual_days + random.random(asked.shape) * REMAKE_DAYS) * DAY_HOURS
    remade[(random.random(asked.shape) >= demand.remake_share) | (remade >= end)] = np.inf
    later = _times(random.poisson(firsts * demand.later_per_guard), 0.0, end, random)
    when, is_first = _in_order(asked, remade, later)
    by_week = _by_week(when - start, demand.weeks + demand.scan_before)
    counts = [np.isfinite(t).sum(axis=1).astype(np.float64) for t in (asked, remade, later)]
    both = (counts[0] + counts[1] + counts[2], counts[0] + counts[2])
    busiest = by_week.max(axis=1)
    first, again, after, prints, guards = (spread(count) for count in (*counts, *both))
    return PrintsAhead(
        *(seasons, first, again, after, prints, guards),
        by_week=tuple(WeekAhead(n + 1, spread(column)) for n, column in enumerate(by_week.T)),
        busiest_week=spread(busiest),
        busiest_p95=float(np.quantile(busiest, 0.95)),
        asked=when,
        is_first=is_first,
        takers=takers.astype(np.float64),
        guards_each=both[1],
    )


def made_ahead(ahead: PrintsAhead, demand: Demand, printing: Printing, *, seed: int) -> MadeAhead:
    """Follow the prints of a season ahead through the printers or the weekly maximum of a plan."""
    random = np.random.default_rng([seed, 12])
    when, is_first = ahead.asked, ahead.is_first
    service = np.full(when.shape, printing.service)
    waited = waits(when, service, printing.servers) if when.size else np.zeros(when.shape)
    fitted, days = when, None
    if printing.outside:
        outside = _outside(printing, is_first.shape, random)
        turnaround = np.where(is_first, waited + printing.finish + outside, 0.0)
        fitted = when + turnaround
        days = _percentiles(turnaround[is_first] / DAY_HOURS)
    return MadeAhead(
        _queue(when, waited, demand, printing),
        _percentiles(waited[is_first] / DAY_HOURS),
        days,
        float((fitted[is_first] <= 0).mean()) if days and is_first.any() else None,
        _covered(ahead, demand, fitted),
    )


def _check(demand: Demand, seasons: int) -> None:
    shares = (demand.take_up.value, demand.remake_share)
    numbers = (demand.athletes, demand.guards_per_athlete, demand.later_per_guard)
    if not all(0 <= share <= 1 for share in shares) or min(*numbers, demand.scan_before) < 0:
        raise ValueError("shares lie between 0 and 1, numbers are 0 or more")
    if min(demand.weeks, demand.scan_weeks) <= 0 or seasons < 1:
        raise ValueError("give a season and a scanning of some weeks, and at least one season")


def _times(
    counts: NDArray[np.int64], start: float, end: float, random: np.random.Generator
) -> Floats:
    """Return so many times a row between start and end, in any order; inf where there is none."""
    width = int(counts.max(initial=0))
    drawn = start + random.random((len(counts), width)) * (end - start)
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


def _by_week(since: Floats, weeks: float) -> Floats:
    """Return the prints asked for, a season a row and a week a column."""
    width = max(1, int(np.ceil(weeks)))
    season, job = np.nonzero(np.isfinite(since))
    week = np.minimum((since[season, job] // WEEK_HOURS).astype(np.int64), width - 1)
    counts = np.bincount(season * width + week, minlength=len(since) * width)
    return counts.reshape(len(since), width).astype(np.float64)


def _percentiles(values: Floats) -> Percentiles | None:
    if not len(values):
        return None
    return Percentiles(*np.quantile(values, [0.5, 0.8, 0.95]).tolist())


def _queue(when: Floats, waited: Floats, demand: Demand, printing: Printing) -> QueueAhead:
    """Return how many prints wait at the end of each week, in the median season.

    A queue is more than a day's prints.
    """
    day = max(1.0, printing.servers * DAY_HOURS / max(printing.service, 1e-9))
    weeks = max(1, int(np.ceil(demand.weeks + demand.scan_before)))
    ends = (np.arange(1, weeks + 1) - demand.scan_before) * WEEK_HOURS
    begun = when + np.nan_to_num(waited)
    waiting = np.array(
        [np.median(((when < end) & (begun >= end)).sum(axis=1)) for end in ends.tolist()]
    )
    grows = np.flatnonzero((np.diff(waiting, prepend=0.0) > 0) & (waiting > day))
    peak = int(waiting.argmax())
    clear = np.flatnonzero(waiting[peak:] < 1)
    has_queue = len(grows) > 0
    return QueueAhead(
        int(grows[0]) + 1 if len(grows) else None,
        float(waiting[peak]),
        peak + int(clear[0]) + 1 if has_queue and len(clear) else None,
        float(waiting[-1]),
    )


def _covered(ahead: PrintsAhead, demand: Demand, fitted: Floats) -> Floats:
    end = demand.weeks * WEEK_HOURS
    begun = np.clip(np.where(ahead.is_first, np.nan_to_num(fitted, nan=end), end), 0.0, end)
    part = (1 - begun / end).sum(axis=1) / np.maximum(ahead.is_first.sum(axis=1), 1)
    covered: Floats = ahead.takers / max(demand.athletes, 1) * part
    return covered
