"""Roster: who can play the next game, and in what guard?"""

from functools import partial

from seasonboard.answers.questions import ROSTER
from seasonboard.answers.report import table_rows
from seasonboard.answers.roster.athletes_table import GUARD_ROWS
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.roster.words import STRIP_KEY
from seasonboard.ui.board.work_screen import WorkScreen
from seasonboard.ui.layout.blocks import What
from seasonboard.ui.roster.page import roster_page


class RosterScreen(WorkScreen[RosterAnswer]):
    """Who can play the next game, and in what guard."""

    QUESTION = ROSTER
    PAGE = staticmethod(roster_page)
    HELP = (
        "Every athlete by the last record, those first that need attention: the last sessions "
        f"({STRIP_KEY}), the state, the guards. Not recorded is not out. ↵ on an athlete opens "
        "all that was recorded of them."
    )
    ROWS = tuple(
        (what, "Roster", partial(table_rows, GUARD_ROWS, title="Roster"))
        for what in (What.ROSTER, What.AVAILABILITY)
    )


SCREEN = RosterScreen
