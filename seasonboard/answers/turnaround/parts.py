"""What the Turnaround answer is made of."""

from dataclasses import dataclass

from seasonboard.answers.base import Summary
from seasonboard.answers.orders.open_orders import OpenOrder
from seasonboard.answers.orders.order_groups import OrderGroup
from seasonboard.answers.turnaround.groups import TurnaroundGroup
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turnaround.weeks import Week
from seasonboard.stats.control_charts import IndividualsChart

OPTIONS = TurnaroundOptions


@dataclass(frozen=True, slots=True)
class TurnaroundAnswer:
    """The answer of the Turnaround screen; `whole` is all orders together.

    `groups` holds `whole` alone when they are not grouped. `chart` is of the weeks that set control
    limits.
    """

    summary: Summary
    options: TurnaroundOptions
    whole: TurnaroundGroup
    groups: tuple[TurnaroundGroup, ...]
    weeks: tuple[Week, ...]
    chart: IndividualsChart
    open_orders: tuple[OpenOrder, ...]

    @property
    def shown_groups(self) -> tuple[TurnaroundGroup, ...]:
        """Return the groups, then all orders together."""
        return self.groups if self.options.by is None else (*self.groups, self.whole)

    def group(self, key: str) -> OrderGroup | None:
        """Return one of the groups by its key; None where the orders are not grouped by it."""
        by = self.options.by
        names = [group.name for group in self.groups if group.key == key]
        return OrderGroup(by, key, names[0]) if by is not None and names else None
