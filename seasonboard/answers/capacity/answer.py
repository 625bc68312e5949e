"""Which prints go first, and is there room for all of them? A list for the meeting to agree on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING, Any

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.allotment.answer import allotment
from seasonboard.answers.allotment.department_prints import ONSITE, DepartmentPrints
from seasonboard.answers.base import CAUTION, LeftOut, Summary
from seasonboard.answers.capacity.agreement import AGREE
from seasonboard.answers.capacity.changes import changes_of
from seasonboard.answers.capacity.games import games_ahead
from seasonboard.answers.capacity.history import History
from seasonboard.answers.capacity.parts import (
    DAYS_AHEAD,
    WEEK_HOURS,
    CapacityAnswer,
    CapacityOptions,
    Printer,
    PrintLine,
    ReturnGuards,
)
from seasonboard.answers.capacity.queue import (
    TWICE,
    Room,
    Surroundings,
    planned,
    room_of,
    waiting_prints,
)
from seasonboard.answers.capacity.words import line_sentence, phone_note
from seasonboard.answers.orders.forecast import forecaster
from seasonboard.answers.questions import CAPACITY
from seasonboard.answers.reader import Reader, read_frames
from seasonboard.answers.remakes.answer import remakes
from seasonboard.answers.remakes.options import RemakesBy, RemakesOptions
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.scope import Scope, ScopeValues
from seasonboard.stats.proportions import likely_count

if TYPE_CHECKING:
    from datetime import datetime

_QUESTIONS = (
    *("week/orders", "week/games", "orders/turns", "turns/turns", "capacity/printers"),
    *("departments/teams", "orders/histories"),
)
RULES = {
    ReturnGuards.FIRST: "Return guards and medical need go first",
    ReturnGuards.AS_OTHERS: "Medical need goes first, return guards stand as others do",
}
REST = "drawn turns in the order drawn. The others stand so that few guards miss their next game."
IN_TIME = (
    "In time means printed early enough for four in five like it to be fitted by the game. A week "
    "of a printer is spread evenly over its 168 hours."
)
NOT_BEST = (
    "Where prints are not ready yet, or several printers share a queue, the list is improved by "
    "swaps; a better one may exist."
)
Frames = Mapping[str, pl.DataFrame]
Row = Mapping[str, Any]


def capacity(
    reader: Reader,
    scope: Scope,
    scope_values: ScopeValues,
    options: CapacityOptions | None = None,
) -> CapacityAnswer:
    """Return queues, the order to agree on, last times to ask, and what changes would do."""
    options = options or CapacityOptions()
    whole = whole_queue(scope, scope_values)
    frames = read_frames(reader, whole, *_QUESTIONS, days=DAYS_AHEAD)
    past = {one.department: one for one in allotment(reader, whole, scope_values).departments}
    by_scan = RemakesOptions(by=RemakesBy.SCAN_METHOD)
    remade = remakes(reader, whole, scope_values, by_scan)
    read = _Read(frames, remade, past, _surroundings(frames, options))
    note = phone_note(remade)
    departments = frames["departments/teams"].unique("department").sort("department").to_dicts()
    lines = tuple(read.line(one) for one in departments)
    history = read.around.history
    return CapacityAnswer(
        summary=Summary(
            CAPACITY.asks,
            _sentence(lines, scope_values),
            tuple(_caveats(lines, options, scope, scope_values)),
            tuple(_left_out(frames["week/orders"], lines, history)),
            scope,
        ),
        options=options,
        through=scope.through,
        lines=lines,
        printers=tuple(map(_printer, read.printers)),
        games=games_ahead(
            frames["week/games"],
            {one["department"]: one["plan"] for one in departments},
            forecaster(frames["orders/histories"], scope.through + timedelta(days=1)),
            scope.through,
            scope.level,
        ),
        changes=tuple(
            change
            for one in departments
            for change in changes_of(one["department"], history, read.room(one), note)
        ),
    )


def _surroundings(frames: Frames, options: CapacityOptions) -> Surroundings:
    starts: dict[str, list[datetime]] = {}
    games = frames["week/games"].sort("starts_at").select("team", "starts_at")
    for team, at in games.iter_rows():
        starts.setdefault(team, []).append(at)
    jumped = frames["turns/turns"].filter(pl.col("jumped_on").is_not_null())["guard"].drop_nulls()
    turns = {one["guard"]: one for one in frames["orders/turns"].iter_rows(named=True)}
    history, returns = History(frames["orders/histories"]), options.returns
    return Surroundings(history, starts, turns, frozenset(jumped), returns is ReturnGuards.FIRST)


@dataclass(frozen=True, slots=True)
class _Read:
    """What was read and asked, from which the line of each department is made."""

    frames: Frames
    remade: RemakesAnswer
    past: Mapping[str, DepartmentPrints]
    around: Surroundings

    @property
    def printers(self) -> Sequence[Row]:
        """Return the rows of `capacity/printers`."""
        return self.frames["capacity/printers"].to_dicts()

    def room(self, row: Row) -> Room:
        """Return what prints for a department."""
        own = own_printers(row["department"], self.printers)
        return room_of(row["plan"], row["prints_per_week"], own)

    def line(self, row: Row) -> PrintLine:
        """Return the printers or the allotment of a department with its queue."""
        department = row["department"]
        own = own_printers(department, self.printers) if row["plan"] == ONSITE else []
        hours = [WEEK_HOURS if o["hours_per_week"] is None else o["hours_per_week"] for o in own]
        queue = waiting_prints(self.frames["week/orders"]).filter(
            pl.col("department") == department
        )
        found = planned(queue, self.room(row), self.around)
        weeks = self.past.get(department)
        share, trials = self.remade.whole.within.value, self.remade.whole.fitted
        low, high = (None, None) if share is None else likely_count(share, trials, len(queue))
        return PrintLine(
            **{name: row[name] for name in ("department", "name", "plan", "prints_per_week")},
            printers=len(own),
            weekly_hours=sum(hours) if own else None,
            queue=len(queue),
            in_queue=found.in_queue,
            weeks_ahead=None if found.hours_ahead is None else found.hours_ahead / WEEK_HOURS,
            asked=found.asked,
            planned=found.planned,
            drawless=found.drawless,
            is_fewest=found.is_fewest,
            whole_weeks=weeks.whole_weeks if weeks else 0,
            weeks_over=weeks.weeks_over if weeks else 0,
            used=weeks.used if weeks else None,
            used_why=weeks.why if weeks else "no order of it is known",
            remakes=None if share is None else share * len(queue),
            remakes_low=low,
            remakes_high=high,
            remakes_why=self.remade.whole.within.why if share is None else "",
            why=found.why,
        )


def whole_queue(scope: Scope, scope_values: ScopeValues) -> Scope:
    """Return the scope of whole queues: every print of the departments looked at."""
    departments = scope.departments
    if departments is None and scope.teams:
        homes = {one.value: one.department for one in scope_values.values.get("team", ())}
        own = {homes.get(team) for team in scope.teams}
        departments = tuple(sorted(one for one in own if one)) or None
    return Scope(
        scope.through,
        departments=departments,
        kinds=scope_values.all_kinds,
        level=scope.level,
    )


def own_printers(department: str, printers: Sequence[Row]) -> list[Row]:
    """Return the printers of a department: listed as its own, or named in its orders alone."""
    return [
        one
        for one in printers
        if one["department"] == department
        or (not one["is_listed"] and list(one["used_by"]) == [department])
    ]


def _printer(row: Row) -> Printer:
    hours = row["hours_per_week"]
    notes = []
    if not row["is_listed"]:
        notes.append("named in orders, not in the list of printers")
    if hours is None:
        notes.append("hours not recorded: 168 a week assumed")
    if not row["used_by"]:
        notes.append("named in no order")
    available = WEEK_HOURS if hours is None else hours
    return Printer(
        printer=row["printer"],
        department=row["department"],
        hours_per_week=hours,
        is_listed=row["is_listed"],
        prints=row["prints"],
        hours=row["hours"],
        without_hours=row["without_hours"],
        hours_share=row["hours"] / (4 * available) if available else 0.0,
        note="; ".join(notes),
    )


def _sentence(lines: Sequence[PrintLine], scope_values: ScopeValues) -> str:
    if scope_values.is_empty or not lines:
        return "Nothing to plan: no department of the scope is known by that day."
    if not any(line.queue for line in lines):
        names = words.plural(len(lines), "department")
        return f"No print waits in {names}: every order known by that day is printed or over."
    return " ".join(line_sentence(line) for line in lines if line.queue)


def _caveats(
    lines: Sequence[PrintLine], options: CapacityOptions, scope: Scope, scope_values: ScopeValues
) -> list[str]:
    if not lines:
        return []
    rule = f"{RULES[options.returns]}, {REST}"
    told = [AGREE, rule, IN_TIME] if any(line.queue for line in lines) else []
    if any(line.planned is not None and not line.is_fewest for line in lines):
        told.append(NOT_BEST)
    narrowed = (scope.seasons, scope.sports, scope.sexes, scope.position_groups, scope.teams)
    is_part = set(scope_values.kinds_made) - set(scope.kinds) or scope.areas or scope.sides
    if is_part or any(narrowed):
        told.append(
            "Queues are whole: they hold every print of a department, not of the scope alone."
        )
    return [*told, CAUTION]


def _left_out(orders: pl.DataFrame, lines: Sequence[PrintLine], history: History) -> list[LeftOut]:
    before = pl.col("stage").is_in(["requested", "scanned", "modelled"])
    worn = orders.filter((pl.col("state") == "open") & before & (pl.col("worn") > 0)).height
    twice = sum(one.note == TWICE for line in lines for one in line.in_queue)
    told = (
        LeftOut("orders", "worn already, so they are made: no print is recorded", worn),
        LeftOut("orders", "asked twice for one athlete and site; both are in the queue", twice),
        LeftOut("orders", "not in usual times: stages lacking or out of order", history.untimed),
    )
    return [one for one in told if one.count]
