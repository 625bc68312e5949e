"""Every screen by its name; each is loaded, with its answer, when it is first shown."""

from collections.abc import Callable, Iterator, Mapping
from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from seasonboard.ui.board.board_screen import BoardScreen

_PLACES = {
    "week": "week:WeekScreen",
    "roster": "roster:RosterScreen",
    "orders": "orders:OrdersScreen",
    "turnaround": "turnaround:TurnaroundScreen",
    "remakes": "remakes:RemakesScreen",
    "compare": "compare:CompareScreen",
    "games": "games:GamesScreen",
    "take-up": "take_up:TakeUpScreen",
    "departments": "departments:DepartmentsScreen",
    "pitch": "pitch:PitchScreen",
    "checks": "checks:ChecksScreen",
}
"""Of every screen its folder beside this module, and its class."""


class _Screens(Mapping[str, "type[BoardScreen[Any]]"]):
    """The screens; looking one up loads it."""

    def __getitem__(self, name: str) -> "type[BoardScreen[Any]]":
        module, _, kind = _PLACES[name].partition(":")
        screen: type[BoardScreen[Any]] = getattr(
            import_module(f"seasonboard.ui.{module}.screen"), kind
        )
        return screen

    def __iter__(self) -> Iterator[str]:
        return iter(_PLACES)

    def __len__(self) -> int:
        return len(_PLACES)


SCREENS: Mapping[str, "type[BoardScreen[Any]]"] = _Screens()
"""Every screen, in the order of the title line."""


def load_screens(*, is_over: Callable[[], bool]) -> None:
    """Load every screen, and the functions that statistics take, until it is over."""
    for name in SCREENS:
        if is_over():
            return
        SCREENS[name]
    import scipy.special  # noqa: F401 - only to have it loaded
