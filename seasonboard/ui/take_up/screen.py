"""Take-up: who was offered a guard, and who wears it?"""

from seasonboard.answers.questions import TAKE_UP
from seasonboard.answers.take_up.parts import TakeUpAnswer, TakeUpBy
from seasonboard.answers.work_rows import take_up_rows
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
    ROWS = ((What.TAKE_UP, "Steps", take_up_rows),)


SCREEN = TakeUpScreen
