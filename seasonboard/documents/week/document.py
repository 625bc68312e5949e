"""The weekly meeting sheet: what changed, who can play, what is late, what to decide."""

from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.answers.base import CAUTION, Summary
from seasonboard.answers.cards import read_cards
from seasonboard.answers.checks.parts import ChecksAnswer
from seasonboard.answers.checks.report import CHECKS as CHECK_TABLE
from seasonboard.answers.departments.parts import DepartmentsAnswer
from seasonboard.answers.departments.report import DEPARTMENT_FIGURES, attention_line
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.questions import CHECKS, DEPARTMENTS, ORDERS, ROSTER, WEEK
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.week.parts import (
    MOST_DAYS,
    WeekAnswer,
    WeekItem,
    WeekOptions,
    day_words,
)
from seasonboard.answers.week.report import DAYS, day_counts
from seasonboard.answers.words import plural
from seasonboard.documents.described import as_held, document_table
from seasonboard.documents.model import (
    Document,
    Paragraph,
    Part,
    Picture,
    Points,
    Room,
    Section,
)
from seasonboard.documents.origin import Making, department_label, facts
from seasonboard.documents.svg.drawing import PictureWords
from seasonboard.documents.svg.week_strip import week_strip
from seasonboard.documents.week.roster import order_parts, order_sheet, roster_parts, roster_sheet
from seasonboard.documents.week.tables import MOST_ROWS, item_sheet, paper_table
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


@dataclass(frozen=True, slots=True)
class _Answers:
    week: WeekAnswer
    roster: RosterAnswer
    orders: OrdersAnswer
    departments: DepartmentsAnswer
    checks: ChecksAnswer

    def summaries(self) -> tuple[Summary, ...]:
        answers = (self.week, self.roster, self.orders, self.departments)
        return tuple(answer.summary for answer in answers)


def week_sheet(
    source: AnswerSource, scope: Scope, making: Making, options: WeekOptions | None = None
) -> Document:
    """Return the sheet of a weekly meeting; names are covered as far as the source covers them.

    Raises:
        ScopeError: `since` does not lie before the last day known.
        StoreError: The store could not be read.
    """
    answers = _Answers(
        source.ask(WEEK, scope, options),
        source.ask(ROSTER, scope),
        source.ask(ORDERS, scope),
        source.ask(DEPARTMENTS, scope),
        source.ask(CHECKS, scope),
    )
    first = answers.week.days[0].day if answers.week.days else scope.through
    return Document(
        kind=making.kind,
        title=TITLE,
        of=f"{department_label(source.scope_values, scope)} · "
        f"{day_words(first)} to {day_words(scope.through)}",
        lead=answers.week.summary.answer,
        notice=COVERED if source.is_covered else OPEN,
        sections=tuple(section for section in _sections(answers) if section.parts),
        facts=facts(source, scope, making),
        cautions=(CAUTION, "Local rules come first."),
        keep_in_mind=(*_left_out(answers.summaries()), *_caveats(answers.summaries())),
        sources=_sources(),
        sheets=(
            roster_sheet(answers.roster),
            order_sheet(answers.orders),
            *(item_sheet(item) for item in answers.week.items if item.rows),
        ),
    )


def _sections(answers: _Answers) -> tuple[Section, ...]:
    week = answers.week
    strip = (_strip(week),) if week.days else ()
    games = paper_table(week.item("games"))
    return (
        Section("What changed", (*strip, *_items(week, is_ahead=False))),
        Section(
            "Who can play the next games",
            (*roster_parts(answers.roster)[:1], *([games] if games else []),
             *roster_parts(answers.roster)[1:]),
        ),
        Section("Late orders, and what is on its way", order_parts(answers.orders)),
        Section("Departments", _departments(answers.departments)),
        Section("Decisions", _decisions(week)),
        Section("Data checks that touch this sheet", _checks(answers.checks)),
    )  # fmt: skip


def _items(week: WeekAnswer, *, is_ahead: bool) -> list[Part]:
    items = (item for item in week.items if item.is_ahead is is_ahead and item.key != "decided")
    return [_item(item) for item in items]


def _strip(week: WeekAnswer) -> Picture:
    days = week.days[-MOST_DAYS:]
    counts = day_counts(days)
    title = "Day by day" if len(days) == len(week.days) else f"The last {MOST_DAYS} days"
    sums = ", ".join(f"{heading} {sum(row)}" for heading, row in counts)
    about = f"A column for each of {plural(len(days), 'day')}; in all {sums}."
    table = document_table(DAYS, week, "day by day", "The same as a table", rows=days)
    svg = week_strip(PictureWords("week", title, about), [day.day for day in days], counts)
    return Picture(title, about, svg, table)


def _departments(answer: DepartmentsAnswer) -> tuple[Part, ...]:
    """Return how the departments stand, where there are several to hold against each other."""
    if len(answer.departments) < 2:
        return ()
    table = document_table(
        *(DEPARTMENT_FIGURES, answer, "departments"),
        "Departments, those first that need attention most",
        only=(
            *("name", "open", "late", "overdue_decisions"),
            *("ready_for_next_game.share", "availability.share"),
        ),
        headings={
            "name": "department",
            "open": "open orders",
            "overdue_decisions": "decisions overdue",
            "ready_for_next_game.share": "ready for the next game",
            "availability.share": "available, 28 days",
        },
        cell=as_held,
    )
    reasons = tuple(attention_line(row) for row in answer.departments if row.attention)
    parts = (Paragraph(answer.summary.answer), table)
    return (*parts, Points(reasons)) if reasons else parts


def _decisions(week: WeekAnswer) -> tuple[Part, ...]:
    parts = [_item(week.item(key), most=30) for key in ("decisions", "decided")]
    return (*parts, Room("Decided in this meeting (what, who, by when):", 4))


def _item(item: WeekItem, *, most: int = MOST_ROWS) -> Part:
    """Return an item as its first rows, or as a sentence where it has none."""
    return paper_table(item, most=most) or Paragraph(item.sentence, f"{item.title}:")


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


def _left_out(summaries: Sequence[Summary]) -> list[str]:
    lines = [
        f"Left out: {one.what}, {one.why}: {one.count:,}."
        for summary in summaries
        for one in summary.left_out
    ]
    return list(dict.fromkeys(lines))


def _caveats(summaries: Sequence[Summary]) -> list[str]:
    caveats = [one for summary in summaries for one in summary.caveats if one != CAUTION]
    return list(dict.fromkeys(caveats))


def _sources() -> tuple[str, ...]:
    week, orders = read_cards("week"), read_cards("orders")
    cards = (week["availability of the week"], orders["chance by the next game"])
    return tuple(f"{card.title}: {card.source}" for card in cards)
