"""A screen whose rows can be grouped: turnaround, remakes, take-up."""

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
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.remakes.page import remakes_page
from seasonboard.ui.take_up.page import take_up_page
from seasonboard.ui.turnaround.page import turnaround_page


def _after(now: StrEnum | None, choices: Sequence[StrEnum | None]) -> StrEnum | None:
    return choices[(choices.index(now) + 1) % len(choices)]


class GroupedScreen(WorkScreen[AnswerT]):
    """A screen whose rows are grouped by one thing after the other with `b`."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("b", "next_group", "by", tooltip="Group by the next thing", id="board.group"),
    ]
    GROUPS: ClassVar[tuple[StrEnum | None, ...]]

    def action_next_group(self) -> None:
        """Group by the next thing, and ask again."""
        by = _after(self.options.by, self.GROUPS)
        self.options = replace(self.options, by=by)
        self.action_ask()
