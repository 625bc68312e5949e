"""The weekly meeting sheet: what changed, who can play, what is late, what to decide."""

from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.answers.base import CAUTION, Summary
from seasonboard.answers.checks.parts import ChecksAnswer
from seasonboard.answers.checks.report import CHECKS as CHECK_TABLE
from seasonboard.answers.departments.parts import DepartmentsAnswer
from seasonboard.answers.orders.cards import CARDS as ORDERS_CARDS
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.questions import CHECKS, DEPARTMENTS, ORDERS, ROSTER, WEEK
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.week.answer import day_words
from seasonboard.answers.week.cards import CARDS as WEEK_CARDS
from seasonboard.answers.week.parts import WeekAnswer, WeekItem, WeekOptions
from seasonboard.answers.words import plural
from seasonboard.documents.described import document_table
from seasonboard.documents.model import (
    Column,
    Document,
    Form,
    Paragraph,
    Part,
    Picture,
    Points,
    Room,
    Section,
    Table,
)
from seasonboard.documents.origin import Making, department_label, facts
from seasonboard.documents.svg.drawing import PictureWords
from seasonboard.documents.svg.week_strip import MOST_DAYS, week_strip
from seasonboard.documents.week.roster import order_parts, order_sheet, roster_parts, roster_sheet
from seasonboard.documents.week.tables import MOST_ROWS, all_rows, shown_table
from seasonboard.scope import Scope

TITLE = "Weekly meeting sheet"
OPEN = (
    "For insiders: this sheet holds names and records of athletes. Keep it where only those who "
    "may see them can, and do not hand it on."
)
COVERED = (
    "For insiders. The curtain is down: athletes are codes, and free text is covered. Teams, "
    "positions and dates stay and may tell who it is: it is still a private record."
)
_TOUCHED = ("week", "roster", "orders", "departments")
_ROWS = (
    ("games", "games"),
    ("practices", "practices"),
    ("injuries", "injuries"),
    ("returns", "returns"),
    ("asked", "orders"),
    ("fitted", "guards fitted"),
)


@dataclass(frozen=True, slots=True)
class _Answers:
    week: WeekAnswer
    roster: RosterAnswer
    orders: OrdersAnswer
    departments: DepartmentsAnswer
    checks: ChecksAnswer

    def summary(self) -> tuple[Summary, ...]:
        found = (self.week, self.roster, self.orders, self.departments)
        return tuple(answer.summary for answer in found)


def week_sheet(
    source: AnswerSource, scope: Scope, making: Making, options: WeekOptions | None = None
) -> Document:
    """Return the sheet of a weekly meeting; names are covered as far as the source covers them.

    Raises:
        ScopeError: `since` does not lie before the last day known.
        StoreError: The store could not be read.
    """
    found = _Answers(
        source.ask(WEEK, scope, options),
        source.ask(ROSTER, scope),
        source.ask(ORDERS, scope),
        source.ask(DEPARTMENTS, scope),
        source.ask(CHECKS, scope),
    )
    first = found.week.days[0].day if found.week.days else scope.through
    return Document(
        kind=making.kind,
        title=TITLE,
        of=f"{department_label(source.scope_values, scope)} · "
        f"{day_words(first)} to {day_words(scope.through)}",
        lead=found.week.summary.answer,
        notice=COVERED if source.is_covered else OPEN,
        sections=tuple(section for section in _sections(found) if section.parts),
        facts=facts(source, scope, making),
        cautions=(CAUTION, "Local rules come first."),
        keep_in_mind=(*_left_out(found.summary()), *_caveats(found.summary())),
        sources=_sources(),
        sheets=(
            roster_sheet(found.roster),
            order_sheet(found.orders),
            *(all_rows(item) for item in found.week.items if item.rows),
        ),
    )


def _sections(found: _Answers) -> tuple[Section, ...]:
    week = found.week
    strip = (_strip(week),) if week.days else ()
    games = shown_table(week.item("games"))
    return (
        Section("What changed", (*strip, *_items(week, is_ahead=False))),
        Section(
            "Who can play the next games",
            (*roster_parts(found.roster)[:1], *([games] if games else []),
             *roster_parts(found.roster)[1:]),
        ),
        Section("Late orders, and what is on its way", order_parts(found.orders)),
        Section("Departments", _departments(found.departments)),
        Section("Decisions", _decisions(week)),
        Section("Data checks that touch this sheet", _checks(found.checks)),
    )  # fmt: skip


