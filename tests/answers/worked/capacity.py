"""Two departments: one with a printer and a drawn turn, one that cannot be planned."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from seasonboard.answers.base import Summary
from seasonboard.answers.capacity.parts import (
    CapacityAnswer,
    CapacityChange,
    CapacityOptions,
    GameAhead,
    OrderCost,
    Printer,
    PrintLine,
    QueuedPrint,
)
from seasonboard.answers.orders.forecast import Chance
from seasonboard.scope import Scope
from seasonboard.stats.print_changes import PrintChange
from seasonboard.stats.season_ahead import Spread

ZONE = ZoneInfo("America/Chicago")


def at(day: int, hour: int) -> datetime:
    return datetime(2026, 9, day, hour, tzinfo=ZONE)


FIRST = QueuedPrint(
    *(1, 3, "south", "G7", "A1", "Ana Reed", "T1", "shin", "left", "return", "scanned"),
    *("return guard: first", 6.5, date(2026, 9, 19), at(17, 8), at(16, 13), 0, 2, "", ""),
)
SECOND = QueuedPrint(
    *(2, 1, "south", "G5", "A2", "Bo Lind", "T2", "chest", "midline", "preventive", "modelled"),
    *("turn 4 of T02", 9.25, date(2026, 9, 20), at(18, 9), at(18, 15), 5, 4, "ordered twice", ""),
)
THIRD = QueuedPrint(
    *(1, 2, "north", "G9", "A3", "Cy Moss", "T3", "thumb", "both", "preventive", "requested", ""),
    *(None, None, None, None, None, None, "", "no allotment is recorded"),
)
SOUTH = PrintLine(
    department="south",
    name="South State",
    plan="onsite printer",
    prints_per_week=None,
    printers=2,
    weekly_hours=210.0,
    queue=12,
    in_queue=(FIRST, SECOND),
    weeks_ahead=1.75,
    asked=OrderCost(8, 19),
    planned=OrderCost(4, 11),
    drawless=OrderCost(3, 10),
    is_fewest=False,
    whole_weeks=15,
    weeks_over=0,
    used=None,
    used_why="it prints on its own printer",
    remakes=1.2,
    remakes_low=0,
    remakes_high=5,
    remakes_why="",
    why="",
)
NORTH = PrintLine(
    department="north",
    name="North College",
    plan="weekly allotment",
    prints_per_week=7,
    printers=0,
    weekly_hours=None,
    queue=1,
    in_queue=(THIRD,),
    weeks_ahead=None,
    asked=None,
    planned=None,
    drawless=None,
    is_fewest=True,
    whole_weeks=14,
    weeks_over=6,
    used=0.875,
    used_why="",
    remakes=None,
    remakes_low=None,
    remakes_high=None,
    remakes_why="nobody was fitted",
    why="fewer than 20 orders are known",
)
KNOWN = GameAhead(
    *("south", "T1", "S40", at(26, 18), date(2026, 9, 26), "opener", date(2026, 9, 20), False),
    *(Chance(0.875, 0.75, 0.9375, orders=61, likeness="same department"), ""),
)
OVER = GameAhead(
    *("north", "T3", "S41", at(19, 19), date(2026, 9, 18), None, None, True),
    *(Chance(0.25, 0.125, 0.5, orders=44, likeness="same plan"), "too late"),
)
SIMULATED = PrintChange(
    400,
    Spread(0.41, 0.42, 0.31, 0.52, 0.22, 0.61),
    Spread(-0.1, -0.11, -0.21, -0.02, -0.25, 0.015),
    Spread(12.0, 12.5, 10.0, 14.0, 9.5, 16.25),
    Spread(-2.0, -2.25, -4.0, -1.0, -5.5, -0.5),
)
MORE = CapacityChange("south", "one more printer", 91, 14, 11.25, SIMULATED, "a note", "")
PHONE = CapacityChange(
    "north", "phone scans, no visit", 12, 0, None, None, "", "fewer than 20 past orders"
)
OWN = Printer("S printer", "south", 105.0, True, 9, 61.5, 2, 0.146, "")
BENCH = Printer("bench 1", None, None, False, 4, 20.25, 1, 0.03, "not in the list of printers")
ANSWER = CapacityAnswer(
    Summary("?", "An answer.", (), (), Scope(date(2026, 9, 14))),
    CapacityOptions(),
    date(2026, 9, 14),
    (SOUTH, NORTH),
    (OWN, BENCH),
    (OVER, KNOWN),
    (MORE, PHONE),
)
