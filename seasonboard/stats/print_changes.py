"""What another printer, more prints or shorter waits before the print would have changed."""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from seasonboard.stats.queueing import Times, waits
from seasonboard.stats.season_ahead import Spread, spread

WEEK_HOURS, DAY_HOURS = 168.0, 24.0
BLOCK = 4
"""Weeks that are drawn together, so that a rush stays a rush."""
SEASON_WEEKS = 16
MOST_JOBS = 250_000
"""Jobs followed in all: with more orders a season, fewer seasons are followed (at least 50)."""
LEAST_SEASONS = 50


@dataclass(frozen=True, slots=True)
class PastOrders:
    """Orders of past weeks, an array each of the same length. Times in hours.

    `week` counts from 0 up to `weeks`; `asked` is the time in that week; `before` from asked to
    ready for print, `finish` how long the print takes once begun, `after` from printed to fitted.
    `game` is from asked to the next game, inf where none is known.
    """

    weeks: int
    week: npt.NDArray[np.int64]
    asked: Times
    before: Times
    finish: Times
    after: Times
    game: Times


@dataclass(frozen=True, slots=True)
class Printers:
    """How many print at a time, and how long each print holds one: hours, or an array of them."""

    servers: int
    hold: float | Times


@dataclass(frozen=True, slots=True)
class PrintChange:
    """What a change would do over simulated seasons: differences are changed less as it is.

    `missed` are shares of guards, of those with a game known, that are not fitted by it; `days`
    are medians from asked to fitted. None where no game is known.
    """

    seasons: int
    missed_now: Spread | None
    missed_change: Spread | None
    days_now: Spread
    days_change: Spread


def print_change(  # noqa: PLR0913 - the same orders as it is and changed
    past: PastOrders,
    now: Printers,
    changed: Printers,
    *,
    before: Times | None = None,
    seasons: int = 400,
    seed: int = 1,
) -> PrintChange:
    """Simulate seasons of past weeks, drawn in blocks of four, as it is and changed.

    Both see the same orders. `before` are, for the changed one, the hours before the print.
    The same seed gives the same numbers.

    Raises:
        ValueError: There is no order, no printer, or a week out of range.

    Source: blocks in a circle as Politis & Romano (1992), in LePage & Billard, 263-270 (from
    memory); waits as `queueing.waits`.
    """
    if not len(past.week) or now.servers < 1 or changed.servers < 1:
        raise ValueError("there are orders, and printers")
    if past.week.min() < 0 or past.week.max() >= past.weeks:
        raise ValueError("a week lies outside the weeks that are known")
    per_season = len(past.week) / past.weeks * SEASON_WEEKS
    seasons = min(seasons, max(LEAST_SEASONS, int(MOST_JOBS / per_season)))
    jobs, starts = _drawn(past, seasons, np.random.default_rng([seed, 16]))
    other = past if before is None else replace(past, before=before)
    took = [
        _turnarounds(one, printers, jobs, starts)
        for one, printers in ((past, now), (other, changed))
    ]
    game = np.where(jobs < 0, np.nan, past.game[jobs])
    missed = [_missed(each, game) for each in took]
    days = [_median(each) / DAY_HOURS for each in took]
    has_orders, has_games = np.isfinite(days[0]), np.isfinite(missed[0])
    return PrintChange(
        seasons,
        spread(missed[0][has_games]) if has_games.any() else None,
        spread((missed[1] - missed[0])[has_games]) if has_games.any() else None,
        spread(days[0][has_orders]),
        spread((days[1] - days[0])[has_orders]),
    )


def _drawn(
    past: PastOrders, seasons: int, random: np.random.Generator
) -> tuple[npt.NDArray[np.int64], Times]:
    """Return the orders of each season, a season a row, −1 where there is none, and week starts."""
    blocks = random.integers(0, past.weeks, (seasons, SEASON_WEEKS // BLOCK))
    weeks = (blocks[:, :, None] + np.arange(BLOCK)).reshape(seasons, -1) % past.weeks
    counts = np.bincount(past.week, minlength=past.weeks)
    listed = np.full((past.weeks, counts.max()), -1)
    order = np.argsort(past.week, kind="stable")
    place = np.arange(len(order)) - np.repeat(np.cumsum(counts) - counts, counts)
    listed[past.week[order], place] = order
    jobs = listed[weeks]
    starts = np.broadcast_to(np.arange(SEASON_WEEKS)[:, None] * WEEK_HOURS, jobs.shape[1:])
    return jobs.reshape(seasons, -1), starts.reshape(-1)


def _turnarounds(
    past: PastOrders, printers: Printers, jobs: npt.NDArray[np.int64], starts: Times
) -> Times:
    """Return hours from asked to fitted of every job; nan where there is none."""
    ready = np.where(jobs < 0, np.inf, starts + past.asked[jobs] + past.before[jobs])
    order = np.argsort(ready, axis=1, kind="stable")
    arrive = np.take_along_axis(ready, order, axis=1)
    most = int(np.isfinite(arrive).sum(axis=1).max())
    order, arrive = order[:, :most], arrive[:, :most]
    which = np.take_along_axis(jobs, order, axis=1)
    hold = np.broadcast_to(np.asarray(printers.hold, dtype=float), past.week.shape)[which]
    waited = np.full(jobs.shape, np.nan)
    np.put_along_axis(waited, order, waits(arrive, hold, printers.servers), axis=1)
    total: Times = waited + past.before[jobs] + past.finish[jobs] + past.after[jobs]
    return total


def _missed(took: Times, game: Times) -> Times:
    """Return, season by season, the share that is fitted after its game; nan without a game."""
    counted = np.isfinite(took) & np.isfinite(game)
    late = (counted & (took > np.where(counted, game, 0.0))).sum(axis=1)
    number = counted.sum(axis=1)
    share: Times = np.where(number > 0, late / np.maximum(number, 1), np.nan)
    return share


def _median(took: Times) -> Times:
    """Return the median of each row, leaving out nan; nan for a row of nothing else."""
    ordered = np.sort(took, axis=1)
    number = np.isfinite(ordered).sum(axis=1)
    row, last = np.arange(len(took)), took.shape[1] - 1
    low = ordered[row, np.clip((number - 1) // 2, 0, last)]
    high = ordered[row, np.clip(number // 2, 0, last)]
    return np.where(number > 0, (low + high) / 2, np.nan)
