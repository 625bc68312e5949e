"""Orders as columns: read from the store, on local days, with the time between two stages.

One row is one guard of which a stage is known. Every answer about orders starts here.
"""

from collections.abc import Sequence
from datetime import date
from enum import StrEnum

import polars as pl

from seasonboard.errors import ScopeError
from seasonboard.stats.waiting_times import Ending, WaitCurve, wait_curve
from seasonboard.stats.working_time import working_days
from seasonboard.terms import Stage, nearest

MAKING = tuple(stage for stage in Stage if stage is not Stage.CANCELLED)
"""The stages in their usual order; being cancelled is an end, not a stage of the making."""

_ENDINGS = {"open": Ending.OPEN, "finished": Ending.FINISHED, "cancelled": Ending.CANCELLED}


class Unit(StrEnum):
    """What time is counted in.

    Hours are elapsed hours, also across a change of the clock. Days are calendar days between the
    local days of the department, the first being day 0. Working days are Mondays to Fridays after
    the first day up to the last.
    """

    HOURS = "hours"
    DAYS = "days"
    WORKING_DAYS = "working-days"


def read_stage(word: str) -> Stage:
    """Return a stage of the making by its name.

    Raises:
        ScopeError: It is none; the message lists them.
    """
    plain = word.strip().casefold()
    names = [str(stage) for stage in MAKING]
    if plain in names:
        return Stage(plain)
    near = nearest(word, names)
    meant = f"Did you mean “{near}”? " if near else ""
    raise ScopeError(f"There is no stage “{word}”.", f"{meant}Known: {', '.join(names)}.")


BY_DAY = "of a stage the day alone is known, so that hours are not told"


def between(orders: pl.DataFrame, start: Stage, end: Stage, unit: Unit = Unit.DAYS) -> pl.DataFrame:
    """Return the orders with what became of them between two stages.

    Adds `from_at`, `to_at` (the end of the stretch: reached, called off, or the end of the last
    day known), `ending` (finished, open or cancelled), and `aside`: why an order cannot be timed
    (then it has no ending).

    An order that was never stamped with `end` but with a later stage went past it at a time that
    is not known; a time that runs backwards is an error of entry. Neither is guessed at. In hours
    orders are put aside of which a stage has no hour.
    """
    later = MAKING[MAKING.index(end) + 1 :]
    passed = pl.any_horizontal(
        pl.lit(value=False), *(pl.col(f"{stage}_at").is_not_null() for stage in later)
    )
    begun, reached, off = pl.col(f"{start}_at"), pl.col(f"{end}_at"), pl.col("cancelled_at")
    aside = (
        pl.when(begun.is_null())
        .then(pl.lit(f"no “{start}” stage is recorded"))
        .when(reached < begun)
        .then(pl.lit(f"{end} before it was {start}: an error of entry"))
        .when(reached.is_null() & passed)
        .then(pl.lit(f"went past “{end}” without a stamp"))
        .when(reached.is_null() & (off < begun))
        .then(pl.lit(f"cancelled before it was {start}: an error of entry"))
    )
    if unit is Unit.HOURS:
        aside = aside.when("is_by_day").then(pl.lit(BY_DAY))
    return orders.with_columns(
        from_at=begun,
        to_at=pl.coalesce(reached, off, "as_of"),
        aside=aside,
        ending=pl.when(aside.is_null()).then(ending(reached)),
    )


def ending(reached: pl.Expr) -> pl.Expr:
    """Return what became of orders that may have reached a stage: finished, cancelled or open."""
    return (
        pl.when(reached.is_not_null())
        .then(pl.lit("finished"))
        .when(pl.col("cancelled_at").is_not_null())
        .then(pl.lit("cancelled"))
        .otherwise(pl.lit("open"))
    )


def durations(rows: pl.DataFrame, unit: Unit, holidays: Sequence[date] = ()) -> pl.Series:
    """Return the time from `from_at` to `to_at` of each row.

    What is open lasts up to the last day known: that day, in days; its end, in hours.
    """
    if unit is Unit.HOURS:
        return (rows["to_at"] - rows["from_at"]).dt.total_microseconds() / 3_600_000_000
    first, last = local_days(rows, "from_at"), local_days(rows, "to_at", is_end=True)
    if unit is Unit.DAYS:
        return (last - first).dt.total_days().cast(pl.Float64)
    worked = working_days(first.to_numpy(), last.to_numpy(), holidays=holidays)
    return pl.Series(worked, dtype=pl.Float64)


def timed(rows: pl.DataFrame, unit: Unit, holidays: Sequence[date] = ()) -> pl.DataFrame:
    """Return rows that can be timed with their `duration` and what became of each, its `code`."""
    code = pl.col("ending").replace_strict(_ENDINGS, return_dtype=pl.Int64)
    return rows.with_columns(durations(rows, unit, holidays).alias("duration"), code=code)


def curve_of(rows: pl.DataFrame, level: float = 0.95) -> WaitCurve:
    """Return the curve of waiting of rows as `timed` gives them."""
    return wait_curve(rows["duration"].to_numpy(), rows["code"].to_numpy(), level=level)


def local_days(rows: pl.DataFrame, column: str, *, is_end: bool = False) -> pl.Series:
    """Return the day of an instant in the department of each row (`time_zone`).

    With `is_end` an open row's instant is the end of its last day, and that day is meant.
    """
    instant = pl.col(column)
    if is_end:
        moment = pl.duration(microseconds=1)
        instant = pl.when(pl.col("ending") == "open").then(instant - moment).otherwise(instant)
    day = instant.dt.date()
    for zone in rows["time_zone"].unique().sort():
        here = instant.dt.convert_time_zone(zone).dt.date()
        day = pl.when(pl.col("time_zone") == zone).then(here).otherwise(day)
    return rows.select(day.alias(column)).to_series()


def local_share(rows: pl.DataFrame, column: str) -> pl.Series:
    """Return the part of its day that has passed at an instant, in the department of each row."""
    share = pl.col(column).dt.hour() * float("nan")
    for zone in rows["time_zone"].unique().sort():
        here = pl.col(column).dt.convert_time_zone(zone)
        passed = (here.dt.hour().cast(pl.Float64) + here.dt.minute() / 60) / 24
        share = pl.when(pl.col("time_zone") == zone).then(passed).otherwise(share)
    return rows.select(share.alias(column)).to_series()
