"""The way to where one is: from the screen through every table and card opened on it."""

from collections.abc import Iterable

from textual.screen import Screen

from seasonboard.ui.board_names import BOARDS
from seasonboard.ui.layout.format import clean

STEP = " › "
_TITLES = {board.name: board.title for board in BOARDS}


def trail(screens: Iterable[Screen[object]]) -> str:
    """Return the steps of a stack of screens, the first one first: `Roster › guards › Ana Lund`.

    A screen of the board is called by its title, what is opened on it by its `trail_name`.
    """
    steps = []
    for screen in screens:
        board = getattr(screen, "NAME", "")
        steps.append(_TITLES.get(board, "") or getattr(screen, "trail_name", ""))
    return STEP.join(clean(step) for step in steps if step)
