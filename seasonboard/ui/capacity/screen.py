"""Capacity: what is printed first, and is there room for it?"""

from functools import partial
from typing import ClassVar

from textual.binding import BindingType

from seasonboard.answers.capacity.parts import CapacityAnswer, ReturnGuards
from seasonboard.answers.capacity.report import REPORT
from seasonboard.answers.fields import Table
from seasonboard.answers.questions import CAPACITY
from seasonboard.answers.report import table_rows
from seasonboard.answers.rows import page_in_memory
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.capacity.agreeing import AgreesOnPrints, today
from seasonboard.ui.capacity.page import capacity_page
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Opens, What

_TABLES = {table.name: table for table in REPORT.elements if isinstance(table, Table)}


class CapacityScreen(AgreesOnPrints, WorkScreen[CapacityAnswer]):
    """Queues of prints, the order to agree on, and what would change it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("a", "agree", "agree", "Write the order of prints down as a decision",
            "capacity.agree"),
        key("t", "next_rule", "rule", "Print return guards first, or as others",
            "capacity.returns"),
    ]  # fmt: skip
    QUESTION = CAPACITY
    PAGE = staticmethod(capacity_page)
    HELP = (
        "Prints that wait, in the order to agree on: return guards and medical need first, drawn "
        "turns as drawn, the others so that few miss their next game. “5 → 3” is as asked for, and "
        "in this order. t lets return guards stand as others do. a writes the order down as a "
        "decision, one for each department; u takes it back. Nothing is ordered or sent."
    )

    def action_next_rule(self) -> None:
        """Print return guards first, or as others, and ask again."""
        self.ask_with_next("returns", list(ReturnGuards))

    def action_agree(self) -> None:
        """Write the order down; nothing is ordered or sent."""
        if self.answer is not None:
            self.agree_on(self.answer_source, self.answer, today(self))

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the rows of a table of the answer."""
        table = _TABLES.get(opens.key) if opens.what is What.TABLE else None
        if table is None or self.answer is None:
            return super().rows_of(opens)
        rows = table_rows(table, self.answer, self.QUESTION.title)
        return rows.title, partial(page_in_memory, rows)


SCREEN = CapacityScreen
