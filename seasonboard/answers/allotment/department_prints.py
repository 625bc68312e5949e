"""Prints of one department by week, against its allotment and its printers' hours."""

from dataclasses import dataclass, replace
from datetime import date
from typing import Any

import polars as pl

from seasonboard.scope import ScopeValues

ONSITE = "onsite printer"
"""The plan of a department that prints on its own printer."""
NO_HOURS = "no hours are recorded"


@dataclass(frozen=True, slots=True)
class PrintWeek:
    """One week (its Monday) of one department.

    `queue` are the orders heard of and neither printed nor called off by its end. `is_over`: more
    was printed than the plan allows. `hours_share` is hours used of hours available; None, with
    `why`, without a printer of the department's own, or where no hours are recorded.
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
    why: str = ""


@dataclass(frozen=True, slots=True)
class DepartmentPrints:
    """Prints of one department against its plan; sums and shares are of whole weeks.

    `used` is prints of prints allowed, None without an allotment, with `why`; `hours_share` is
    hours used of hours available, None with `hours_why`. `printers` are those named in any of its
    orders or listed as its own; `hours` are a lower bound where `without_hours` prints have none
    recorded.
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


def department_prints(weeks: pl.DataFrame, scope_values: ScopeValues) -> DepartmentPrints:
    """Return one department's prints from its rows of `allotment/weeks`; at least one row."""
    department, plan, allowed = weeks.select("department", "plan", "prints_per_week").row(0)
    printers = int(weeks["printers"][0])
    own = float(weeks["weekly_hours"][0]) if plan == ONSITE else 0.0
    counted = [_week(row, allowed, own) for row in weeks.iter_rows(named=True)]
    whole = [week for week in counted if week.is_whole]
    prints = sum(week.prints for week in whole)
    hours = sum(week.hours for week in whole)
    timed = any(week.hours_share is not None for week in whole)
    hours_why = "" if timed else _hours_why(plan, printers, len(whole))
    return DepartmentPrints(
        department=department,
        name=scope_values.name_of("department", department),
        plan=plan,
        prints_per_week=allowed,
        printers=printers,
        weeks=tuple(
            week if week.hours_share is not None else replace(week, why=hours_why or NO_HOURS)
            for week in counted
        ),
        whole_weeks=len(whole),
        prints=prints,
        weeks_over=sum(week.is_over for week in whole),
        used=prints / (allowed * len(whole)) if allowed and whole else None,
        hours=hours,
        hours_share=hours / (own * len(whole)) if timed else None,
        without_hours=sum(week.without_hours for week in whole),
        queue=counted[-1].queue,
        longest_queue=max(week.queue for week in counted),
        why=_why(allowed, plan, len(whole)),
        hours_why=hours_why,
    )


def _week(row: dict[str, Any], allowed: int | None, available: float) -> PrintWeek:
    is_timed = available > 0 and row["prints"] > row["without_hours"]
    return PrintWeek(
        **{name: row[name] for name in _COUNTED},
        is_over=allowed is not None and row["prints"] > allowed,
        hours_share=row["hours"] / available if is_timed else None,
    )


_COUNTED = ("week", "is_whole", "asked", "prints", "hours", "without_hours", "queue")


def _why(allowed: int | None, plan: str, whole: int) -> str:
    if not whole:
        return "no whole week is known yet"
    if allowed:
        return ""
    if plan == ONSITE:
        return "it prints on its own printer"
    return "no allotment is recorded" if allowed is None else "its allotment is no print at all"


def _hours_why(plan: str, printers: int, whole: int) -> str:
    if plan != ONSITE:
        return "it has no printer of its own"
    if not printers:
        return "no printer is named in its orders"
    return NO_HOURS if whole else "no whole week is known yet"
