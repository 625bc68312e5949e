"""What past orders usually took: the levels that stand for each other have their one home here."""

from collections.abc import Mapping
from dataclasses import dataclass

import polars as pl

from seasonboard.answers.orders.order_times import curve_of
from seasonboard.stats.waiting_times import wait_quantile

ENOUGH = 20
"""So many orders are enough to tell a usual time from."""

LEVELS = (("same department", "department"), ("same plan", "plan"), ("all orders", None))
FITTED_ONLY = "those fitted, as too many are still open"
TOO_FEW = f"fewer than {ENOUGH} fitted orders to tell it from"


@dataclass(frozen=True, slots=True)
class UsualTime:
    """Time within which a share of past orders went from one stage to another; None with `why`.

    `likeness` names the orders it rests on, `orders` says how many.
    """

    time: float | None
    orders: int
    likeness: str
    why: str = ""


def usual_time(rows: pl.DataFrame, own: Mapping[str, str | None], share: float) -> UsualTime:
    """Return the time within which a share of orders like these came to the end of a stretch.

    Open orders count up to their age. Where a department's are too few or too many of them are
    open, it is that of its plan, then that of all orders. Where too many of all are open, it is
    that of the finished alone, again of the department, the plan or all.

    Args:
        rows: Orders as `timed` gives them; the unit of the time is theirs.
        own: Key of the department and word of its plan; None: not known.
        share: 0 to 1.
    """
    for is_finished in (False, True):
        pool = rows.filter(pl.col("ending") == "finished") if is_finished else rows
        for likeness, key in LEVELS:
            if key is not None and own[key] is None:
                continue
            like = pool if key is None else pool.filter(pl.col(key) == own[key])
            found = wait_quantile(curve_of(like), share).value if len(like) >= ENOUGH else None
            if found is not None:
                note = f": {FITTED_ONLY}" if is_finished else ""
                return UsualTime(found, len(like), f"{likeness}{note}")
    return UsualTime(None, len(rows), LEVELS[-1][0], TOO_FEW)
