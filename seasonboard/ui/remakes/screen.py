"""Remakes: what came back, and why?"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from enum import StrEnum
from functools import partial
from typing import ClassVar

from textual.binding import Binding, BindingType

from seasonboard.answers.orders.order_times import Unit
from seasonboard.answers.remakes import answer as remakes
from seasonboard.answers.remakes.parts import RemakesAnswer, RemakesBy, RemakesOptions
from seasonboard.answers.rows import held
from seasonboard.answers.source import Asker
from seasonboard.answers.take_up import answer as take_up
from seasonboard.answers.take_up.parts import TakeUpAnswer, TakeUpBy, TakeUpOptions
from seasonboard.answers.turnaround import answer as turnaround
from seasonboard.answers.turnaround.parts import By, TurnaroundAnswer, TurnaroundOptions
from seasonboard.answers.work_rows import take_up_rows
from seasonboard.ui.board.answer_screen import AnswerT, Request
from seasonboard.ui.board.row_sources import Behind
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.board.grouped_screen import GroupedScreen
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.remakes.page import remakes_page
from seasonboard.ui.take_up.page import take_up_page
from seasonboard.ui.turnaround.page import turnaround_page


class RemakesScreen(GroupedScreen[RemakesAnswer]):
    """What came back, and why?"""

    NAME = "remakes"
    QUESTION = remakes.QUESTION
    HELP = (
        "Shares of fitted guards that were remade, with their limits (├─■─┤) and the limits within "
        "which a group of that size lies by chance (┊). Reasons, months, chains of guards and how "
        "long guards last stand below. b groups by the next thing."
    )
    GROUPS = tuple(RemakesBy)

    def __init__(self, asker: Asker, stop: Callable[[], None]) -> None:
        """Begin by kind."""
        super().__init__(asker, stop)
        self.options = RemakesOptions()

    def ask_for(self, request: Request) -> RemakesAnswer:
        """Ask for the remakes."""
        return self.asker.remakes(request.scope, request.options)  # type: ignore[arg-type]

    def draw(self, answer: RemakesAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return remakes_page(answer, paper)

    def rows_behind(self, opens: str) -> Behind | None:
        """Return the guards asked for anew, of one reason or all."""
        kind, _, reason = opens.partition(":")
        if kind != "redone" or self.answer is None:
            return super().rows_behind(opens)
        rows = self.answer.rows
        if reason:
            place = [column.name for column in rows.columns].index("reason")
            kept = tuple(row for row in rows.rows if (row[place] or "not recorded") == reason)
            rows = replace(rows, rows=kept, total=len(kept), matching=len(kept))
        return rows.title, partial(held, rows)
