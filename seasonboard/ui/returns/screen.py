"""Return: how soon are hurt athletes back, and in what guard?"""

from functools import partial

from seasonboard.answers.questions import RETURN
from seasonboard.answers.report import table_rows
from seasonboard.answers.returns.parts import ReturnsAnswer
from seasonboard.answers.returns.report import TABLES
from seasonboard.answers.rows import page_in_memory
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.board.work_screen import WORK_PARTS, WorkScreen
from seasonboard.ui.layout.blocks import Opens, What
from seasonboard.ui.returns.page import returns_page


class ReturnScreen(WorkScreen[ReturnsAnswer]):
    """How soon are hurt athletes back, and in what guard?"""

    QUESTION = RETURN
    PAGE = staticmethod(returns_page)
    USES = WORK_PARTS | {"outcome", "setting"}
    HELP = (
        "Each bar is all athletes hurt at a site that guards can cover, after so many games of "
        "their team: ○ still out, • back and bare, ● back in a return guard, × hurt there again. "
        "Who is out now stands below, with how long like injuries took and how far the guard is. "
        "That is a count: it predicts no return."
    )

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the rows of a table of the answer."""
        table = TABLES.get(opens.key) if opens.what is What.TABLE else None
        if table is None or self.answer is None:
            return super().rows_of(opens)
        rows = table_rows(table, self.answer, f"Return: {table.meaning}")
        return rows.title, partial(page_in_memory, rows)


SCREEN = ReturnScreen
