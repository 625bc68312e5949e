"""Week: what changed this week, and what must be decided?"""

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.binding import BindingType

from seasonboard.answers.questions import WEEK
from seasonboard.answers.report import table_rows
from seasonboard.answers.rows import page_in_memory
from seasonboard.answers.week.parts import WeekAnswer
from seasonboard.documents.kinds import WEEK_SHEET
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Opens, What
from seasonboard.ui.week.page import week_page

if TYPE_CHECKING:
    from seasonboard.ui.week.meeting_screen import Meeting


class WeekScreen(WorkScreen[WeekAnswer]):
    """What changed since a week ago, and what is ahead."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("g", "meeting", "meeting", "Go through the week one item at a time, and type decisions",
            "week.meeting"),
    ]  # fmt: skip
    DOCUMENTS = (WEEK_SHEET,)
    QUESTION = WEEK
    PAGE = staticmethod(week_page)
    HELP = (
        "Made to be read aloud from top to bottom in a meeting: the days of the week, what must be "
        "looked at next, what changed. Every item opens to its rows. “Through” another day shows "
        "the week as it was known then. g goes through it one item at a time; e also saves "
        "the weekly sheet, as a page, to print or as a workbook."
    )

    _meeting: "Meeting | None" = None

    def action_meeting(self) -> None:
        """Go through the week one item at a time, from where it was left."""
        from seasonboard.ui.week.meeting_screen import Meeting, MeetingScreen

        if self.answer is None:
            return
        if self._meeting is None:
            self._meeting = Meeting()
        self.app.push_screen(MeetingScreen(self._meeting, self.answer_source, lambda: self.answer))

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the rows of one item."""
        if opens.what is not What.WEEK or self.answer is None:
            return super().rows_of(opens)
        item = self.answer.item(opens.key) if opens.key else self.answer.items[0]
        return item.title, partial(page_in_memory, table_rows(item.table, item, item.title))


SCREEN = WeekScreen
