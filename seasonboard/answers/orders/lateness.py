"""When an order is late. The rule has this one home."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.answers.orders.order_times import Unit, curve_of, timed
from seasonboard.stats.waiting_times import wait_quantile

ENOUGH = 20
"""So many orders are enough to tell lateness from."""

LATE_SHARE = 0.8
"""An order is late when it is open for longer than this share of its department's orders take."""

LEVELS = (("same department", "department"), ("same plan", "plan"), ("all orders", None))
FITTED_ONLY = "those fitted, as too many are still open"


@dataclass(frozen=True, slots=True)
class LateAfter:
    """Calendar days after which an order of one department is late; None with `why`.

    `likeness` names the orders that the days rest on.
    """

    department: str
    days: float | None
    orders: int
    likeness: str
    why: str = ""


def late_after(histories: pl.DataFrame, departments: Sequence[str]) -> dict[str, LateAfter]:
    """Return for each department when its orders are late.

    It is the time within which four in five of its orders were fitted, open ones counted up to
    their age; where its orders are too few or too many of them are open, that of its plan, then
    that of all orders. Where too many of all are open, it is that of the fitted alone, again of the
    department, the plan or all: a place whose orders have stopped moving has late ones.

    Args:
        histories: Rows of `orders/histories`.
        departments: Keys; one without an order takes the rule of all.
    """
    rows = timed(histories.filter(pl.col("ending").is_not_null()), Unit.DAYS)
    fitted = rows.filter(pl.col("ending") == "finished")
    plans = dict(histories.select("department", "plan").iter_rows())
    return {name: _late_after(name, plans.get(name), rows, fitted) for name in departments}


def is_late(age_days: float, after: LateAfter) -> bool:
    """Say whether an order that is open for `age_days` calendar days is late."""
    return after.days is not None and age_days > after.days


def _late_after(name: str, plan: str | None, rows: pl.DataFrame, fitted: pl.DataFrame) -> LateAfter:
    own: Mapping[str, str | None] = {"department": name, "plan": plan}
    for pool, note in ((rows, ""), (fitted, f": {FITTED_ONLY}")):
        for likeness, key in LEVELS:
            if key is not None and own[key] is None:
                continue
            like = pool if key is None else pool.filter(pl.col(key) == own[key])
            usual = wait_quantile(curve_of(like), LATE_SHARE) if len(like) >= ENOUGH else None
            if usual is not None and usual.value is not None:
                return LateAfter(name, usual.value, len(like), f"{likeness}{note}")
    why = f"fewer than {ENOUGH} fitted orders to tell it from"
    return LateAfter(name, None, len(rows), LEVELS[-1][0], why)
