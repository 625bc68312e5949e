"""Remakes: what came back, and why?"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from seasonboard.answers.questions import REMAKES
from seasonboard.answers.remakes.groups import NOT_RECORDED
from seasonboard.answers.remakes.options import RemakesBy, RemakesOptions
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.rows import page_in_memory
from seasonboard.answers.source import AnswerSource
from seasonboard.ui.board.grouped_screen import GroupedScreen
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.remakes.page import remakes_page


class RemakesScreen(GroupedScreen[RemakesAnswer]):
    """What came back, and why?"""

    QUESTION = REMAKES
    HELP = (
        "Shares of fitted guards that were remade, with their confidence intervals (├─■─┤) and "
        "the control limits (┊) within which a group of that size lies by chance. Reasons, "
        "months, chains of guards and how long guards last stand below. b groups by the next thing."
    )
    GROUPS = tuple(RemakesBy)

    def __init__(self, answer_source: AnswerSource, stop: Callable[[], None]) -> None:
        """Begin by kind."""
        super().__init__(answer_source, stop)
        self.options = RemakesOptions()

    def draw(self, answer: RemakesAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return remakes_page(answer, paper)

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
