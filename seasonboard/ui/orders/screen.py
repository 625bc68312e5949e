"""Orders: what is on its way, and will it be there in time?"""

from functools import partial
from typing import ClassVar

from textual.binding import BindingType

from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.questions import ORDERS
from seasonboard.answers.report import table_rows
from seasonboard.answers.rows import page_in_memory
from seasonboard.answers.turns.report import TURNS
from seasonboard.documents.kinds import TURNS_LIST
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Opens
from seasonboard.ui.orders.page import KEY, MARKS_KEY, TURNS_OPEN, orders_page
from seasonboard.ui.widgets.page import Page


class OrdersScreen(WorkScreen[OrdersAnswer]):
    """What is on its way, and will it be there in time?"""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("space", "stage", "next stage", "Record the next stage of the order under the cursor",
            "orders.stage"),
    ]  # fmt: skip
    QUESTION = ORDERS
    PAGE = staticmethod(orders_page)
    DOCUMENTS = (TURNS_LIST,)
    HELP = (
        "Every open order on an axis of days, the most pressing first. Letters are the stages "
        f"({KEY}); {MARKS_KEY}. “By game” is the chance to be fitted by the team's next game, "
        "from the stage it is in and the days in it. Where turns were drawn, orders before the "
        "print stand in that order, and the next turns under them; e saves the list. Space "
        "records the next stage of an order."
    )

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return every drawn turn, or what every screen can open."""
        answer = self.answer
        if opens != TURNS_OPEN or answer is None or answer.turns is None:
            return super().rows_of(opens)
        rows = table_rows(TURNS, answer.turns, "Drawn turns")
        return rows.title, partial(page_in_memory, rows)

    def action_stage(self) -> None:
        """Open the form of the next stage; it proposes the usual one, and now."""
        from seasonboard.ui.forms.all_forms import form_screen
        from seasonboard.ui.forms.record_forms import STAGE

        block = self.query_one(Page).block
        kind, _, guard = block.name.partition(" ") if block is not None else ("", "", "")
        start = {"guard": guard} if kind == "order" else {}
        self.app.push_screen(form_screen(STAGE, self.answer_source, **start))


SCREEN = OrdersScreen
