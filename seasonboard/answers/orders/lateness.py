"""When an order is late. The rule has this one home."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import polars as pl

from seasonboard.answers.orders.order_times import Unit, timed
from seasonboard.answers.orders.usual_time import usual_time

LATE_SHARE = 0.8
"""An order is late when it is open for longer than this share of its department's orders take."""


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
    """Return for each department when its orders are late: the usual time of four in five.

    A place whose orders have stopped moving has late ones: then those fitted alone tell.

    Args:
        histories: Rows of `orders/histories`.
        departments: Keys; one without an order takes the rule of all.
    """
    rows = timed(histories.filter(pl.col("ending").is_not_null()), Unit.DAYS)
    plans = dict(histories.select("department", "plan").iter_rows())
    found = {}
    for name in departments:
        usual = usual_time(rows, {"department": name, "plan": plans.get(name)}, LATE_SHARE)
        found[name] = LateAfter(name, usual.time, usual.orders, usual.likeness, usual.why)
    return found


def is_late(
    age_days: float, after: LateAfter, promised_on: date | None, through: date
) -> bool | None:
    """Say whether an order that is open after the day `through` is late; None: not to be told.

    Where a day was promised, that day alone says it.
    """
    if promised_on is not None:
        return through >= promised_on
    return None if after.days is None else age_days > after.days