def _items(week: WeekAnswer, *, is_ahead: bool) -> list[Part]:
    asked = (item for item in week.items if item.is_ahead is is_ahead and item.key != "decided")
    return [_item(item) for item in asked]


def _strip(week: WeekAnswer) -> Picture:
    days = week.days[-MOST_DAYS:]
    counts = [(label_, [int(getattr(day, name)) for day in days]) for name, label_ in _ROWS]
    title = "Day by day" if len(days) == len(week.days) else f"The last {MOST_DAYS} days"
    told = [f"{label_} {sum(row)}" for label_, row in counts]
    about = f"A column for each of {plural(len(days), 'day')}; in all {', '.join(told)}."
    table = Table(
        "day by day",
        "The same as a table",
        (Column("day"), *(Column(label_, Form.COUNT) for _, label_ in _ROWS)),
        tuple((day_words(day.day), *(getattr(day, name) for name, _ in _ROWS)) for day in days),
    )
    drawn = week_strip(PictureWords("week", title, about), [day.day for day in days], counts)
    return Picture(title, about, drawn, table)


def _departments(answer: DepartmentsAnswer) -> tuple[Part, ...]:
    """Return how the departments stand, where there are several to hold against each other."""
    if len(answer.departments) < 2:
        return ()
    table = Table(
        "departments",
        "Departments, those first that need attention most",
        (
            Column("department"),
            Column("open orders", Form.COUNT),
            Column("late", Form.COUNT),
            Column("decisions overdue", Form.COUNT),
            Column("ready for the next game", Form.SHARE),
            Column("available, 28 days", Form.SHARE),
        ),
        tuple(
            (d.name, d.open, d.late, d.overdue, d.ready.share, d.available.share)
            for d in answer.departments
        ),
    )
    reasons = tuple(f"{d.name}: {' '.join(d.attention)}" for d in answer.departments if d.attention)
    parts = (Paragraph(answer.summary.answer), table)
    return (*parts, Points(reasons)) if reasons else parts


def _decisions(week: WeekAnswer) -> tuple[Part, ...]:
    parts = [_item(week.item(key), most=30) for key in ("decisions", "decided")]
    return (*parts, Room("Decided in this meeting (what, who, by when):", 4))


def _item(item: WeekItem, *, most: int = MOST_ROWS) -> Part:
    """Return an item as its first rows, or as a sentence where it has none."""
    return shown_table(item, most=most) or Paragraph(item.sentence, f"{item.title}:")


def _checks(answer: ChecksAnswer) -> tuple[Part, ...]:
    """Return the checks that found something and touch a number of the sheet."""
    doubtful = [one for one in answer.doubtful if set(_TOUCHED) & set(one.check.touches)]
    if not doubtful:
        return (Paragraph("No data check that touches these numbers found anything."),)
    note = "Their rows: on the Checks screen, or seasonboard check --check NAME in the same scope."
    listed = document_table(
        *(CHECK_TABLE, answer, "data checks", "Checks that found something"),
        only=("check", "count", "asks", "mend"),
        headings={"mend": "to mend it"},
        rows=doubtful,
        note=note,
    )
    return (listed,)


def _left_out(summary: Sequence[Summary]) -> list[str]:
    told = [
        f"Left out: {one.what}, {one.why}: {one.count:,}."
        for each in summary
        for one in each.left_out
    ]
    return list(dict.fromkeys(told))


def _caveats(summary: Sequence[Summary]) -> list[str]:
    told = [caveat for each in summary for caveat in each.caveats if caveat != CAUTION]
    return list(dict.fromkeys(told))


def _sources() -> tuple[str, ...]:
    cards = (WEEK_CARDS["availability of the week"], ORDERS_CARDS["chance by the next game"])
    return tuple(f"{card.title}: {card.source}" for card in cards)
