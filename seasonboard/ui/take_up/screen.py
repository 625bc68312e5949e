"""Take-up: who was offered a guard, and who wears it?"""

from collections.abc import Callable, Sequence

from seasonboard.answers.questions import TAKE_UP
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.take_up.parts import TakeUpAnswer, TakeUpBy, TakeUpOptions
from seasonboard.answers.take_up.report import STEP_ROWS
from seasonboard.ui.board.grouped_screen import GroupedScreen
from seasonboard.ui.board.row_sources import RowSource, table_source
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.take_up.page import take_up_page


class TakeUpScreen(GroupedScreen[TakeUpAnswer]):
    """Who was offered a guard, and who wears it?"""

    QUESTION = TAKE_UP
    HELP = (
        "From the roster to the session, step by step, with how many of the step before. Block "
        "letters are the share of sessions worn, week by week. b groups by the next thing."
    )
    GROUPS = tuple(TakeUpBy)

    def __init__(self, answer_source: AnswerSource, stop: Callable[[], None]) -> None:
        """Begin by team."""
        super().__init__(answer_source, stop)
        self.options = TakeUpOptions()

    def draw(self, answer: TakeUpAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return take_up_page(answer, paper)

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return the steps as a table."""
        if opens.what is not What.TAKE_UP or self.answer is None:
            return super().rows_of(opens)
        return table_source(STEP_ROWS, self.answer, "Steps")


SCREEN = TakeUpScreen
