"""The Departments answer as JSON for scripts."""

from dataclasses import asdict

from seasonboard.answers.departments.parts import (
    Allotment,
    Available,
    DepartmentRow,
    DepartmentsAnswer,
    Trends,
)
from seasonboard.answers.json_parts import Json, summary_json, without_empty_why
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.proportions import Proportion


def departments_json(answer: DepartmentsAnswer) -> Json:
    """Return the Departments answer as one JSON object."""
    return {
        **summary_json(answer.summary, "departments"),
        "departments": [_row(row) for row in answer.departments],
    }


def _row(row: DepartmentRow) -> Json:
    median = row.turnaround
    return {
        "department": row.department,
        "name": row.name,
        "plan": row.plan,
        "open": row.open,
        "late": row.late,
        "turnaround": without_empty_why(
            {
                "median": median.value,
                "low": median.low,
                "high": median.high,
                "unit": "days",
                "why": median.why,
            }
        ),
        "ready_for_next_game": _share(row.ready, "orders"),
        "remakes": _share(row.remakes, "fitted"),
        "allotment": _allotment(row.allotment),
        "availability": _available(row.available),
        "availability_before": _available(row.available_before),
        "worn_share": _share(row.worn, "sessions"),
        "overdue_decisions": row.overdue,
        "trends": _trends(row.trends),
        "attention": list(row.attention),
    }


def _share(found: Proportion | ClusteredShare, unit: str) -> Json:
    return without_empty_why(
        {
            "count": found.successes,
            unit: found.trials,
            "share": found.share,
            "low": found.low,
            "high": found.high,
            "why": found.why,
        }
    )


def _allotment(found: Allotment) -> Json:
    week = None if found.week is None else found.week.isoformat()
    return without_empty_why(asdict(found) | {"week": week, "why": found.why})


def _available(found: Available) -> Json:
    return without_empty_why(asdict(found))


def _trends(found: Trends) -> Json:
    series = {
        name: list(getattr(found, name))
        for name in ("turnaround", "remakes", "availability", "worn")
    }
    gaps = any(None in numbers for numbers in series.values())
    return without_empty_why(
        {
            "weeks": [week.isoformat() for week in found.weeks],
            **series,
            "why": "null where nothing was recorded that week, or half are not done yet"
            if gaps
            else "",
        }
    )
