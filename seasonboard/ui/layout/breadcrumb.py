"""The way to where one is: from the screen through every table and card opened on it."""

from collections.abc import Iterable

from textual.screen import Screen

from seasonboard.ui.layout.format import clean

STEP = " › "


def breadcrumb(screens: Iterable[Screen[object]]) -> str:
    """Return the steps of a stack of screens, the first one first: `Roster › guards › Ana Lund`.

    A screen of the board is called by its title, what is opened on it by its `breadcrumb_name`.
    """
    steps = []
    for screen in screens:
        question = getattr(screen, "QUESTION", None)
        steps.append(question.title if question else getattr(screen, "breadcrumb_name", ""))
    return STEP.join(clean(step) for step in steps if step)
