"""Do the prints keep to the plan? Prints by week against allotments and printers' hours."""

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.allotment.parts import (
    HOURS_A_WEEK,
    AllotmentAnswer,
    DepartmentPrints,
    PrintWeek,
)
from seasonboard.answers.base import Summary, left_out_rows
from seasonboard.answers.orders.order_times import order_params
from seasonboard.answers.questions import ALLOTMENT
from seasonboard.answers.reader import Reader
from seasonboard.scope import Scope, ScopeValues

ONSITE = "onsite printer"


def allotment(reader: Reader, scope: Scope, known: ScopeValues) -> AllotmentAnswer:
    """Count prints week by week for each department of the scope.

    Raises:
        StoreError: The store could not be read.
    """
    params = order_params(scope)
    weeks, left_out = reader.read_each(
        [("allotment/weeks", params), ("allotment/left_out", params)]
    )
    departments = tuple(
        department_prints(part, known)
        for part in weeks.partition_by("department", maintain_order=True)
    )
    summary = Summary(
        question=ALLOTMENT.asks,
        answer=_sentence(departments),
        caveats=tuple(_caveats(departments, scope, known)),
        left_out=left_out_rows(left_out),
        scope=scope,
    )
    return AllotmentAnswer(summary, departments)


def department_prints(weeks: pl.DataFrame, known: ScopeValues) -> DepartmentPrints:
    """Return one department's prints from its rows of `allotment/weeks`; at least one row."""
    department, plan, allowed = weeks.select("department", "plan", "prints_per_week").row(0)
    printers = int(weeks["printers"][0])
    found = tuple(
        _week(row, allowed, printers if plan == ONSITE else 0)
        for row in weeks.iter_rows(named=True)
    )
    whole = [week for week in found if week.is_whole]
    prints = sum(week.prints for week in whole)
    hours = sum(week.hours for week in whole)
    timed = any(week.hours_share is not None for week in whole)
    return DepartmentPrints(
        department=department,
        name=known.name_of("department", department),
        plan=plan,
        prints_per_week=allowed,
        printers=printers,
        weeks=found,
        whole_weeks=len(whole),
        prints=prints,
        weeks_over=sum(week.is_over for week in whole),
        used=prints / (allowed * len(whole)) if allowed and whole else None,
        hours=hours,
        hours_share=hours / (printers * HOURS_A_WEEK * len(whole)) if timed else None,
        without_hours=sum(week.without_hours for week in whole),
        queue=found[-1].queue,
        longest_queue=max(week.queue for week in found),
        why=_why(allowed, plan, len(whole)),
        hours_why="" if timed else _hours_why(plan, printers, len(whole)),
    )


def _week(row: dict[str, object], allowed: int | None, printers: int) -> PrintWeek:
    def count(name: str) -> int:
        return int(str(row[name]))

    hours = float(str(row["hours"]))
    is_timed = printers > 0 and count("prints") > count("without_hours")
    return PrintWeek(
        week=row["week"],  # type: ignore[arg-type]
        is_whole=bool(row["is_whole"]),
        asked=count("asked"),
        prints=count("prints"),
        hours=hours,
        without_hours=count("without_hours"),
        queue=count("queue"),
        is_over=allowed is not None and count("prints") > allowed,
        hours_share=hours / (printers * HOURS_A_WEEK) if is_timed else None,
    )


def _why(allowed: int | None, plan: str, whole: int) -> str:
    if not whole:
        return "no whole week is known yet"
    if allowed:
        return ""
    if plan == ONSITE:
        return "it prints on its own printer"
    return "no allotment is recorded" if allowed is None else "its allotment is no print at all"


def _hours_why(plan: str, printers: int, whole: int) -> str:
    if plan != ONSITE:
        return "it has no printer of its own"
    if not printers:
        return "no printer is named in its orders"
    return "no hours are recorded" if whole else "no whole week is known yet"


def _sentence(departments: tuple[DepartmentPrints, ...]) -> str:
    if not departments:
        return "Nothing to print yet: no order of the scope is known."
    return " ".join(_of_one(department) for department in departments)


def _of_one(found: DepartmentPrints) -> str:
    if not found.whole_weeks:
        return f"{found.name}: no whole week is known yet; {found.queue} waiting to be printed."
    weeks = words.plural(found.whole_weeks, "whole week")
    text = f"{found.name}: {words.plural(found.prints, 'print')} in {weeks}"
    if found.used is not None:
        over = "week was" if found.weeks_over == 1 else "weeks were"
        text += (
            f", {words.percent(found.used)} of {found.prints_per_week} a week; "
            f"{found.weeks_over} {over} over it"
        )
    elif found.hours_share is not None:
        text += (
            f", {found.hours:.0f} printer hours, {words.percent(found.hours_share)} of those of "
            f"{words.plural(found.printers, 'printer')}"
        )
    return f"{text}; {found.queue} waiting now, {found.longest_queue} at most."


def _caveats(
    departments: tuple[DepartmentPrints, ...], scope: Scope, known: ScopeValues
) -> list[str]:
    if not departments:
        return []
    summary = ["A week is from Monday to Sunday; sums are of whole weeks only."]
    if any(found.hours_share is not None for found in departments):
        summary.append("Available are 168 hours a printer and week: nights and weekends print too.")
    missing = sum(found.without_hours for found in departments)
    if missing:
        guards = words.plural(missing, "print")
        summary.append(f"{guards} without hours recorded: the hours used are a lower bound.")
    narrowed = (scope.seasons, scope.teams, scope.sports, scope.sexes, scope.position_groups)
    is_part = set(known.kinds_made) - set(scope.kinds) or scope.areas or scope.sides
    if is_part or any(narrowed):
        summary.append(
            "The scope leaves out orders of the department that use the same allotment or printer."
        )
    return summary
