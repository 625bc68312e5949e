"""Every screen by its name; loading them loads the answers with their frames."""

from typing import Any

from seasonboard.ui.screens.base import BoardScreen
from seasonboard.ui.screens.checks import ChecksScreen
from seasonboard.ui.screens.compare import CompareScreen
from seasonboard.ui.screens.games import GamesScreen
from seasonboard.ui.screens.grouped import RemakesScreen, TakeUpScreen, TurnaroundScreen
from seasonboard.ui.screens.work import (
    DepartmentsScreen,
    OrdersScreen,
    RosterScreen,
    WeekScreen,
)

SCREENS: dict[str, type[BoardScreen[Any]]] = {
    screen.NAME: screen
    for screen in (
        WeekScreen,
        RosterScreen,
        OrdersScreen,
        TurnaroundScreen,
        RemakesScreen,
        CompareScreen,
        GamesScreen,
        TakeUpScreen,
        DepartmentsScreen,
        ChecksScreen,
    )
}
