"""Turnaround: how long does a guard take?"""

from functools import partial
from typing import ClassVar

from textual.binding import BindingType

from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.orders.order_times import Unit
from seasonboard.answers.questions import TURNAROUND
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.board.work_screen import GroupedScreen
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Opens, What
from seasonboard.ui.turnaround.page import turnaround_page


class TurnaroundScreen(GroupedScreen[TurnaroundAnswer]):
    """How long does a guard take?"""

    QUESTION = TURNAROUND
    PAGE = staticmethod(turnaround_page)
    HELP = (
        "The curve is the share of orders not yet fitted, by age; open orders count up to their "
        "age, so that a slow one makes it longer and is not left out. Below: groups, where the "
        "time goes, and the weeks. b groups by the next thing, t counts in the next unit."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("t", "next_unit", "unit", "Count in the next unit", "board.unit"),
    ]
    GROUPS = (None, *OrdersBy)

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the orders of one group, or what the screens of the working season can open."""
        if opens.what is not What.GROUP or self.answer is None:
            return super().rows_of(opens)
        group = self.answer.group(opens.key)
        if group is None:
            return None
        scope = self.answer.summary.scope
        return f"Orders: {group.name}", partial(self.answer_source.group_rows, scope, group)

    def action_next_unit(self) -> None:
        """Count in the next unit, and ask again."""
        self.ask_with_next("unit", list(Unit))


SCREEN = TurnaroundScreen
