"""A screen whose rows can be grouped: turnaround, remakes, take-up."""

from collections.abc import Sequence
from dataclasses import replace
from enum import StrEnum
from typing import ClassVar

from textual.binding import BindingType

from seasonboard.ui.board.answer_screen import AnswerT
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.keys import key


def _after(now: StrEnum | None, choices: Sequence[StrEnum | None]) -> StrEnum | None:
    return choices[(choices.index(now) + 1) % len(choices)]


class GroupedScreen(WorkScreen[AnswerT]):
    """A screen whose rows are grouped by one thing after the other with `b`."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("b", "next_group", "by", "Group by the next thing", "board.group"),
    ]
    GROUPS: ClassVar[tuple[StrEnum | None, ...]]

    def action_next_group(self) -> None:
        """Group by the next thing, and ask again."""
        by = _after(self.options.by, self.GROUPS)
        self.options = replace(self.options, by=by)
        self.action_ask()
