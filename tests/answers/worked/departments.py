"""Two departments: one with every figure, no two of them alike; of the other nothing is known."""

from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.departments.parts import (
    Allotment,
    Available,
    DepartmentRow,
    DepartmentsAnswer,
    Trends,
)
from seasonboard.scope import Scope
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion

WEEKS = (date(2026, 9, 7), date(2026, 9, 14), date(2026, 9, 21))
NORTH = DepartmentRow(
    department="N", name="North College", plan="weekly allotment", open=15, late=4, oldest_days=54,
    turnaround=Estimate(12.5, 11.0, 14.0),
    ready=Proportion(0.5, 0.375, 0.625, successes=16, trials=32),
    remakes=Proportion(0.1, 0.05, 0.2, successes=3, trials=30),
    allotment=Allotment(10, date(2026, 9, 8), 7, 0.7, 0.8, 2, 6, ""),
    available=Available(28, 450, 500, 21, 0.9),
    available_before=Available(27, 430, 490, 22, 0.88),
    worn=ClusteredShare(0.75, 0.7, 0.78, successes=300, trials=400, clusters=40),
    overdue=5,
    trends=Trends(WEEKS, (9.0, 13.0, 11.0), (1.0, 0.0, 2.0), (0.92, 0.86, 0.9), (0.66, 0.77, 0.69)),
    attention=("4 orders late, of 15 open.", "5 decisions overdue."),
)  # fmt: skip
NOTHING = "nothing was counted"
SOUTH = DepartmentRow(
    department="S", name="South State", plan="onsite printer", open=1, late=None, oldest_days=61,
    turnaround=Estimate(None, why="there are no orders"), ready=Proportion(None, why=NOTHING),
    remakes=Proportion(None, why=NOTHING),
    allotment=Allotment(None, None, None, None, None, 8, 9, "it prints on its own printer"),
    available=Available(0, 11, 0, 12, None, "no attendance is recorded"),
    available_before=Available(0, 13, 0, 14, None, "no attendance was recorded"),
    worn=ClusteredShare(None, why=NOTHING),
    overdue=0,
    trends=Trends(WEEKS, (None,) * 3, (0.0, 1.0, 0.0), (None,) * 3, (None,) * 3),
)  # fmt: skip
ANSWER = DepartmentsAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20))), departments=(NORTH, SOUTH)
)
