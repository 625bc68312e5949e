"""The Allotment answer as text, CSV and JSON."""

from dataclasses import asdict

from seasonboard.answers import words
from seasonboard.answers.allotment.parts import AllotmentAnswer, DepartmentPrints
from seasonboard.answers.json_parts import Json, summary_json
from seasonboard.answers.layout import as_csv, page, table

LAST_WEEKS = 8
"""Weeks shown in the text; CSV and JSON have all."""


def allotment_text(answer: AllotmentAnswer) -> str:
    """Return the Allotment answer as lines of text."""
    body: list[str] = []
    for found in answer.departments:
        body += [*_table(found), ""]
    return page(answer.summary, body[:-1] if body else [])


def _table(found: DepartmentPrints) -> list[str]:
    plan = found.plan if found.prints_per_week is None else f"{found.prints_per_week} a week"
    heads = (f"{found.name} ({plan})", "asked", "prints", "hours", "of available", "waiting", "")
    rows = [
        (
            f"week of {week.week:%d %b}",
            words.whole(week.asked),
            words.whole(week.prints),
            words.number(week.hours, digits=0),
            "–" if week.hours_share is None else words.percent(week.hours_share),
            words.whole(week.queue),
            "over the plan" if week.is_over else "" if week.is_whole else "not over yet",
        )
        for week in found.weeks[-LAST_WEEKS:]
    ]
    return table(heads, rows)


def allotment_csv(answer: AllotmentAnswer) -> str:
    """Return every week as CSV, unrounded; empty where nothing is known."""
    heads = (
        *("department", "plan", "prints_per_week", "week", "is_whole", "asked", "prints"),
        *("hours", "without_hours", "queue", "is_over", "hours_share"),
    )
    rows = [
        (found.department, found.plan, found.prints_per_week, *asdict(week).values())
        for found in answer.departments
        for week in found.weeks
    ]
    return as_csv(heads, rows)


def allotment_json(answer: AllotmentAnswer) -> Json:
    """Return the Allotment answer as one JSON object."""
    return {
        **summary_json(answer.summary, "allotment"),
        "departments": [_department(found) for found in answer.departments],
    }


def _department(found: DepartmentPrints) -> Json:
    own = asdict(found)
    own["weeks"] = [
        {**asdict(week), "week": week.week.isoformat()}
        | ({} if week.hours_share is not None else {"why": found.hours_why or "no hours recorded"})
        for week in found.weeks
    ]
    return {name: value for name, value in own.items() if value != "" or "why" not in name}
