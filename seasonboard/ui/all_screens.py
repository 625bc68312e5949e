"""Every screen by its name; each is loaded, with its answer, when it is first shown."""

from collections.abc import Callable, Iterator, Mapping
from importlib import import_module
from typing import TYPE_CHECKING, Any

from seasonboard.answers.questions import WITH_SCREENS, question_named

if TYPE_CHECKING:
    from seasonboard.ui.board.board_screen import BoardScreen


class _Screens(Mapping[str, "type[BoardScreen[Any]]"]):
    """The screens; looking one up loads it."""

    def __getitem__(self, name: str) -> "type[BoardScreen[Any]]":
        module = import_module(f"seasonboard.ui.{question_named(name).folder}.screen")
        screen: type[BoardScreen[Any]] = module.SCREEN
        return screen

    def __iter__(self) -> Iterator[str]:
        return (question.name for question in WITH_SCREENS)

    def __len__(self) -> int:
        return len(WITH_SCREENS)


SCREENS: Mapping[str, "type[BoardScreen[Any]]"] = _Screens()
"""Every screen, in the order of the title line."""


def load_screens(*, is_over: Callable[[], bool]) -> None:
    """Load every screen, and the functions that statistics take, until it is over."""
    for name in SCREENS:
        if is_over():
            return
        SCREENS[name]
    import scipy.special  # noqa: F401 - only to have it loaded
