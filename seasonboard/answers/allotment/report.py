"""The Allotment answer described: every figure once, for text, JSON and CSV."""

from dataclasses import replace

from seasonboard.answers.allotment.department_prints import DepartmentPrints, PrintWeek
from seasonboard.answers.allotment.parts import AllotmentAnswer
from seasonboard.answers.fields import Field, Group, Kind, Table, for_people, of, why
from seasonboard.answers.report import Report, table_text

WEEKS_IN_TEXT = 8
"""Weeks of a department that the text shows; CSV and JSON have all."""


def _plan_words(department: DepartmentPrints) -> str:
    allowed = department.prints_per_week
    plan = department.plan if allowed is None else f"{allowed} a week"
    return f"{department.name} ({plan})"


def _note(week: PrintWeek) -> str:
    if week.is_over:
        return "over the plan"
    return "" if week.is_whole else "not over yet"


DEPARTMENT = (
    Field("department", "key of the department"),
    Field("plan", "onsite printer or weekly allotment"),
    Field("prints_per_week", "prints that the plan allows in a week", Kind.COUNT, optional=True),
)

WEEKS = Table.described(
    "weeks",
    "a week, from Monday to Sunday",
    Field(
        "week",
        "its Monday",
        Kind.DAY,
        heading=_plan_words,
        show=lambda week: f"week of {week.week:%d %b}",
    ),
    Field("is_whole", "whether its Sunday is known", Kind.FLAG),
    Field("asked", "orders heard of in it", Kind.COUNT, heading="asked"),
    Field("prints", "guards printed in it", Kind.COUNT, heading="prints"),
    Field("hours", "printer hours of these", Kind.WHOLE, heading="hours"),
    Field("without_hours", "prints without hours recorded", Kind.COUNT),
    Field("queue", "orders not yet printed at its end", Kind.COUNT, heading="waiting"),
    Field("is_over", "whether more was printed than allowed", Kind.FLAG),
    Field(
        "hours_share", "hours used of hours available, 0 to 1", Kind.SHARE, heading="of available"
    ),
    for_people("note", "", _note),
    why(of("why")),
    reading=("week", "asked", "prints", "hours", "hours_share", "queue", "note"),
)

DEPARTMENTS = Table.described(
    "departments",
    "a department and its prints by week",
    *DEPARTMENT,
    Field("name", "its name"),
    Field("printers", "printers named in any of its orders, or listed as its own", Kind.COUNT),
    WEEKS,
    Field("whole_weeks", "whole weeks; sums are of these", Kind.COUNT),
    Field("prints", "guards printed", Kind.COUNT),
    Field("weeks_over", "weeks over the plan", Kind.COUNT),
    Field("used", "prints of prints allowed, 0 to 1", Kind.SHARE),
    Field("hours", "printer hours, a lower bound", Kind.TENTHS),
    *map(WEEKS.field, ("hours_share", "without_hours")),
    Field("queue", "orders not yet printed now", Kind.COUNT),
    Field("longest_queue", "most that waited at a week's end", Kind.COUNT),
    why(of("why")),
    why(of("hours_why"), "hours_share_why"),
)

DEPARTMENT_WEEKS = Table.described(
    "weeks",
    "a week of a department",
    Group("", lambda pair: pair[0], DEPARTMENT),
    Group("", lambda pair: pair[1], WEEKS.elements),
    rows=lambda answer: [
        (department, week) for department in answer.departments for week in department.weeks
    ],
)


def _week_lines(answer: AllotmentAnswer) -> list[str]:
    """Return the last weeks of each department, a table each."""
    last_weeks = replace(WEEKS, rows=lambda department: department.weeks[-WEEKS_IN_TEXT:])
    lines: list[str] = []
    for department in answer.departments:
        lines += ([""] if lines else []) + table_text(last_weeks, department)
    return lines


REPORT = Report((DEPARTMENTS,), csv=DEPARTMENT_WEEKS, text=(_week_lines,))
