"""What the Orders answer is made of."""

from dataclasses import dataclass
from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.orders.forecast import Borrowed
from seasonboard.answers.orders.graded import Graded
from seasonboard.answers.orders.lateness import LateAfter
from seasonboard.answers.orders.open_orders import OpenOrder
from seasonboard.answers.turns.parts import TurnsAnswer


@dataclass(frozen=True, slots=True)
class OrdersAnswer:
    """The answer of the Orders screen: open orders, the most pressing first.

    `known` counts every order of the scope; `fitted` (also when retired since), `cancelled` and
    `retired` (without a fitting recorded) are those that are over. `as_of` is the last day known;
    `late_after` the rule of each department; `graded` how forecasts of the past came out;
    `borrowed` how much forecasts borrow from like orders; `turns` are the drawn turns, None without
    a draw.
    """

    summary: Summary
    as_of: date
    orders: tuple[OpenOrder, ...]
    known: int
    fitted: int
    cancelled: int
    retired: int
    late_after: tuple[LateAfter, ...]
    graded: Graded
    borrowed: tuple[Borrowed, ...] = ()
    turns: TurnsAnswer | None = None

    @property
    def late(self) -> tuple[OpenOrder, ...]:
        """Return the late ones."""
        return tuple(order for order in self.orders if order.is_late)
