"""Take-up: who was offered a guard, and who wears it?"""

from functools import partial

from seasonboard.answers.questions import TAKE_UP
from seasonboard.answers.report import table_rows
from seasonboard.answers.take_up.parts import TakeUpAnswer, TakeUpBy
from seasonboard.answers.take_up.report import STEP_ROWS
from seasonboard.ui.board.work_screen import GroupedScreen
from seasonboard.ui.layout.blocks import What
from seasonboard.ui.take_up.page import take_up_page


class TakeUpScreen(GroupedScreen[TakeUpAnswer]):
    """Who was offered a guard, and who wears it?"""

    QUESTION = TAKE_UP
    PAGE = staticmethod(take_up_page)
    HELP = (
        "From the roster to the session, step by step, with how many of the step before. Block "
        "letters are the share of sessions worn, week by week. b groups by the next thing."
    )
    GROUPS = tuple(TakeUpBy)
    ROWS = ((What.TAKE_UP, "Steps", partial(table_rows, STEP_ROWS, title="Steps")),)


SCREEN = TakeUpScreen
