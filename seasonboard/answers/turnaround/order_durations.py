"""Orders timed once for every figure of their turnaround: durations and fates as columns."""

from collections.abc import Mapping
from dataclasses import dataclass

import polars as pl

from seasonboard.answers.orders.order_times import MAKING, Unit, between, ending, local_days, timed
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.terms import Stage


@dataclass(frozen=True, slots=True)
class TimedOrders:
    """The orders of an answer or of one group, timed.

    `orders` and `steps` have a `duration` and its `code`. `request` of an order numbers athlete and
    day. A step is a stay in a stage, `at_stage`, with what came next, if anything. `fate` says of
    each requested order whether it was ready for the next game.
    """

    orders: pl.DataFrame
    fates: pl.DataFrame
    steps: pl.DataFrame

    def by_group(self) -> Mapping[str, "TimedOrders"]:
        """Return those of each group by its key."""
        frames = (self.orders, self.fates, self.steps)
        parts = [frame.partition_by("group_key", as_dict=True) for frame in frames]
        keys = {key for part in parts for key in part}
        pairs = list(zip(parts, frames, strict=True))
        return {
            key[0]: TimedOrders(*(part.get(key, frame.clear()) for part, frame in pairs))
            for key in keys
        }


def timed_orders(orders: pl.DataFrame, options: TurnaroundOptions) -> TimedOrders:
    """Return orders with their times, for the figures of groups.

    Args:
        orders: Rows of `orders/orders` with a column `group_key`.
        options: Stages and unit.
    """
    sound = between(orders, options.start, options.end, options.unit).filter(
        pl.col("aside").is_null()
    )
    request = pl.struct("athlete", day=local_days(sound, "from_at")).rank("dense")
    told = orders.filter(~pl.col("is_by_day")) if options.unit is Unit.HOURS else orders
    steps = next_stages(told).filter(~pl.col("is_backwards"))
    return TimedOrders(
        timed(sound.with_columns(request=request), options.unit, options.holidays),
        _fates(orders),
        timed(steps, options.unit, options.holidays),
    )


def next_stages(orders: pl.DataFrame) -> pl.DataFrame:
    """Return one row per order and stage of its making reached: until when, and what came next.

    Columns group_key, time_zone, at_stage, next_stage, from_at, to_at, ending; `is_backwards` where
    the next one is stamped before it, which is set aside.
    """
    of_order = ["guard", "group_key", "time_zone", "retired_at", "cancelled_at", "as_of"]
    stamps = [f"{stage}_at" for stage in MAKING[:-1]]
    following = pl.col("following")
    return (
        orders.unpivot(stamps, index=of_order, variable_name="at_stage", value_name="from_at")
        .drop_nulls("from_at")
        .with_columns(pl.col("at_stage").str.strip_suffix("_at"))
        .with_columns(
            following=pl.col("from_at").shift(-1).over("guard"),
            next_stage=pl.col("at_stage").shift(-1).over("guard"),
        )
        .filter(
            pl.col("at_stage") != str(Stage.FITTED),
            pl.col("retired_at").is_null() | following.is_not_null(),
        )
        .with_columns(
            to_at=pl.coalesce(following, "cancelled_at", "as_of"), ending=ending(following)
        )
        .with_columns(is_backwards=pl.col("to_at") < pl.col("from_at"))
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
