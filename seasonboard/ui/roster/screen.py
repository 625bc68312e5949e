"""Roster: who can play the next game, and in what guard?"""

from collections.abc import Sequence
from functools import partial

from seasonboard.answers.questions import ROSTER
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.roster.words import STRIP_KEY
from seasonboard.answers.rows import page_in_memory
from seasonboard.answers.work_rows import roster_rows
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.roster.page import roster_page


class RosterScreen(WorkScreen[RosterAnswer]):
    """Who can play the next game, and in what guard."""

    QUESTION = ROSTER
    HELP = (
        "Every athlete by the last record, those first that need attention: the last sessions "
        f"({STRIP_KEY}), the state, the guards. Not recorded is not out. ↵ on an athlete opens "
        "all that was recorded of them."
    )

    def draw(self, answer: RosterAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return roster_page(answer, paper)

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the roster as a table, or what the screens of the working season can open."""
        if opens.what not in {What.ROSTER, What.AVAILABILITY} or self.answer is None:
            return super().rows_of(opens)
        return "Roster", partial(page_in_memory, roster_rows(self.answer))


SCREEN = RosterScreen
