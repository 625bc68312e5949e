"""Remakes: what came back, and why?"""

from dataclasses import replace
from functools import partial

from seasonboard.answers.questions import REMAKES
from seasonboard.answers.remakes.groups import NOT_RECORDED
from seasonboard.answers.remakes.options import RemakesBy
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.rows import page_in_memory
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.board.work_screen import GroupedScreen
from seasonboard.ui.layout.blocks import Opens, What
from seasonboard.ui.remakes.page import remakes_page


class RemakesScreen(GroupedScreen[RemakesAnswer]):
    """What came back, and why?"""

    QUESTION = REMAKES
    PAGE = staticmethod(remakes_page)
    HELP = (
        "Shares of fitted guards that were remade, with their confidence intervals (├─■─┤) and "
        "the control limits (┊) within which a group of that size lies by chance. Reasons, "
        "months, chains of guards and how long guards last stand below. b groups by the next thing."
    )
    GROUPS = tuple(RemakesBy)

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the guards asked for anew, of one reason or all."""
        if opens.what is not What.REMADE or self.answer is None:
            return super().rows_of(opens)
        rows = self.answer.rows
        if opens.key:
            at = [column.name for column in rows.columns].index("reason")
            with_it = tuple(row for row in rows.rows if (row[at] or NOT_RECORDED) == opens.key)
            rows = replace(rows, rows=with_it, total=len(with_it), matching=len(with_it))
        return rows.title, partial(page_in_memory, rows)


SCREEN = RemakesScreen
