"""Roster: who can play the next game, and in what guard?"""

from collections.abc import Sequence

from seasonboard.answers.questions import ROSTER
from seasonboard.answers.roster.athletes_table import GUARD_ROWS
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.roster.words import STRIP_KEY
from seasonboard.ui.board.row_sources import RowSource, table_source
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
        return table_source(GUARD_ROWS, self.answer, "Roster")


SCREEN = RosterScreen
