"""The turnaround of a set of orders: from order rows to the figures of each group.

`department_turnaround` gives every department's from one frame, for whoever shows them side by
side.
"""

from collections import Counter
from collections.abc import Mapping

import numpy as np
import polars as pl

from seasonboard.answers.orders.order_times import MAKING, Times, between
from seasonboard.answers.turnaround.order_durations import Mask, Prepared, prepared
from seasonboard.answers.turnaround.parts import (
    By,
    Ready,
    StageTime,
    Together,
    TurnaroundGroup,
    TurnaroundOptions,
)
from seasonboard.stats.proportions import wilson
from seasonboard.stats.waiting_times import (
    Ending,
    finished_only,
    shares_by_age,
    wait_curve,
    wait_quantile,
)

ALL = "all orders"
NOT_RECORDED = "not recorded"
_COLUMNS = {
    By.DEPARTMENT: ("department", "department_name"),
    By.PLAN: ("plan", "plan"),
    By.KIND: ("kind", "kind"),
    By.SCAN_METHOD: ("scan_method", "scan_method"),
    By.PRINTER: ("printer", "printer"),
}
_USUAL = TurnaroundOptions()


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
    known = orders.with_columns(
        group_key=pl.col(key).fill_null(""), group_name=pl.col(name).fill_null(NOT_RECORDED)
    )
    ready = prepared(known, options)
    whole = _group(ready, None, ALL, level=level)
    if options.by is None:
        return whole, ()
    names = known.select("group_key", "group_name").unique().iter_rows()
    ranked = sorted(names, key=lambda pair: (pair[0] == "", pair[1], pair[0]))
    return whole, tuple(_group(ready, key, name, level=level) for key, name in ranked)


def department_turnaround(
    orders: pl.DataFrame, options: TurnaroundOptions = _USUAL, *, level: float = 0.95
) -> Mapping[str, TurnaroundGroup]:
    """Return the figures of each department by its key, from the rows of `orders/orders`."""
    by = TurnaroundOptions(
        options.start, options.end, options.unit, By.DEPARTMENT, options.holidays
    )
    return {group.key: group for group in turnaround_groups(orders, by, level=level)[1]}


def set_aside(orders: pl.DataFrame, options: TurnaroundOptions) -> list[tuple[str, int]]:
    """Return why orders could not be timed between the two stages, and how many."""
    told = between(orders, options.start, options.end).drop_nulls("aside")
    return list(told.group_by("aside").len().sort("aside").iter_rows())


def _group(ready: Prepared, key: str | None, name: str, *, level: float) -> TurnaroundGroup:
    here = _mask(ready.group, key)
    waits, ended = ready.times.durations[here], ready.times.endings[here]
    curve = wait_curve(waits, ended, level=level)
    fates = Counter(ready.fates[_mask(ready.fate_group, key)].tolist())
    return TurnaroundGroup(
        key=key or "",
        name=name,
        curve=curve,
        shares=shares_by_age(waits, ended, level=level),
        median=wait_quantile(curve),
        p80=wait_quantile(curve, 0.8),
        p95=wait_quantile(curve, 0.95),
        finished_only=finished_only(waits, ended),
        ready=_ready(fates, level),
        stages=_stage_times(ready, key, level),
        together=_together(ready.request[here], Times(waits, ended), level),
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


def _stage_times(ready: Prepared, key: str | None, level: float) -> tuple[StageTime, ...]:
    steps, mine = ready.steps, _mask(ready.steps.group, key)
    found = []
    for stage in MAKING[:-2]:
        here = mine & (steps.stage == str(stage))
        if not here.any():
            continue
        curve = wait_curve(steps.times.durations[here], steps.times.endings[here], level=level)
        often = Counter(name for name in steps.next_stage[here].tolist() if name)
        found.append(
            StageTime(
                str(stage),
                tuple(name for name, _ in sorted(often.items(), key=lambda p: (-p[1], p[0]))),
                curve.orders,
                curve.finished,
                curve.open,
                curve.cancelled,
                wait_quantile(curve),
            )
        )
    return tuple(found)


def _together(
    request: "np.ndarray[tuple[int], np.dtype[np.int64]]", lasted: Times, level: float
) -> Together:
    """Put guards of one request together; one that is cancelled is no longer waited for."""
    each, where = np.unique(request, return_inverse=True)
    has = {
        ending: np.bincount(where[lasted.endings == ending], minlength=len(each)) > 0
        for ending in Ending
    }
    fate = np.where(
        has[Ending.OPEN],
        Ending.OPEN,
        np.where(has[Ending.FINISHED], Ending.FINISHED, Ending.CANCELLED),
    )
    waits = np.zeros(len(each))
    decides = lasted.endings == fate[where]
    np.maximum.at(waits, where[decides], lasted.durations[decides])
    curve = wait_curve(waits, fate, level=level)
    return Together(
        curve.orders,
        curve.finished,
        curve.open,
        curve.cancelled,
        wait_quantile(curve),
        finished_only(waits, fate).median,
    )
