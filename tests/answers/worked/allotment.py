"""Two departments: one with an allotment, one with a printer of its own whose hours are known."""

from datetime import date

from seasonboard.answers.allotment.department_prints import DepartmentPrints, PrintWeek
from seasonboard.answers.allotment.parts import AllotmentAnswer
from seasonboard.answers.base import Summary
from seasonboard.scope import Scope

NO_PRINTER = "it has no printer of its own"
NORTH = DepartmentPrints(
    department="north",
    name="North College",
    plan="weekly allotment",
    prints_per_week=6,
    printers=0,
    weeks=(
        PrintWeek(date(2026, 9, 7), True, 14, 8, 20.5, 3, 9, True, None, NO_PRINTER),
        PrintWeek(date(2026, 9, 14), False, 2, 1, 4.25, 0, 10, False, None, NO_PRINTER),
    ),
    whole_weeks=1, prints=8, weeks_over=2, used=1.375, hours=20.5, hours_share=None,
    without_hours=3, queue=10, longest_queue=12, hours_why=NO_PRINTER,
)  # fmt: skip
SOUTH = DepartmentPrints(
    department="south",
    name="South State",
    plan="onsite printer",
    prints_per_week=None,
    printers=2,
    weeks=(PrintWeek(date(2026, 9, 7), True, 5, 4, 84.0, 1, 3, False, 0.25),),
    whole_weeks=15, prints=61, weeks_over=0, used=None, hours=1260.5, hours_share=0.125,
    without_hours=9, queue=3, longest_queue=7, why="it prints on its own printer",
)  # fmt: skip
ANSWER = AllotmentAnswer(
    Summary("?", "An answer.", (), (), Scope(date(2026, 9, 16))), (NORTH, SOUTH)
)
