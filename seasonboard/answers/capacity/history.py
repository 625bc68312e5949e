"""Times that past orders took between two stages."""

from functools import cached_property

import polars as pl

from seasonboard.answers.orders.order_times import Unit, between, timed
from seasonboard.answers.orders.usual_time import UsualTime, usual_time
from seasonboard.terms import Stage

SAFE = 0.8
"""The share of past orders, or the chance, that is enough to count on."""
USUAL = 0.5


class History:
    """Past orders of every department; each time is worked out once.

    Where its orders are too few, or too many of them open, those of the plan stand for a
    department, then all.
    """

    def __init__(self, histories: pl.DataFrame) -> None:
        """Take rows of `orders/histories`."""
        self._orders = histories
        self._by_department = histories.partition_by("department", as_dict=True)
        self._timed: dict[tuple[Stage, Stage], pl.DataFrame] = {}
        self._usual: dict[tuple[str, Stage, Stage, float], UsualTime] = {}

    @cached_property
    def print_hours(self) -> dict[str, float]:
        """Return the median hours of a print by kind; of kinds never timed under no name."""
        hours = self._orders.filter(pl.col("print_hours") > 0)
        by_kind = dict(hours.group_by("kind").agg(pl.median("print_hours")).iter_rows())
        whole = hours["print_hours"].median()
        return by_kind | ({"": whole} if isinstance(whole, float) else {})

    @cached_property
    def untimed(self) -> int:
        """Return the orders whose way from asked to fitted cannot be timed."""
        rows = between(self._orders, Stage.REQUESTED, Stage.FITTED)
        return int(rows["aside"].is_not_null().sum())

    def of(self, department: str) -> pl.DataFrame:
        """Return the orders of one department."""
        return self._by_department.get((department,), self._orders.clear())

    def usual(self, department: str, start: Stage, end: Stage, share: float = SAFE) -> UsualTime:
        """Return the hours within which a share of orders went from `start` to `end`."""
        key = (department, start, end, share)
        if key not in self._usual:
            if (start, end) not in self._timed:
                rows = between(self._orders, start, end).filter(pl.col("ending").is_not_null())
                self._timed[start, end] = timed(rows, Unit.HOURS)
            plan = next(iter(self.of(department)["plan"]), None)
            own = {"department": department, "plan": plan}
            self._usual[key] = usual_time(self._timed[start, end], own, share)
        return self._usual[key]
