"""Which orders are like an open one, what they tell about it, and when an order is late.

Likeness is widened step by step until enough orders had waited longer than this one has: those are
the ones from which one learns how it may go on. Lateness has one rule, here and nowhere else.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.answers.orders.order_times import Unit, times
from seasonboard.scope import Scope
from seasonboard.stats.conditional_chance import Chance, chances
from seasonboard.stats.waiting_times import wait_curve, wait_quantile

ENOUGH = 20
"""So many like orders are enough: then likeness is widened no further."""

LATE_SHARE = 0.8
"""An order is late when it is open for longer than this share of its department's orders take."""

STEPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("same department, kind and scan method", ("department", "kind", "scan_method")),
    ("same department and kind", ("department", "kind")),
    ("same department", ("department",)),
    ("same plan", ("plan",)),
    ("all orders", ()),
)
"""Likeness in words and the columns that are equal, from near to far."""


@dataclass(frozen=True, slots=True)
class Likely:
    """The chance of one open order, and the likeness of the orders that it rests on."""

    chance: Chance
    likeness: str


@dataclass(frozen=True, slots=True)
class LateAfter:
    """Calendar days after which an order of one department is late; None with `why`."""

    department: str
    days: float | None
    orders: int
    likeness: str
    why: str = ""


def like_params(scope: Scope) -> dict[str, object]:
    """Return the parameters of the question for like orders: of all departments."""
    return {"until": scope.params()["until"]}


def likely(waiting: pl.DataFrame, like: pl.DataFrame, *, level: float) -> dict[str, Likely]:
    """Return the chance of each waiting order to be fitted by its next game, by guard.

    Args:
        waiting: guard, department, plan, kind, scan_method, age_hours, by_hours (both from the
            request: to the end of the last day known, and to the start of the game).
        like: Rows of `orders/like`.
        level: Two-sided confidence level.
    """
    pool = _with_hours(like)
    found: dict[str, Likely] = {}
    for name, keys in STEPS:
        rest = waiting.filter(~pl.col("guard").is_in(list(found)))
        if rest.is_empty():
            break
        parts, groups = _parted(rest, keys), _parted(_alike(pool, rest, keys), keys)
        for key, rows in parts.items():
            told = _chances(rows, groups.get(key, pool.clear()), level)
            found |= {
                guard: Likely(chance, name)
                for guard, chance in zip(rows["guard"], told, strict=True)
                if not keys or chance.orders >= ENOUGH
            }
    return found


def late_after(like: pl.DataFrame, departments: Sequence[str]) -> dict[str, LateAfter]:
    """Return for each department when its orders are late.

    It is the time within which four in five of its orders were fitted, open ones counted up to
    their age; of a department with too few, that of its plan, else that of all.
    """
    own = like.filter(pl.col("department").is_in(list(departments)))
    groups = own.partition_by("department", as_dict=True)
    return {
        name: _late_after(groups.get((name,), like.clear()), name, like) for name in departments
    }


def is_late(age_days: float, after: LateAfter) -> bool:
    """Say whether an order that is open for `age_days` calendar days is late."""
    return after.days is not None and age_days > after.days


def _late_after(own: pl.DataFrame, department: str, like: pl.DataFrame) -> LateAfter:
    rows, name = own, "same department"
    if len(rows) < ENOUGH and len(own):
        plan = own["plan"][0]
        rows, name = like.filter(pl.col("plan") == plan), "same plan"
    if len(rows) < ENOUGH:
        rows, name = like, "all orders"
    if len(rows) < ENOUGH:
        why = f"fewer than {ENOUGH} orders to tell it from"
        return LateAfter(department, None, len(rows), name, why)
    lasted = times(rows, Unit.DAYS)
    found = wait_quantile(wait_curve(lasted.durations, lasted.endings), LATE_SHARE)
    return LateAfter(
        department, found.value, len(rows), name, "" if found.value is not None else found.why
    )


def _alike(pool: pl.DataFrame, rest: pl.DataFrame, keys: Sequence[str]) -> pl.DataFrame:
    if not keys:
        return pool
    return pool.join(rest.select(keys).unique(), on=keys, how="semi", nulls_equal=True)


def _parted(rows: pl.DataFrame, keys: Sequence[str]) -> dict[tuple[object, ...], pl.DataFrame]:
    return rows.partition_by(keys, as_dict=True) if keys else {(): rows}


def _with_hours(like: pl.DataFrame) -> pl.DataFrame:
    lasted = times(like, Unit.HOURS)
    return like.with_columns(
        hours=pl.Series(lasted.durations, dtype=pl.Float64),
        code=pl.Series(lasted.endings, dtype=pl.Int64),
    )


def _chances(rows: pl.DataFrame, known: pl.DataFrame, level: float) -> tuple[Chance, ...]:
    ages = rows["age_hours"].to_numpy()
    by = np.maximum(rows["by_hours"].to_numpy(), ages)
    return chances(
        known["hours"].to_numpy(), known["code"].to_numpy(), ages=ages, by=by, level=level
    )
