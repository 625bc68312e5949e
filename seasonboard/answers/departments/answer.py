"""How is each client doing? One row a department, those first that need attention most."""

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.allotment.department_prints import department_prints
from seasonboard.answers.base import CAUTION, Summary
from seasonboard.answers.departments import weeks as weekly
from seasonboard.answers.departments.attention import PooledFigures, attention, by_need
from seasonboard.answers.departments.parts import (
    AVAILABILITY_DAYS,
    Allotment,
    DepartmentRow,
    DepartmentsAnswer,
    Numbers,
    Trends,
)
from seasonboard.answers.orders.open_orders import waiting_orders
from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.questions import DEPARTMENTS
from seasonboard.answers.reader import Reader, read_frames
from seasonboard.answers.take_up.counts import NOTHING_WORN, worn_shares
from seasonboard.answers.turnaround.groups import TurnaroundGroup, turnaround_groups
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.scope import Scope, ScopeValues
from seasonboard.stats.proportions import wilson
from seasonboard.stats.waiting_times import wait_curve, wait_quantile

_QUESTIONS = (
    *("week/orders", "allotment/weeks", "orders/histories", "roster/sessions"),
    *("take_up/wear", "departments/teams", "week/decisions"),
)


def departments(reader: Reader, scope: Scope, scope_values: ScopeValues) -> DepartmentsAnswer:
    """Put the figures of every department of the scope side by side."""
    frames = read_frames(reader, scope, *_QUESTIONS, since=scope.through)
    counts = _count(frames, scope, scope_values)
    clients = frames["departments/teams"].unique("department", maintain_order=True)
    rows = [_row(client, counts, scope) for client in clients.iter_rows(named=True)]
    ranked = by_need([replace(row, attention=attention(row, counts.pooled)) for row in rows])
    return DepartmentsAnswer(
        Summary(DEPARTMENTS.asks, _sentence(ranked), _caveats(ranked, scope), (), scope), ranked
    )


@dataclass(frozen=True, slots=True)
class _Counts:
    """Everything that is counted for all departments at once, by department."""

    turnaround: Mapping[str, TurnaroundGroup]
    open: Mapping[str, int]
    late: Mapping[str, int]
    untold: Collection[str]
    oldest: Mapping[str, int]
    remade: Mapping[str, tuple[int, int]]
    allotment: Mapping[str, Allotment]
    available: tuple[Mapping[Any, Any], Mapping[Any, Any], Mapping[Any, Any]]
    worn: tuple[Mapping[Any, Any], Mapping[Any, Any]]
    overdue: Mapping[str | None, int]
    turnaround_weeks: Mapping[str, Numbers]
    remake_weeks: Mapping[str, Numbers]
    pooled: PooledFigures


def _count(frames: Mapping[str, pl.DataFrame], scope: Scope, scope_values: ScopeValues) -> _Counts:
    orders = frames["week/orders"]
    weeks = weekly.trend_weeks(scope.through)
    pooled, groups = turnaround_groups(
        orders, TurnaroundOptions(by=OrdersBy.DEPARTMENT), level=scope.level
    )
    waiting = waiting_orders(orders, frames["orders/histories"], scope)
    oldest: dict[str, int] = {}
    for order in waiting:
        oldest[order.department] = max(order.age_days, oldest.get(order.department, 0))
    overdue = frames["week/decisions"].filter(
        pl.col("done_on").is_null() & (pl.col("due_on") < scope.through)
    )
    return _Counts(
        turnaround={group.key: group for group in groups},
        open=Counter(order.department for order in waiting),
        late=Counter(order.department for order in waiting if order.is_late),
        untold={order.department for order in waiting if not order.is_late_told},
        oldest=oldest,
        remade=weekly.remade(orders),
        allotment=_allotments(frames["allotment/weeks"], scope_values),
        available=_available(frames, scope.through),
        worn=_worn(frames["take_up/wear"], scope),
        overdue=Counter(overdue["department"].to_list()),
        turnaround_weeks=weekly.turnaround_weeks(orders, weeks),
        remake_weeks=weekly.remake_weeks(orders, weeks),
        pooled=_pooled(pooled, orders, frames["take_up/wear"], scope.level),
    )


def _available(
    frames: Mapping[str, pl.DataFrame], through: date
) -> tuple[Mapping[Any, Any], Mapping[Any, Any], Mapping[Any, Any]]:
    """Return availability of the last days, of as many before, and by week."""
    sessions, teams = frames["roster/sessions"], frames["departments/teams"]
    days = timedelta(days=AVAILABILITY_DAYS)
    played = pl.col("played_on")
    lately = played > through - days
    before = (played <= through - days) & (played > through - 2 * days)
    recent = played >= weekly.trend_weeks(through)[0]
    return (
        weekly.availability_by(sessions.filter(lately), teams, ("department",)),
        weekly.availability_by(sessions.filter(before), teams, ("department",)),
        weekly.availability_by(sessions.filter(recent), teams, ("department", "week")),
    )


