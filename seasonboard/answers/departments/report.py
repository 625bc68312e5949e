"""The Departments answer described: every figure once, for text, JSON, CSV, pages and documents."""

from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.departments.parts import DepartmentRow, DepartmentsAnswer
from seasonboard.answers.estimate_fields import estimate
from seasonboard.answers.fields import Field, Group, Kind, Table, for_people, of, why
from seasonboard.answers.layout import prose
from seasonboard.answers.report import Report
from seasonboard.answers.safe_text import one_line
from seasonboard.answers.sparkline import sparkline


def _share(name: str, attribute: str, meaning: str, of_what: str, heading: str) -> Group:
    """Describe a share of so many orders, guards or sessions."""
    return estimate(
        *(name, of(attribute), meaning),
        kind=Kind.SHARE,
        key="share",
        more=(
            Field("count", "how many", Kind.COUNT, get=of("successes")),
            Field(of_what, f"of so many {of_what}", Kind.COUNT, get=of("trials")),
        ),
        heading=heading,
        show=words.share_words,
    )


def _prints_words(row: DepartmentRow) -> str:
    prints = row.allotment
    if prints.week_prints is None:
        return prints.why
    if prints.prints_per_week is None or prints.used is None:
        return f"{prints.week_prints}; {prints.why}"
    return f"{prints.week_prints} of {prints.prints_per_week}, {words.percent(prints.used)}"


_ALLOTMENT = (
    Field("prints_per_week", "prints that the plan allows", Kind.COUNT),
    Field("week", "Monday of the last whole week", Kind.DAY),
    Field("week_prints", "prints in it", Kind.COUNT),
    Field("week_used", "of those allowed, 0 to 1", Kind.SHARE),
    Field("used", "prints of those allowed in all whole weeks", Kind.SHARE, heading="prints used"),
    Field("weeks_over", "weeks over the plan", Kind.COUNT),
    Field("queue", "orders not yet printed", Kind.COUNT),
    why(of("why")),
)
_AVAILABLE = (
    Field("sessions", "team sessions", Kind.COUNT),
    Field("available", "athletes available at them", Kind.COUNT),
    Field("recorded", "those whose state can be told", Kind.COUNT),
    Field("not_known", "those whose state cannot", Kind.COUNT),
    Field("share", "available of recorded, 0 to 1", Kind.SHARE, heading="available"),
    why(of("why")),
)
_SERIES = ("turnaround", "remakes", "availability", "worn")


def _gaps(trends: object) -> str:
    has_gaps = any(None in getattr(trends, name) for name in _SERIES)
    return "null where nothing was recorded that week, or half are not done yet" * has_gaps


def _not_told(row: DepartmentRow) -> str:
    if row.late is None:
        return "late: too few orders were fitted to tell it"
    return "" if row.oldest_days is not None else "oldest_days: no order is open"


_TRENDS = (
    Field("weeks", "Mondays of the last weeks", Kind.DAY),
    Field("turnaround", "median days of orders begun in the week"),
    Field("remakes", "remakes asked for in the week"),
    Field("availability", "share available, 0 to 1"),
    Field("worn", "share of sessions worn in, 0 to 1"),
    why(_gaps),
)

DEPARTMENT_FIGURES = Table.described(
    "departments",
    "a department, those first that need attention most",
    Field("department", "key of the department", heading="department"),
    Field("name", "its name", heading="name"),
    for_people("client", "department", of("name")),
    Field("plan", "its plan", heading="plan"),
    Field("open", "open orders", Kind.COUNT, heading="open"),
    Field("late", "of them late", Kind.COUNT, heading="late"),
    why(_not_told),
    Field(
        "oldest_days", "days that the oldest is open", Kind.COUNT, heading="oldest", optional=True
    ),
    estimate(
        *("turnaround", of("turnaround"), "median days from request to fitting"),
        kind=Kind.DURATION,
        key="median",
        more=(Field("unit", "its unit", get=lambda _: "days", in_csv=False),),
        heading="median days",
        show=words.time_words,
    ),
    _share(
        *("ready_for_next_game", "ready", "share fitted before the next game"),
        *("orders", "ready for game"),
    ),
    _share("remakes", "remakes", "share of fitted guards remade", "fitted", "remade"),
    Group("allotment", of("allotment"), _ALLOTMENT, "prints against the plan"),
    for_people("prints", "prints: last week, in all", _prints_words),
    Group("availability", of("available"), _AVAILABLE, "in the last 28 days"),
    Group("availability_before", of("available_before"), _AVAILABLE, "28 days before"),
    _share("worn_share", "worn", "share of sessions worn in", "sessions", "worn in"),
    Field("overdue_decisions", "decisions overdue", Kind.COUNT, get=of("overdue")),
    Group("trends", of("trends"), _TRENDS, "one figure a week", in_csv=False),
    Field("attention", "what calls for attention, in sentences", heading="attention"),
    reading=(
        *(
            "client",
            "open",
            "late",
            "oldest_days",
            "turnaround.median",
            "ready_for_next_game.share",
        ),
        *("remakes.share", "availability.share", "worn_share.share", "prints"),
    ),
)

DEPARTMENT_ROWS = replace(
    DEPARTMENT_FIGURES,
    reading=(
        *("department", "name", "plan", "open", "late", "oldest_days", "turnaround.median"),
        *("ready_for_next_game.share", "remakes.share", "allotment.used"),
        *("availability.share", "worn_share.share", "attention"),
    ),
)
"""The same as rows that open on a screen."""


TRENDS = Table.described(
    "trends",
    "a department, a bar a week",
    for_people(
        *("name", lambda answer: f"by week from {answer.departments[0].trends.weeks[0]}"),
        of("name"),
    ),
    for_people("turnaround", "days", lambda row: sparkline(row.trends.turnaround)),
    for_people("remakes", "remakes", lambda row: sparkline(row.trends.remakes)),
    for_people("available", "available", lambda row: sparkline(row.trends.availability)),
    for_people("worn", "worn", lambda row: sparkline(row.trends.worn)),
    rows=of("departments"),
)


def attention_line(row: DepartmentRow) -> str:
    """Return what of a department calls for attention, after its name."""
    return f"{one_line(row.name)}: {' '.join(row.attention)}"


def _attention_lines(answer: DepartmentsAnswer) -> list[str]:
    needy = (row for row in answer.departments if row.attention)
    return [line for row in needy for line in prose(attention_line(row), hang="  ")]


REPORT = Report(
    (DEPARTMENT_FIGURES,),
    csv=DEPARTMENT_FIGURES,
    text=(DEPARTMENT_FIGURES, TRENDS, _attention_lines),
)
