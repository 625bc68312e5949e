"""Every screen by its name; each is loaded, with its answer, when it is first shown."""

from collections.abc import Callable
from importlib import import_module
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any

from seasonboard.answers.questions import WITH_SCREENS, question_named

if TYPE_CHECKING:
    from seasonboard.ui.board.board_screen import BoardScreen


def screen_class(name: str) -> "type[BoardScreen[Any]]":
    """Return the screen of a question, and load it; without its own, that of its report."""
    question = question_named(name)
    if find_spec(f"seasonboard.ui.{question.folder}") is None:
        from seasonboard.ui.board.described_screen import described_screen

        return described_screen(question)
    module = import_module(f"seasonboard.ui.{question.folder}.screen")
    screen: type[BoardScreen[Any]] = module.SCREEN
    return screen


def load_screens(*, is_over: Callable[[], bool]) -> None:
    """Load every screen, and the functions that statistics take, until it is over."""
    for question in WITH_SCREENS:
        if is_over():
            return
        screen_class(question.name)
    import scipy.special  # noqa: F401 - only to have it loaded