def _worn(wear: pl.DataFrame, scope: Scope) -> tuple[Mapping[Any, Any], Mapping[Any, Any]]:
    """Return the worn share of all sessions, and by week."""
    recent = pl.col("week") >= weekly.trend_weeks(scope.through)[0]
    return (
        worn_shares(wear, ("department",), scope.level),
        worn_shares(wear.filter(recent), ("department", "week"), scope.level),
    )


def _pooled(
    turnaround: TurnaroundGroup, orders: pl.DataFrame, wear: pl.DataFrame, level: float
) -> PooledFigures:
    everywhere = pl.lit("all").alias("department")
    remade = weekly.remade(orders.with_columns(everywhere)).get("all", (0, 0))
    worn = worn_shares(wear.with_columns(everywhere), ("department",), level)
    return PooledFigures(
        turnaround.median,
        turnaround.ready.share,
        wilson(*remade, level=level),
        worn.get(("all",), NOTHING_WORN),
    )


def _row(client: Mapping[str, Any], counts: _Counts, scope: Scope) -> DepartmentRow:
    name = client["department"]
    group = counts.turnaround.get(name)
    weeks = weekly.trend_weeks(scope.through)
    lately, before, by_week = counts.available
    worn, worn_weeks = counts.worn
    return DepartmentRow(
        department=name,
        name=client["name"],
        plan=client["plan"],
        open=counts.open.get(name, 0),
        late=counts.late.get(name) or (None if name in counts.untold else 0),
        oldest_days=counts.oldest.get(name),
        turnaround=group.median if group else wait_quantile(wait_curve([], [])),
        ready=group.ready.share if group else wilson(0, 0),
        remakes=wilson(*counts.remade.get(name, (0, 0)), level=scope.level),
        allotment=counts.allotment.get(name)
        or Allotment(client["prints_per_week"], why="there are no orders"),
        available=lately.get((name,), weekly.NOBODY),
        available_before=before.get((name,), weekly.NOBODY),
        worn=worn.get((name,), NOTHING_WORN),
        overdue=counts.overdue.get(name, 0),
        trends=Trends(
            weeks=weeks,
            turnaround=counts.turnaround_weeks.get(name, (None,) * len(weeks)),
            remakes=counts.remake_weeks.get(name, (0.0,) * len(weeks)),
            availability=tuple(by_week.get((name, week), weekly.NOBODY).share for week in weeks),
            worn=tuple(worn_weeks.get((name, week), NOTHING_WORN).value for week in weeks),
        ),
    )


def _allotments(weeks: pl.DataFrame, scope_values: ScopeValues) -> dict[str, Allotment]:
    allotments = {}
    for part in weeks.partition_by("department"):
        prints = department_prints(part, scope_values)
        last = next((week for week in reversed(prints.weeks) if week.is_whole), None)
        allowed = prints.prints_per_week
        allotments[prints.department] = Allotment(
            prints_per_week=allowed,
            week=last.week if last else None,
            week_prints=last.prints if last else None,
            week_used=last.prints / allowed if last and allowed else None,
            used=prints.used,
            weeks_over=prints.weeks_over,
            queue=prints.queue,
            why=prints.why,
        )
    return allotments


def _sentence(rows: tuple[DepartmentRow, ...]) -> str:
    if not rows:
        return "No department is recorded yet."
    needy = [row for row in rows if row.attention]
    waiting = words.plural(sum(row.open for row in rows), "open order")
    late = words.whole(sum(row.late or 0 for row in rows))
    untold = sum(row.late is None for row in rows)
    if untold:
        late += f" or more (of {words.plural(untold, 'department')} it cannot be told)"
    ages = [row.oldest_days for row in rows if row.oldest_days is not None]
    oldest = f", the oldest {words.plural(max(ages), 'day')} old" if ages else ""
    text = f"{words.plural(len(rows), 'department')}: {waiting}{oldest}, {late} late. "
    if not needy:
        return text + "Nothing calls for attention by the rules of this answer."
    first = needy[0]
    return (
        f"{text}{words.whole(len(needy))} of {words.whole(len(rows))} "
        f"{'calls' if len(needy) == 1 else 'call'} for attention, first {first.name}: "
        f"{' '.join(first.attention)}"
    )


def _caveats(rows: tuple[DepartmentRow, ...], scope: Scope) -> tuple[str, ...]:
    caveats = [CAUTION]
    if len(rows) > 1:
        caveats.append(
            "Departments differ in sports, athletes and distance to the printer: a difference is "
            "not a verdict on anybody's work."
        )
    if any(row.turnaround.value is None and row.open for row in rows):
        caveats.append(
            "Open orders count in turnaround; where half are not done there is no median."
        )
    if scope.teams or scope.sports or scope.sexes:
        caveats.append("Only the teams of the scope count, against the department's whole plan.")
    return tuple(caveats)
