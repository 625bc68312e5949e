"""What each department's figures and weekly trends are counted from."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

import polars as pl

from seasonboard.answers.departments.parts import TREND_WEEKS, Available, Numbers
from seasonboard.answers.orders.order_times import between, curve_of, local_days, timed
from seasonboard.answers.roster.availability import with_availability
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.stats.waiting_times import wait_quantile

NOBODY = Available(0, 0, 0, 0, None, "no attendance of a rostered athlete is recorded")

_USUAL = TurnaroundOptions()
_IS_REMADE = pl.col("successor_counts_as").eq_missing("remake")


def trend_weeks(through: date) -> tuple[date, ...]:
    """Return the Mondays of the weeks of a trend, oldest first."""
    last = through - timedelta(days=through.weekday())
    return tuple(last - timedelta(weeks=n) for n in reversed(range(TREND_WEEKS)))


def availability_by(
    sessions: pl.DataFrame, teams: pl.DataFrame, keys: Sequence[str]
) -> dict[tuple[Any, ...], Available]:
    """Return availability by department, and by what else is named in `keys` (`week`).

    Args:
        sessions: Rows of `roster/sessions`.
        teams: Rows of `departments/teams`.
        keys: `department`, and `week` to part it by week.
    """
    summed = (
        with_availability(sessions)
        .join(teams.select("team", "department"), on="team")
        .with_columns(week=pl.col("played_on").dt.truncate("1w"))
        .group_by(keys)
        .agg(pl.len().alias("sessions"), pl.col("available", "recorded", "unknown").sum())
    )
    wide, by_key = len(keys), {}
    for row in summed.iter_rows():
        count, available, recorded, unknown = row[wide:]
        share = (available / recorded, "") if recorded else (None, NOBODY.why)
        by_key[row[:wide]] = Available(count, available, recorded, unknown, *share)
    return by_key


def turnaround_weeks(orders: pl.DataFrame, weeks: Sequence[date]) -> dict[str, Numbers]:
    """Return for each department the median days of the orders that began in each week."""
    sound = between(orders, _USUAL.start, _USUAL.end).filter(pl.col("aside").is_null())
    week = local_days(sound, "from_at").dt.truncate("1w")
    rows = timed(sound, _USUAL.unit).with_columns(week=week)
    medians: dict[str, dict[date, float | None]] = {}
    recent = rows.filter(pl.col("week") >= weeks[0])
    for (department, week), part in recent.partition_by("department", "week", as_dict=True).items():
        medians.setdefault(department, {})[week] = wait_quantile(curve_of(part)).value
    return {name: tuple(by.get(week) for week in weeks) for name, by in medians.items()}


def remade(orders: pl.DataFrame) -> dict[str, tuple[int, int]]:
    """Return (remade, fitted) guards of each department, from rows of `week/orders`."""
    fitted = orders.filter(pl.col("fitted_at").is_not_null())
    counted = fitted.group_by("department").agg(_IS_REMADE.sum(), pl.len())
    return {name: (remakes, fitted) for name, remakes, fitted in counted.iter_rows()}


def remake_weeks(orders: pl.DataFrame, weeks: Sequence[date]) -> dict[str, Numbers]:
    """Return for each department how many remakes were asked for in each week."""
    counted = (
        orders.filter(_IS_REMADE & (pl.col("successor_asked_on") >= weeks[0]))
        .group_by("department", pl.col("successor_asked_on").dt.truncate("1w").alias("week"))
        .len()
    )
    counts: dict[str, dict[date, float]] = {}
    for department, week, count in counted.iter_rows():
        counts.setdefault(department, {})[week] = float(count)
    return {name: tuple(by.get(week, 0.0) for week in weeks) for name, by in counts.items()}
