"""Checks: what in the records is doubtful?"""

from functools import partial

from seasonboard.answers.checks.parts import ChecksAnswer
from seasonboard.answers.questions import CHECKS
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.board.work_screen import WORK_PARTS
from seasonboard.ui.checks.page import TOUCH, checks_page
from seasonboard.ui.layout.blocks import Opens, What


class ChecksScreen(BoardScreen[ChecksAnswer]):
    """Every data check with its count, those first that touch most answers."""

    QUESTION = CHECKS
    PAGE = staticmethod(checks_page)
    HELP = (
        f"One line a check: how many rows it found, and with {TOUCH} which screens it touches, by "
        "their keys. ↵ opens its rows; m says why it matters and how to mend it. What cannot be is "
        "refused when it is loaded; what hardly can is found here."
    )
    USES = WORK_PARTS - {"level"} | {"setting"}

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the rows of one check."""
        if opens.what is not What.CHECK or self.scope is None:
            return super().rows_of(opens)
        scope = self.scope
        return opens.key, partial(self.answer_source.check_rows, scope, opens.key)


SCREEN = ChecksScreen
