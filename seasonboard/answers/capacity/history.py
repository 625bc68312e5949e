"""Times that past orders took between two stages."""

from dataclasses import dataclass
from functools import cached_property

import polars as pl

from seasonboard.answers.orders.lateness import ENOUGH
from seasonboard.answers.orders.order_times import Unit, between, curve_of, timed
from seasonboard.stats.waiting_times import wait_quantile
from seasonboard.terms import Stage

SAFE = 0.8
"""The share of past orders, or the chance, that is enough to count on."""
USUAL = 0.5


@dataclass(frozen=True, slots=True)
class UsualTime:
    """Hours within which a share of past orders went from one stage to another.

    None with `why`. `likeness` says which orders, `orders` how many.
    """

    hours: float | None
    orders: int
    likeness: str
    why: str = ""


class History:
    """Past orders of every department; each time is worked out once.

    Where a department has fewer than 20 orders of a stretch, those of its plan stand for it, then
    all. With fewer than 20 in all nothing is told: not known is not soon, and not never.
    """

    def __init__(self, making: pl.DataFrame) -> None:
        """Take rows of `capacity/making`."""
        self.making = making
        self._by_department = making.partition_by("department", as_dict=True)
        self._alike: dict[tuple[str, Stage, Stage], list[tuple[pl.DataFrame, str]]] = {}
        self._usual: dict[tuple[str, Stage, Stage, float], UsualTime] = {}

    @cached_property
    def print_hours(self) -> dict[str, float]:
        """Return the median hours of a print by kind; of kinds never timed under no name."""
        hours = self.making.filter(pl.col("print_hours") > 0)
        by_kind = dict(hours.group_by("kind").agg(pl.median("print_hours")).iter_rows())
        whole = hours["print_hours"].median()
        return by_kind | ({"": whole} if isinstance(whole, float) else {})

    @cached_property
    def untimed(self) -> int:
        """Return the orders whose way from asked to fitted cannot be timed."""
        rows = between(self.making, Stage.REQUESTED, Stage.FITTED)
        return int(rows["aside"].is_not_null().sum())

    def of(self, department: str) -> pl.DataFrame:
        """Return the orders of one department."""
        return self._by_department.get((department,), self.making.clear())

    def alike(self, department: str, start: Stage, end: Stage) -> list[tuple[pl.DataFrame, str]]:
        """Return orders, timed in hours, that tell of a department, and which: from near to far.

        There are at least 20 of each; none where not even all are as many.
        """
        key = (department, start, end)
        if key not in self._alike:
            own = self.of(department)
            plan = self.making.filter(pl.col("plan").is_in(own["plan"].unique().to_list()))
            nested = (own, "same department"), (plan, "same plan"), (self.making, "all orders")
            timed_rows = [(_timed(rows, start, end), likeness) for rows, likeness in nested]
            self._alike[key] = [one for one in timed_rows if len(one[0]) >= ENOUGH]
        return self._alike[key]

    def usual(self, department: str, start: Stage, end: Stage, share: float = SAFE) -> UsualTime:
        """Return the hours within which a share of orders went from `start` to `end`.

        Where too many of a department's are still open to tell, those of its plan stand for it,
        then all.
        """
        key = (department, start, end, share)
        if key not in self._usual:
            self._usual[key] = self._first_level(department, start, end, share)
        return self._usual[key]

    def _first_level(self, department: str, start: Stage, end: Stage, share: float) -> UsualTime:
        why = f"fewer than {ENOUGH} orders are known that came from {start} to {end}"
        for rows, likeness in self.alike(department, start, end):
            found = wait_quantile(curve_of(rows), share)
            if found.value is not None:
                return UsualTime(found.value, len(rows), likeness)
            why = f"more than {1 - share:.0%} of the orders known are still open".replace("%", " %")
        return UsualTime(None, 0, "", why)


def _timed(making: pl.DataFrame, start: Stage, end: Stage) -> pl.DataFrame:
    rows = between(making, start, end).filter(pl.col("ending").is_not_null())
    return timed(rows, Unit.HOURS)
