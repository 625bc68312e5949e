"""What the screens of the working season share: week, roster, orders, departments and more."""

from dataclasses import replace
from enum import StrEnum
from functools import partial
from typing import ClassVar

from textual.binding import BindingType

from seasonboard.ui.board.answer_screen import AnswerT
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Opens, What

WORK_PARTS = frozenset(
    {
        *("season", "through", "department", "team", "sport", "sex", "position group"),
        *("kind", "area", "side", "made of", "level"),
    }
)
"""What these answers depend on: guards of both purposes and all sessions count."""


class WorkScreen(BoardScreen[AnswerT]):
    """A screen of the working season; a department's line opens its orders."""

    USES = WORK_PARTS

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return a department's orders, or what every screen can open."""
        scope = self.scope
        if scope is not None and opens.what is What.DEPARTMENT:
            one = replace(scope, departments=(opens.key,))
            return "Orders", partial(self.answer_source.order_rows, one)
        return super().rows_of(opens)


class GroupedScreen(WorkScreen[AnswerT]):
    """A screen whose rows are grouped by one thing after the other with `b`."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("b", "next_group", "by", "Group by the next thing", "board.group"),
    ]
    GROUPS: ClassVar[tuple[StrEnum | None, ...]]

    def action_next_group(self) -> None:
        """Group by the next thing, and ask again."""
        self.ask_with_next("by", self.GROUPS)
