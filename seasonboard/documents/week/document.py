"""The weekly meeting sheet: what can still be changed, who can play, what to decide."""

from collections.abc import Sequence

from seasonboard.answers.base import CAUTION, Summary
from seasonboard.answers.capacity.report import QUEUE
from seasonboard.answers.cards import read_cards
from seasonboard.answers.checks.parts import ChecksAnswer
from seasonboard.answers.checks.report import CHECKS as CHECK_TABLE
from seasonboard.answers.departments.parts import DepartmentsAnswer
from seasonboard.answers.departments.report import DEPARTMENT_FIGURES, attention_line
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.answers.orders.report import ORDERS as ORDER_TABLE
from seasonboard.answers.questions import CAPACITY, CHECKS, DEPARTMENTS, ORDERS, ROSTER, WEEK
from seasonboard.answers.roster.athletes_table import ATHLETES
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.roster.words import STRIP_KEY
from seasonboard.answers.source import AnswerSource
from seasonboard.answers.week.parts import MOST_DAYS, WeekAnswer, WeekItem, WeekOptions, day_words
from seasonboard.answers.week.report import DAYS, day_counts
from seasonboard.answers.words import plural
from seasonboard.documents.described import as_held, document_table, workbook_table
from seasonboard.documents.model import (
    Document,
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
from seasonboard.documents.svg.week_strip import week_strip
from seasonboard.documents.week.tables import (
    MOST_ROWS,
    order_parts,
    paper_table,
    print_parts,
    roster_parts,
)
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
_SOURCES = tuple(
    f"{card.title}: {card.source}"
    for card in (
        read_cards("week")["availability of the week"],
        read_cards("orders")["chance by the next game"],
    )
)
_TOUCHED = ("week", "roster", "orders", "departments")


def week_sheet(
    source: AnswerSource, scope: Scope, making: Making, options: WeekOptions | None = None
) -> Document:
    """Return the sheet of a weekly meeting; names are covered as far as the source covers them.

    Raises:
        ScopeError: `since` does not lie before the last day known.
        StoreError: The store could not be read.
    """
    week = source.ask(WEEK, scope, options)
    roster, orders = source.ask(ROSTER, scope), source.ask(ORDERS, scope)
    departments, checks = source.ask(DEPARTMENTS, scope), source.ask(CHECKS, scope)
    prints = source.ask(CAPACITY, scope)
    summaries = [answer.summary for answer in (week, roster, orders, departments, prints)]
    still, *rest = _sections(week, roster, orders, departments, checks)
    sections = (still, Section("The order of prints to agree on", print_parts(prints)), *rest)
    first = week.days[0].day if week.days else scope.through
    return Document(
        kind=making.kind,
        title=TITLE,
        of=f"{department_label(source.scope_values, scope)} · "
        f"{day_words(first)} to {day_words(scope.through)}",
        lead=week.summary.answer,
        notice=COVERED if source.is_covered else OPEN,
        sections=tuple(section for section in sections if section.parts),
        facts=facts(source, scope, making),
        cautions=(CAUTION, "Local rules come first."),
        keep_in_mind=_keep_in_mind(summaries),
        sources=_SOURCES,
        sheets=(
            workbook_table(ATHLETES, roster, "roster, all", f"Every athlete. {STRIP_KEY}"),
            workbook_table(ORDER_TABLE, orders, "open orders, all", "Every open order"),
            workbook_table(QUEUE, prints, "prints, all", "Every print that waits, in order"),
            *(_item_sheet(item) for item in week.items if item.rows),
        ),
    )


def _sections(
    week: WeekAnswer,
    roster: RosterAnswer,
    orders: OrdersAnswer,
    departments: DepartmentsAnswer,
    checks: ChecksAnswer,
) -> tuple[Section, ...]:
    strip = (_strip(week),) if week.days else ()
    who, *teams = roster_parts(roster)
    games = filter(None, [paper_table(week.item("games"))])
    decisions = [_item(week.item(key), most=30) for key in ("decisions", "decided")]
    room = Room("Decided in this meeting (what, who, by when):", 4)
    changes = [item for item in week.items if not item.is_ahead and item.key != "decided"]
    still = week.item("change")
    return (
        Section(still.title, (_item(still),)),
        Section("What changed", (*strip, *map(_item, changes))),
        Section("Who can play the next games", (who, *games, *teams)),
        Section("Late orders, and what is on its way", order_parts(orders)),
        Section("Departments", _departments(departments)),
        Section("Decisions", (*decisions, room)),
        Section("Data checks that touch this sheet", _checks(checks)),
    )


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


def _item(item: WeekItem, *, most: int = MOST_ROWS) -> Part:
    return paper_table(item, most=most) or Paragraph(item.sentence, f"{item.title}:")


def _item_sheet(item: WeekItem) -> Table:
    caption = f"{item.title}:"
    return workbook_table(item.table, item, f"week {item.key}", caption, lead=item.sentence)


def _checks(answer: ChecksAnswer) -> tuple[Part, ...]:
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


def _keep_in_mind(summaries: Sequence[Summary]) -> tuple[str, ...]:
    lines = [
        f"Left out: {one.what}, {one.why}: {one.count:,}."
        for summary in summaries
        for one in summary.left_out
    ]
    lines += [one for summary in summaries for one in summary.caveats if one != CAUTION]
    return tuple(dict.fromkeys(lines))
