"""The rows behind the working season: roster, orders, one athlete, departments, the week."""

from collections.abc import Iterable

from polars import selectors

from seasonboard.answers.departments.parts import DepartmentsAnswer
from seasonboard.answers.orders.order_times import order_params
from seasonboard.answers.reader import Reader
from seasonboard.answers.report import table_rows
from seasonboard.answers.roster.athlete import AthleteTimeline
from seasonboard.answers.roster.athlete_report import LATEST_FIRST
from seasonboard.answers.roster.athletes_table import GUARD_ROWS
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.rows import Cell, Column, Rows, page_rows
from seasonboard.answers.take_up.parts import TakeUpAnswer
from seasonboard.answers.turnaround.parts import OrderGroup
from seasonboard.answers.week.parts import WeekItem
from seasonboard.paging import FIRST, PageAsked, PageFound
from seasonboard.scope import Scope

_ORDER = (
    Column("guard", "guard"),
    Column("athlete", "athlete"),
    Column("name", "name"),
    Column("team", "team"),
    Column("kind", "kind"),
    Column("side", "side"),
    Column("purpose", "purpose"),
    Column("state", "state"),
    Column("stage", "stage"),
    Column("requested_at", "requested"),
    Column("scanned_at", "scanned"),
    Column("modelled_at", "modelled"),
    Column("printed_at", "printed"),
    Column("finished_at", "finished"),
    Column("shipped_at", "shipped"),
    Column("delivered_at", "delivered"),
    Column("fitted_at", "fitted"),
    Column("scan_method", "scan by"),
    Column("printer", "printer"),
    Column("remake_of", "in place of"),
)
_DEPARTMENT = (
    Column("department", "department"),
    Column("name", "name"),
    Column("plan", "plan"),
    Column("open", "open", is_number=True),
    Column("late", "late", is_number=True),
    Column("median", "days, half", is_number=True),
    Column("ready", "ready", is_number=True),
    Column("remade", "remade", is_number=True),
    Column("used", "prints used", is_number=True),
    Column("available", "available", is_number=True),
    Column("worn", "worn", is_number=True),
    Column("attention", "attention"),
)
_STEPS = (
    Column("by", "by"),
    Column("group", "group"),
    Column("step", "step"),
    Column("athletes", "athletes", is_number=True),
    Column("of_before", "of the step before", is_number=True),
    Column("of_eligible", "of the eligible", is_number=True),
)


def order_rows(reader: Reader, scope: Scope, page: PageAsked = FIRST) -> Rows:
    """Return every order of the scope with its stages; instants are those of UTC."""
    return _orders("Orders", reader.read_page("orders/orders", page, **order_params(scope)), page)


def group_rows(reader: Reader, scope: Scope, group: OrderGroup, page: PageAsked = FIRST) -> Rows:
    """Return the orders of one group with their stages, as `order_rows`."""
    asked = {**order_params(scope), "by": group.by.value, "member": group.key}
    return _orders(
        f"Orders: {group.name}", reader.read_page("orders/of_group", page, **asked), page
    )


def _orders(title: str, found: PageFound, page: PageAsked) -> Rows:
    told = found.rows.with_columns(selectors.datetime().dt.to_string("%Y-%m-%d %H:%M"))
    return page_rows(title, _ORDER, PageFound(told, found.matching, found.total), page)


def roster_rows(answer: RosterAnswer) -> Rows:
    """Return the roster, one row a guard, and one for everybody without any."""
    return table_rows(GUARD_ROWS, answer, "Roster")


def timeline_rows(timeline: AthleteTimeline) -> Rows:
    """Return one athlete's season, the latest first."""
    return table_rows(LATEST_FIRST, timeline, f"{timeline.name} ({timeline.athlete})")


def department_rows(answer: DepartmentsAnswer) -> Rows:
    """Return the figures of every department, unrounded."""
    rows = [
        (
            *(row.department, row.name, row.plan, row.open, row.late),
            *(row.turnaround.value, row.ready.share, row.remakes.share),
            *(row.allotment.used, row.available.share, row.worn.share),
            "; ".join(row.attention) or None,
        )
        for row in answer.departments
    ]
    return _whole("Departments", _DEPARTMENT, rows)


def take_up_rows(answer: TakeUpAnswer) -> Rows:
    """Return every step of every group."""
    listed = (("all", (answer.whole,)), ("kind", answer.kinds), (answer.by.value, answer.groups))
    rows = [
        (by, group.group, s.step, s.count, s.of_before.share, s.of_eligible.share)
        for by, groups in dict(listed).items()
        for group in groups
        for s in group.steps
    ]
    return _whole("Steps", _STEPS, rows)


def week_rows(item: WeekItem) -> Rows:
    """Return the rows behind one item of the week."""
    return _whole(item.title, item.columns, item.rows)


def _whole(title: str, columns: tuple[Column, ...], rows: Iterable[tuple[Cell, ...]]) -> Rows:
    found = tuple(rows)
    return Rows(title, columns, found, len(found), len(found))
