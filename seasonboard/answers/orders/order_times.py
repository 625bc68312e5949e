"""Orders as columns: read from the store, on local days, with the time between two stages.

One row is one guard of which a stage is known. Every answer about orders starts here.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

import numpy as np
import numpy.typing as npt
import polars as pl

from seasonboard.errors import ScopeError
from seasonboard.scope import Scope
from seasonboard.stats.waiting_times import Ending
from seasonboard.stats.working_time import working_days
from seasonboard.terms import Stage, nearest

ORDER_PARAMS = (
    "seasons",
    "until",
    "departments",
    "teams",
    "sports",
    "sexes",
    "position_groups",
    "kinds",
    "areas",
    "sides",
)
"""The parts of the scope that orders depend on; guards of both purposes count."""

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


@dataclass(frozen=True, slots=True)
class Times:
    """Durations in one unit with what became of each (`Ending`), row by row."""

    durations: npt.NDArray[np.float64]
    endings: npt.NDArray[np.int64]


def order_params(scope: Scope) -> dict[str, object]:
    """Return the parameters of the questions about orders."""
    params = scope.params()
    return {name: params[name] for name in ORDER_PARAMS}


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


def between(orders: pl.DataFrame, start: Stage, end: Stage) -> pl.DataFrame:
    """Return the orders with what became of them between two stages.

    Adds `from_at`, `to_at` (the end of the stretch: reached, called off, or the end of the last
    day known), `ending` (finished, open or cancelled), and `aside`: why an order cannot be timed
    (then it has no ending).

    An order that was never stamped with `end` but with a later stage went past it at a time that
    is not known; a time that runs backwards is an error of entry. Neither is guessed at.
    """
    later = [f"{stage}_at" for stage in MAKING[MAKING.index(end) + 1 :]]
    passed = (
        pl.any_horizontal(pl.col(name).is_not_null() for name in later)
        if later
        else pl.lit(value=False)
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
    ending = (
        pl.when(reached.is_not_null())
        .then(pl.lit("finished"))
        .when(off.is_not_null())
        .then(pl.lit("cancelled"))
        .otherwise(pl.lit("open"))
    )
    return orders.with_columns(
        from_at=begun,
        to_at=pl.coalesce(reached, off, "as_of"),
        aside=aside,
        ending=pl.when(aside.is_null()).then(ending),
    )


def times(timed: pl.DataFrame, unit: Unit, holidays: Sequence[date] = ()) -> Times:
    """Return the time from `from_at` to `to_at` of orders that can be timed, with their endings.

    What is open lasts up to the last day known: that day, in days; its end, in hours.
    """
    endings = timed["ending"].replace_strict(_ENDINGS, return_dtype=pl.Int64).to_numpy()
    if unit is Unit.HOURS:
        hours = (timed["to_at"] - timed["from_at"]).dt.total_microseconds() / 3_600_000_000
        return Times(hours.to_numpy(), endings)
    first, last = local_days(timed, "from_at"), local_days(timed, "to_at", is_end=True)
    if unit is Unit.DAYS:
        days = (last - first).dt.total_days().cast(pl.Float64)
        return Times(days.to_numpy(), endings)
    worked = working_days(first.to_numpy(), last.to_numpy(), holidays=holidays)
    return Times(worked.astype(np.float64), endings)


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
