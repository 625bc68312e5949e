"""What the Allotment answer is made of."""

from dataclasses import dataclass
from datetime import date

from seasonboard.answers.base import Summary

HOURS_A_WEEK = 168.0
"""Hours a printer could run in a week: all of them; nights and weekends print too."""


@dataclass(frozen=True, slots=True)
class PrintWeek:
    """One week (its Monday) of one department.

    `queue` are the orders heard of and neither printed nor called off by its end. `is_over`: more
    was printed than the plan allows. `hours_share` is hours used of hours available; None without
    a printer of the department's own, or where no hours are recorded.
    """

    week: date
    is_whole: bool
    asked: int
    prints: int
    hours: float
    without_hours: int
    queue: int
    is_over: bool
    hours_share: float | None


@dataclass(frozen=True, slots=True)
class DepartmentPrints:
    """Prints of one department against its plan; sums and shares are of whole weeks.

    `used` is prints of prints allowed, None without an allotment, with `why`; `hours_share` is
    hours used of hours available, None with `hours_why`. `printers` are those named in any of its
    orders; `hours` are a lower bound where `without_hours` prints have none recorded.
    """

    department: str
    name: str
    plan: str
    prints_per_week: int | None
    printers: int
    weeks: tuple[PrintWeek, ...]
    whole_weeks: int
    prints: int
    weeks_over: int
    used: float | None
    hours: float
    hours_share: float | None
    without_hours: int
    queue: int
    longest_queue: int
    why: str = ""
    hours_why: str = ""


@dataclass(frozen=True, slots=True)
class AllotmentAnswer:
    """Prints by week against each department's plan."""

    summary: Summary
    departments: tuple[DepartmentPrints, ...]
