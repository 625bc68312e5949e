"""The turnaround of a set of orders: from order rows to the figures of each group."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.orders.order_times import MAKING, Times, between
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turnaround.order_durations import Mask, TimedOrders, timed_orders
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion, wilson
from seasonboard.stats.waiting_times import (
    AgeShare,
    Ending,
    FinishedOnly,
    WaitCurve,
    finished_only,
    shares_by_age,
    wait_curve,
    wait_quantile,
)

ALL = "all orders"
NOT_RECORDED = "not recorded"
_COLUMNS = {
    OrdersBy.DEPARTMENT: ("department", "department_name"),
    OrdersBy.PLAN: ("plan", "plan"),
    OrdersBy.KIND: ("kind", "kind"),
    OrdersBy.SCAN_METHOD: ("scan_method", "scan_method"),
    OrdersBy.PRINTER: ("printer", "printer"),
}


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
    key, name = _COLUMNS[options.by] if options.by else ("plan", "plan")
    named = orders.with_columns(
        group_key=pl.col(key).fill_null(""), group_name=pl.col(name).fill_null(NOT_RECORDED)
    )
    timed = timed_orders(named, options)
    whole = _group(timed, None, ALL, level=level)
    if options.by is None:
        return whole, ()
    names = named.select("group_key", "group_name").unique().iter_rows()
    ranked = sorted(names, key=lambda pair: (pair[0] == "", pair[1], pair[0]))
    return whole, tuple(_group(timed, key, name, level=level) for key, name in ranked)


def set_aside(orders: pl.DataFrame, options: TurnaroundOptions) -> list[tuple[str, int]]:
    """Return why orders could not be timed between the two stages, and how many."""
    untimed = between(orders, options.start, options.end).drop_nulls("aside")
    return list(untimed.group_by("aside").len().sort("aside").iter_rows())


def _group(timed: TimedOrders, key: str | None, name: str, *, level: float) -> TurnaroundGroup:
    here = _mask(timed.group, key)
    waits, ended = timed.times.durations[here], timed.times.endings[here]
    curve = wait_curve(waits, ended, level=level)
    fates = Counter(timed.fates[_mask(timed.fate_group, key)].tolist())
    return TurnaroundGroup(
        key=key or "",
        name=name,
        unit=str(timed.unit),
        curve=curve,
        shares=shares_by_age(waits, ended, level=level),
        median=wait_quantile(curve),
        p80=wait_quantile(curve, 0.8),
        p95=wait_quantile(curve, 0.95),
        finished_only=finished_only(waits, ended),
        ready=_ready(fates, level),
        stages=_stage_times(timed, key, level),
        together=_request_times(timed.request[here], Times(waits, ended), level),
    )


def _mask(groups: "np.ndarray[tuple[int], np.dtype[np.str_]]", key: str | None) -> Mask:
    return np.ones(len(groups), dtype=bool) if key is None else np.asarray(groups == key)


def _ready(fates: Mapping[str, int], level: float) -> Ready:
    ready, missed = fates.get("ready", 0), fates.get("not ready", 0)
    return Ready(
        wilson(ready, ready + missed, level=level),
        undecided=fates.get("undecided", 0),
        cancelled=fates.get("cancelled", 0),
        no_game=fates.get("no game", 0),
    )


def _stage_times(timed: TimedOrders, key: str | None, level: float) -> tuple[StageTime, ...]:
    steps, mine = timed.steps, _mask(timed.steps.group, key)
    stages = []
    for stage in MAKING[:-2]:
        here = mine & (steps.stage == str(stage))
        if not here.any():
            continue
        curve = wait_curve(steps.times.durations[here], steps.times.endings[here], level=level)
        often = Counter(after for after in steps.next_stage[here].tolist() if after)
        stages.append(
            StageTime(
                str(stage),
                tuple(after for after, _ in sorted(often.items(), key=lambda p: (-p[1], p[0]))),
                curve.orders,
                curve.finished,
                curve.open,
                curve.cancelled,
                wait_quantile(curve),
            )
        )
    return tuple(stages)


def _request_times(
    request: "np.ndarray[tuple[int], np.dtype[np.int64]]", lasted: Times, level: float
) -> RequestTimes:
    """Put guards of one request together; one that is cancelled is no longer waited for."""
    requests, where = np.unique(request, return_inverse=True)
    has = {
        ending: np.bincount(where[lasted.endings == ending], minlength=len(requests)) > 0
        for ending in Ending
    }
    fate = np.where(
        has[Ending.OPEN],
        Ending.OPEN,
        np.where(has[Ending.FINISHED], Ending.FINISHED, Ending.CANCELLED),
    )
    waits = np.zeros(len(requests))
    decides = lasted.endings == fate[where]
    np.maximum.at(waits, where[decides], lasted.durations[decides])
    curve = wait_curve(waits, fate, level=level)
    return RequestTimes(
        curve.orders,
        curve.finished,
        curve.open,
        curve.cancelled,
        wait_quantile(curve),
        finished_only(waits, fate),
    )
