"""Which orders can be compared with an open one, what they tell of it, and when an order is late.

Likeness is widened step by step until enough orders had waited longer than this one has: those are
the ones from which one learns how it may go on. Lateness has one rule, here and nowhere else.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.answers.orders.order_times import Unit, curve_of, timed
from seasonboard.stats.conditional_chance import Chance, chances
from seasonboard.stats.waiting_times import wait_quantile

ENOUGH = 20
"""So many comparable orders are enough: then likeness is widened no further."""

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
class NextGameChance:
    """The chance of one open order to be fitted by its next game, and what it rests on.

    `likeness` says what makes the orders it rests on comparable.
    """

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


def next_game_chances(
    waiting: pl.DataFrame, comparable: pl.DataFrame, *, level: float
) -> dict[str, NextGameChance]:
    """Return the chance of each waiting order to be fitted by its next game, by guard.

    Args:
        waiting: guard, department, plan, kind, scan_method, age_hours, by_hours (both from the
            request: to the end of the last day known, and to the start of the game).
        comparable: Rows of `orders/comparable`.
        level: Two-sided confidence level.
    """
    pool = timed(comparable, Unit.HOURS)
    by_guard: dict[str, NextGameChance] = {}
    for likeness, keys in STEPS:
        rest = waiting.filter(~pl.col("guard").is_in(list(by_guard)))
        if rest.is_empty():
            break
        groups = _partitioned(_alike(pool, rest, keys), keys)
        for key, rows in _partitioned(rest, keys).items():
            each_chance = _chances(rows, groups.get(key, pool.clear()), level)
            by_guard |= {
                guard: NextGameChance(chance, likeness)
                for guard, chance in zip(rows["guard"], each_chance, strict=True)
                if not keys or chance.orders >= ENOUGH
            }
    return by_guard


def late_after(comparable: pl.DataFrame, departments: Sequence[str]) -> dict[str, LateAfter]:
    """Return for each department when its orders are late.

    It is the time within which four in five of its orders were fitted, open ones counted up to
    their age; of a department with too few, that of its plan, else that of all.
    """
    own = comparable.filter(pl.col("department").is_in(list(departments)))
    groups = own.partition_by("department", as_dict=True)
    return {
        name: _late_after(groups.get((name,), comparable.clear()), name, comparable)
        for name in departments
    }


def is_late(age_days: float, after: LateAfter) -> bool:
    """Say whether an order that is open for `age_days` calendar days is late."""
    return after.days is not None and age_days > after.days


def _late_after(own: pl.DataFrame, department: str, comparable: pl.DataFrame) -> LateAfter:
    rows, likeness = own, "same department"
    if len(rows) < ENOUGH and len(own):
        plan = own["plan"][0]
        rows, likeness = comparable.filter(pl.col("plan") == plan), "same plan"
    if len(rows) < ENOUGH:
        rows, likeness = comparable, "all orders"
    if len(rows) < ENOUGH:
        why = f"fewer than {ENOUGH} orders to tell it from"
        return LateAfter(department, None, len(rows), likeness, why)
    usual = wait_quantile(curve_of(timed(rows, Unit.DAYS)), LATE_SHARE)
    why = "" if usual.value is not None else usual.why
    return LateAfter(department, usual.value, len(rows), likeness, why)


def _alike(pool: pl.DataFrame, rest: pl.DataFrame, keys: Sequence[str]) -> pl.DataFrame:
    if not keys:
        return pool
    return pool.join(rest.select(keys).unique(), on=keys, how="semi", nulls_equal=True)


def _partitioned(rows: pl.DataFrame, keys: Sequence[str]) -> dict[tuple[object, ...], pl.DataFrame]:
    return rows.partition_by(keys, as_dict=True) if keys else {(): rows}


def _chances(rows: pl.DataFrame, others: pl.DataFrame, level: float) -> tuple[Chance, ...]:
    ages = rows["age_hours"].to_numpy()
    by = np.maximum(rows["by_hours"].to_numpy(), ages)
    waits, codes = others["duration"].to_numpy(), others["code"].to_numpy()
    return chances(waits, codes, ages=ages, by=by, level=level)
