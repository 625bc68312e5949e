"""The turnaround of a set of orders: from order rows to the figures of each group."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

import polars as pl

from seasonboard.answers.orders.order_groups import FEWEST, OrdersBy
from seasonboard.answers.orders.order_times import MAKING, between, curve_of
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turnaround.order_durations import TimedOrders, timed_orders
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion, wilson
from seasonboard.stats.waiting_times import (
    AgeShare,
    FinishedOnly,
    WaitCurve,
    finished_only,
    shares_by_age,
    wait_curve,
    wait_quantile,
)

ALL = "all orders"
NOT_RECORDED = "not recorded"
TOO_FEW = f"fewer than {FEWEST} orders"


@dataclass(frozen=True, slots=True)
class Ready:
    """Orders fitted before the team's first game that starts after the request.

    `share.trials` are the orders of which it is decided; the rest is counted apart: `undecided`
    (not fitted, that game is still to come), `cancelled` (before that game), `no_game` (none of
    that season is recorded after the request).
    """

    share: Proportion
    undecided: int
    cancelled: int
    no_game: int


@dataclass(frozen=True, slots=True)
class StageTime:
    """Time from one stage to the next one that is recorded, whichever that is.

    `orders` reached the stage, `finished` went on to a later one, `waiting` are open and in it now,
    `cancelled` were called off in it; `median` counts those waiting up to now. `next_stages` are
    the stages gone on to, the most frequent first.
    """

    stage: str
    next_stages: tuple[str, ...]
    orders: int
    finished: int
    waiting: int
    cancelled: int
    median: Estimate


@dataclass(frozen=True, slots=True)
class RequestTimes:
    """Guards that one athlete began on one day, as one request: done when its last guard is.

    `median` counts open requests up to their age, `complete_only` is of complete ones alone.
    """

    requests: int
    complete: int
    open: int
    cancelled: int
    median: Estimate
    complete_only: FinishedOnly


@dataclass(frozen=True, slots=True)
class TurnaroundGroup:
    """The turnaround of one group, in the unit of the answer.

    Its name is how it is shown, its key what it is called.
    """

    key: str
    name: str
    unit: str
    curve: WaitCurve
    shares: tuple[AgeShare, ...]
    median: Estimate
    p80: Estimate
    p95: Estimate
    finished_only: FinishedOnly
    ready: Ready
    stages: tuple[StageTime, ...]
    together: RequestTimes

    @property
    def orders(self) -> int:
        """Return how many orders were timed."""
        return self.curve.orders

    @property
    def is_small(self) -> bool:
        """Say whether it is too small to be ranked, or to tell what 19 in 20 take."""
        return self.orders < FEWEST


def turnaround_groups(
    orders: pl.DataFrame, options: TurnaroundOptions, *, level: float = 0.95
) -> tuple[TurnaroundGroup, tuple[TurnaroundGroup, ...]]:
    """Return the figures of all orders together, and of each group by name.

    What is not recorded comes last. When the orders are not grouped there are no groups.

    Args:
        orders: Rows of `orders/orders`.
        options: Stages, unit, and what to group by.
        level: Two-sided confidence level.
    """
    key = (options.by or OrdersBy.PLAN).value.replace("-", "_")
    name = "department_name" if options.by is OrdersBy.DEPARTMENT else key
    named = orders.with_columns(
        group_key=pl.col(key).fill_null(""), group_name=pl.col(name).fill_null(NOT_RECORDED)
    )
    every = timed_orders(named, options)
    unit = str(options.unit)
    whole = _group(every, "", ALL, unit, level)
    if options.by is None:
        return whole, ()
    names = named.select("group_key", "group_name").unique().iter_rows()
    ranked = sorted(names, key=lambda pair: (pair[0] == "", pair[1], pair[0]))
    mine = every.by_group()
    none = TimedOrders(every.orders.clear(), every.fates.clear(), every.steps.clear())
    return whole, tuple(_group(mine.get(key, none), key, name, unit, level) for key, name in ranked)


def set_aside(orders: pl.DataFrame, options: TurnaroundOptions) -> list[tuple[str, int]]:
    """Return why orders could not be timed between the two stages, and how many."""
    untimed = between(orders, options.start, options.end, options.unit).drop_nulls("aside")
    return list(untimed.group_by("aside").len().sort("aside").iter_rows())


def _group(timed: TimedOrders, key: str, name: str, unit: str, level: float) -> TurnaroundGroup:
    waits, ended = timed.orders["duration"].to_numpy(), timed.orders["code"].to_numpy()
    curve = wait_curve(waits, ended, level=level)
    return TurnaroundGroup(
        key=key,
        name=name,
        unit=unit,
        curve=curve,
        shares=shares_by_age(waits, ended, level=level),
        median=wait_quantile(curve),
        p80=wait_quantile(curve, 0.8),
        p95=wait_quantile(curve, 0.95) if curve.orders >= FEWEST else Estimate(None, why=TOO_FEW),
        finished_only=finished_only(waits, ended),
        ready=_ready(Counter(timed.fates["fate"].to_list()), level),
        stages=_stage_times(timed.steps, level),
        together=_request_times(timed.orders, level),
    )


def _ready(fates: Mapping[str, int], level: float) -> Ready:
    ready, missed = fates.get("ready", 0), fates.get("not ready", 0)
    share = wilson(ready, ready + missed, level=level)
    return Ready(share, *(fates.get(fate, 0) for fate in ("undecided", "cancelled", "no game")))


def _stage_times(steps: pl.DataFrame, level: float) -> tuple[StageTime, ...]:
    parts = steps.partition_by("at_stage", as_dict=True)
    stages = []
    for stage in map(str, MAKING):
        if (stage,) not in parts:
            continue
        part = parts[stage,]
        curve = curve_of(part, level)
        often = Counter(part["next_stage"].drop_nulls().to_list())
        then = tuple(sorted(often, key=lambda after: (-often[after], after)))
        counts = (curve.orders, curve.finished, curve.open, curve.cancelled)
        stages.append(StageTime(stage, then, *counts, wait_quantile(curve)))
    return tuple(stages)


def _request_times(orders: pl.DataFrame, level: float) -> RequestTimes:
    """Put guards of one request together; one that is cancelled is no longer waited for.

    What is open decides, then what is finished, then what is cancelled: so `Ending` is numbered.
    """
    decides = pl.col("code") == pl.col("code").min().over("request")
    requests = (
        orders.filter(decides)
        .group_by("request")
        .agg(pl.col("code").first(), pl.col("duration").max())
        .sort("request")
    )
    curve = curve_of(requests, level)
    complete = finished_only(requests["duration"].to_numpy(), requests["code"].to_numpy())
    counts = (curve.orders, curve.finished, curve.open, curve.cancelled)
    return RequestTimes(*counts, wait_quantile(curve), complete)
