"""The screens that can be grouped: turnaround, remakes, take-up."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from enum import StrEnum
from functools import partial
from typing import ClassVar

from textual.binding import Binding, BindingType

from seasonboard.answers.asker import Asker
from seasonboard.answers.orders.frame import Unit
from seasonboard.answers.remakes import answer as remakes
from seasonboard.answers.remakes.parts import RemakesAnswer, RemakesBy, RemakesOptions
from seasonboard.answers.rows import held
from seasonboard.answers.take_up import answer as take_up
from seasonboard.answers.take_up.parts import TakeUpAnswer, TakeUpBy, TakeUpOptions
from seasonboard.answers.turnaround import answer as turnaround
from seasonboard.answers.turnaround.parts import By, TurnaroundAnswer, TurnaroundOptions
from seasonboard.answers.work_rows import take_up_rows
from seasonboard.ui.blocks import Block, Paper
from seasonboard.ui.remakes_page import remakes_page
from seasonboard.ui.screens.asking import AnswerT, Request
from seasonboard.ui.screens.behind import Behind
from seasonboard.ui.screens.work import WorkScreen
from seasonboard.ui.take_up_page import take_up_page
from seasonboard.ui.turnaround_page import turnaround_page


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


class TurnaroundScreen(GroupedScreen[TurnaroundAnswer]):
    """How long does a guard take?"""

    NAME = "turnaround"
    QUESTION = turnaround.QUESTION
    HELP = (
        "The curve is the share of orders not yet fitted, by age; open orders count up to their "
        "age, so that a slow one makes it longer and is not left out. Below: groups, where the "
        "time goes, and the weeks. b groups by the next thing, t counts in the next unit."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("t", "next_unit", "unit", tooltip="Count in the next unit", id="board.unit"),
    ]
    GROUPS = (None, *By)

    def __init__(self, asker: Asker, stop: Callable[[], None]) -> None:
        """Begin with all orders, in days."""
        super().__init__(asker, stop)
        self.options = TurnaroundOptions()

    def ask_for(self, request: Request) -> TurnaroundAnswer:
        """Ask for the turnaround."""
        return self.asker.turnaround(request.scope, request.options)  # type: ignore[arg-type]

    def draw(self, answer: TurnaroundAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return turnaround_page(answer, paper)

    def rows_behind(self, opens: str) -> Behind | None:
        """Return the orders of one group, or what the screens of the working season can open."""
        kind, _, key = opens.partition(":")
        if kind != "group" or self.answer is None:
            return super().rows_behind(opens)
        group = self.answer.group(key)
        if group is None:
            return None
        scope = self.answer.said.scope
        return f"Orders: {group.name}", partial(self.asker.group_rows, scope, group)

    def action_next_unit(self) -> None:
        """Count in the next unit, and ask again."""
        units = list(Unit)
        unit = units[(units.index(self.options.unit) + 1) % len(units)]
        self.options = replace(self.options, unit=unit)
        self.action_ask()


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


class TakeUpScreen(GroupedScreen[TakeUpAnswer]):
    """Who was offered a guard, and who wears it?"""

    NAME = "take-up"
    QUESTION = take_up.QUESTION
    HELP = (
        "From the roster to the session, step by step, with how many of the step before. Block "
        "letters are the share of sessions worn, week by week. b groups by the next thing."
    )
    GROUPS = tuple(TakeUpBy)

    def __init__(self, asker: Asker, stop: Callable[[], None]) -> None:
        """Begin by team."""
        super().__init__(asker, stop)
        self.options = TakeUpOptions()

    def ask_for(self, request: Request) -> TakeUpAnswer:
        """Ask for the steps."""
        return self.asker.take_up(request.scope, request.options)  # type: ignore[arg-type]

    def draw(self, answer: TakeUpAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return take_up_page(answer, paper)

    def rows_behind(self, opens: str) -> Behind | None:
        """Return the steps as a table."""
        if opens != "take-up" or self.answer is None:
            return super().rows_behind(opens)
        return "Steps", partial(held, take_up_rows(self.answer))
