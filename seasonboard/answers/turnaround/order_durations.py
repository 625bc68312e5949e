"""Orders timed once for every figure of their turnaround: durations and fates as columns."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import polars as pl

from seasonboard.answers.orders.order_times import MAKING, Times, Unit, between, local_days, times
from seasonboard.answers.turnaround.options import TurnaroundOptions

Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class StageSteps:
    """Every stay in a stage: in which, what came next (empty: nothing yet), and how long."""

    group: npt.NDArray[np.str_]
    stage: npt.NDArray[np.str_]
    next_stage: npt.NDArray[np.str_]
    times: Times


@dataclass(frozen=True, slots=True)
class TimedOrders:
    """All orders of an answer, timed, to be looked at group by group.

    `group` and `request` go with `times`, row by row; `request` numbers athlete and day. `fates`
    say of each requested order whether it was ready for the next game, with their own groups.
    """

    group: npt.NDArray[np.str_]
    request: npt.NDArray[np.int64]
    times: Times
    fate_group: npt.NDArray[np.str_]
    fates: npt.NDArray[np.str_]
    steps: StageSteps
    unit: Unit


def timed_orders(orders: pl.DataFrame, options: TurnaroundOptions) -> TimedOrders:
    """Return orders with their times, for the figures of groups.

    Args:
        orders: Rows of `orders/orders` with a column `group_key`.
        options: Stages and unit.
    """
    timed = between(orders, options.start, options.end).filter(pl.col("aside").is_null())
    request = timed.select(pl.struct("athlete", day=local_days(timed, "from_at")).rank("dense"))
    fates = _fates(orders)
    steps = next_stages(orders).filter(~pl.col("is_backwards"))
    return TimedOrders(
        _texts(timed["group_key"]),
        request.to_series().cast(pl.Int64).to_numpy(),
        times(timed, options.unit, options.holidays),
        _texts(fates["group_key"]),
        _texts(fates["fate"]),
        StageSteps(
            _texts(steps["group_key"]),
            _texts(steps["at_stage"]),
            _texts(steps["next_stage"]),
            times(steps, options.unit, options.holidays),
        ),
        options.unit,
    )


def next_stages(orders: pl.DataFrame) -> pl.DataFrame:
    """Return one row per order and stage of its making reached: until when, and what came next.

    Columns group_key, time_zone, at_stage, next_stage, from_at, to_at, ending; `is_backwards` where
    the next one is stamped before it, which is set aside.
    """
    pieces = []
    for number, stage in enumerate(MAKING[:-2]):
        later = MAKING[number + 1 : -1]
        here, off = pl.col(f"{stage}_at"), pl.col("cancelled_at")
        following = pl.coalesce(f"{after}_at" for after in later)
        named = pl.coalesce(
            pl.when(pl.col(f"{after}_at").is_not_null()).then(pl.lit(str(after))) for after in later
        )
        ending = (
            pl.when(following.is_not_null())
            .then(pl.lit("finished"))
            .when(off.is_not_null())
            .then(pl.lit("cancelled"))
            .otherwise(pl.lit("open"))
        )
        is_known = pl.col("retired_at").is_null() | following.is_not_null()
        pieces.append(
            orders.lazy()
            .filter(here.is_not_null() & is_known)
            .select(
                "group_key",
                "time_zone",
                at_stage=pl.lit(str(stage)),
                next_stage=named,
                from_at=here,
                to_at=pl.coalesce(following, off, "as_of"),
                ending=ending,
            )
        )
    return (
        pl.concat(pieces).with_columns(is_backwards=pl.col("to_at") < pl.col("from_at")).collect()
    )


def _fates(orders: pl.DataFrame) -> pl.DataFrame:
    fitted, game = pl.col("fitted_at"), pl.col("first_game_at")
    is_sound = (fitted >= pl.col("requested_at")).fill_null(value=True)
    return orders.filter(pl.col("requested_at").is_not_null() & is_sound).select(
        "group_key",
        fate=pl.when(game.is_null())
        .then(pl.lit("no game"))
        .when(fitted < game)
        .then(pl.lit("ready"))
        .when(fitted.is_null() & (pl.col("cancelled_at") < game))
        .then(pl.lit("cancelled"))
        .when(fitted.is_null() & (game >= pl.col("as_of")))
        .then(pl.lit("undecided"))
        .otherwise(pl.lit("not ready")),
    )


def _texts(column: pl.Series) -> npt.NDArray[np.str_]:
    return np.asarray(column.fill_null("").to_list(), dtype=np.str_)
