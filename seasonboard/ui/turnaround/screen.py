"""Turnaround: how long does a guard take?"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import ClassVar

from textual.binding import BindingType

from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.orders.order_times import Unit
from seasonboard.answers.questions import TURNAROUND
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.ui.board.grouped_screen import GroupedScreen
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.turnaround.page import turnaround_page


class TurnaroundScreen(GroupedScreen[TurnaroundAnswer]):
    """How long does a guard take?"""

    QUESTION = TURNAROUND
    HELP = (
        "The curve is the share of orders not yet fitted, by age; open orders count up to their "
        "age, so that a slow one makes it longer and is not left out. Below: groups, where the "
        "time goes, and the weeks. b groups by the next thing, t counts in the next unit."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("t", "next_unit", "unit", "Count in the next unit", "board.unit"),
    ]
    GROUPS = (None, *OrdersBy)

    def __init__(self, answer_source: AnswerSource, stop: Callable[[], None]) -> None:
        """Begin with all orders, in days."""
        super().__init__(answer_source, stop)
        self.options = TurnaroundOptions()

    def draw(self, answer: TurnaroundAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return turnaround_page(answer, paper)

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
        units = list(Unit)
        unit = units[(units.index(self.options.unit) + 1) % len(units)]
        self.options = replace(self.options, unit=unit)
        self.action_ask()


SCREEN = TurnaroundScreen
