"""The Departments answer as text to read in a terminal, and as CSV for a spreadsheet."""

from seasonboard.answers import words
from seasonboard.answers.departments.parts import (
    Allotment,
    DepartmentRow,
    DepartmentsAnswer,
    Numbers,
)
from seasonboard.answers.layout import as_csv, page, prose, table
from seasonboard.answers.safe_text import one_line
from seasonboard.stats.estimate import Estimate

_BARS = "▁▂▃▄▅▆▇█"


def departments_text(answer: DepartmentsAnswer) -> str:
    """Return the Departments answer as lines of text."""
    heads = (
        "department",
        "open",
        "late",
        "days, half within",
        "ready for game",
        "remade",
        "available",
        "worn in",
        "prints: last week, in all",
    )
    body = table(heads, [_row(row) for row in answer.departments])
    body += ["", *_trends(answer)]
    for row in answer.departments:
        if row.attention:
            body += prose(f"{one_line(row.name)}: {' '.join(row.attention)}", hang="  ")
    return page(answer.summary, body)


def _row(row: DepartmentRow) -> tuple[str, ...]:
    return (
        row.name,
        words.whole(row.open),
        words.whole(row.late),
        _days(row.turnaround),
        words.share_words(row.ready),
        words.share_words(row.remakes),
        "–" if row.available.share is None else words.percent(row.available.share),
        words.share_words(row.worn),
        _prints(row.allotment),
    )


def _days(median: Estimate) -> str:
    if median.value is None:
        return "–"
    high = "…" if median.high is None else words.number(median.high, digits=0)
    low = "…" if median.low is None else words.number(median.low, digits=0)
    return f"{words.number(median.value, digits=0)} ({low}–{high})"


def _prints(found: Allotment) -> str:
    if found.week_prints is None:
        return found.why
    if found.prints_per_week is None or found.used is None:
        return f"{found.week_prints}; {found.why}"
    return f"{found.week_prints} of {found.prints_per_week}, {words.percent(found.used)}"


def _trends(answer: DepartmentsAnswer) -> list[str]:
    if not answer.departments:
        return []
    weeks = answer.departments[0].trends.weeks
    heads = (f"by week from {weeks[0]}", "days", "remakes", "available", "worn")
    rows = [
        (
            row.name,
            spark(row.trends.turnaround),
            spark(row.trends.remakes),
            spark(row.trends.availability),
            spark(row.trends.worn),
        )
        for row in answer.departments
    ]
    return [*table(heads, rows), ""]


def spark(numbers: Numbers) -> str:
    """Return numbers as bars from their smallest to their largest; a dot where there is none."""
    known = [number for number in numbers if number is not None]
    if not known:
        return "·" * len(numbers)
    low, span = min(known), max(known) - min(known)
    top = len(_BARS) - 1
    return "".join(
        "·" if number is None else _BARS[round((number - low) / span * top) if span else 0]
        for number in numbers
    )


def departments_csv(answer: DepartmentsAnswer) -> str:
    """Return one row a department as CSV, unrounded; empty where nothing is known."""
    heads = (
        "department",
        "name",
        "plan",
        "open",
        "late",
        "turnaround_median_days",
        "turnaround_low",
        "turnaround_high",
        "ready_share",
        "ready_orders",
        "fitted",
        "remakes",
        "remake_share",
        "availability",
        "worn_share",
        "worn_sessions",
        "prints_last_week",
        "prints_per_week",
        "allotment_used",
        "weeks_over",
        "queue",
        "overdue_decisions",
        "attention",
    )
    return as_csv(heads, [_cells(row) for row in answer.departments])


def _cells(row: DepartmentRow) -> tuple[object, ...]:
    prints = row.allotment
    return (
        row.department,
        row.name,
        row.plan,
        row.open,
        row.late,
        row.turnaround.value,
        row.turnaround.low,
        row.turnaround.high,
        row.ready.share,
        row.ready.trials,
        row.remakes.trials,
        row.remakes.successes,
        row.remakes.share,
        row.available.share,
        row.worn.share,
        row.worn.trials,
        prints.week_prints,
        prints.prints_per_week,
        prints.used,
        prints.weeks_over,
        prints.queue,
        row.overdue,
        " ".join(row.attention),
    )
