"""The queue of prints of a department, and the order to agree on."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.capacity.history import USUAL, History
from seasonboard.answers.capacity.parts import WEEK_HOURS, OrderCost, QueuedPrint
from seasonboard.stats.print_order import PrintJob, best_order, in_order
from seasonboard.terms import Purpose, Stage

BEFORE_PRINT = (Stage.REQUESTED, Stage.SCANNED, Stage.MODELLED)
MEDICAL, DRAWN, REST = range(3)
RETURN_FIRST = "return guard: first"
NEED_FIRST = "medical need: first"
TWICE = "ordered twice"
NO_HOURS = "no hours of a print are recorded"
NO_PRINT = "no print is allowed, so none of them is ever printed"
Row = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Room:
    """What prints a queue: so many at a time, and how many hours of the clock one hour takes.

    With an allotment one print may begin every `slot` hours, whatever it takes. None: `why`.
    """

    servers: int | None
    stretch: float = 1.0
    slot: float | None = None
    why: str = ""


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What an order of prints depends on beside the queue.

    Attributes:
        history: Past orders.
        games: Starts of coming games by team, the next first.
        turns: Rows of `orders/turns` by guard.
        jumped: Guards whose turn was jumped: they are made for medical need.
        returns_first: Whether return guards go first.
    """

    history: History
    games: Mapping[str, Sequence[datetime]]
    turns: Mapping[str, Row]
    jumped: frozenset[str]
    returns_first: bool = True


@dataclass(frozen=True, slots=True)
class Planned:
    """A queue in the order to agree on, and what the orders cost; None with `why`."""

    in_queue: tuple[QueuedPrint, ...]
    hours_ahead: float | None
    asked: OrderCost | None
    planned: OrderCost | None
    drawless: OrderCost | None
    is_fewest: bool
    why: str


@dataclass(frozen=True, slots=True)
class _Waiting:
    """An order before the print with its job; what is not known of it is None."""

    row: Row
    rule: str
    hours: float | None
    job: PrintJob


def waiting_prints(orders: pl.DataFrame) -> pl.DataFrame:
    """Return open orders before the print that nobody wears yet, as they were asked for.

    Args:
        orders: Rows of `week/orders`.
    """
    before = pl.col("stage").is_in(list(map(str, BEFORE_PRINT)))
    waits = (pl.col("state") == "open") & before & (pl.col("worn").fill_null(0) == 0)
    asked = pl.coalesce("requested_at", "first_stage_at")
    return orders.filter(waits).with_columns(asked_at=asked).sort("asked_at", "guard")


def planned(rows: pl.DataFrame, room: Room, around: Surroundings) -> Planned:
    """Return the queue of one department in the order to agree on.

    Args:
        rows: Its rows of `waiting_prints`.
        room: What prints them.
        around: Past orders, games and turns.
    """
    if rows.is_empty():
        free = OrderCost(0, 0)
        return Planned((), 0.0, free, free, free, is_fewest=True, why="")
    after = around.history.usual(rows["department"][0], Stage.PRINTED, Stage.FITTED)
    waiting = [
        _ruled(_waiting(row, room, around, after.time), around, _ranks(around.turns))
        for row in rows.iter_rows(named=True)
    ]
    jobs = [one.job for one in waiting]
    why = room.why or (NO_HOURS if any(one.hours is None for one in waiting) else "")
    servers = 0 if room.servers is None or why else room.servers
    best, now = best_order(jobs, servers), in_order(jobs, range(len(jobs)), servers)
    why = why or (NO_PRINT if after.why and not servers else after.why)
    sites = Counter(rows.select("athlete", "kind", "side").iter_rows())
    prints = tuple(
        _queued(place, waiting[number], (best.ends[number], now.ends[number]), room, why)
        for place, number in enumerate(best.order, 1)
    )
    prints = tuple(
        replace(one, asked_place=number + 1, note=TWICE)
        if sites[one.athlete, one.kind, one.side] > 1
        else replace(one, asked_place=number + 1)
        for one, number in zip(prints, best.order, strict=True)
    )
    if why:
        return Planned(prints, None, None, None, None, is_fewest=False, why=why)
    asked, kept, free = (
        OrderCost(one.missed, one.bare)
        for one in (now, best, best_order([_undrawn(job) for job in jobs], servers))
    )
    ahead = max(best.ends) if servers else None
    return Planned(
        prints, ahead, asked, kept, free, is_fewest=best.is_fewest, why="" if servers else NO_PRINT
    )


def _undrawn(job: PrintJob) -> PrintJob:
    return replace(job, block=REST, turn=None) if job.block == DRAWN else job


def _waiting(row: Row, room: Room, around: Surroundings, after: float | None) -> _Waiting:
    """Return an order with its job, as yet in no block."""
    as_of, usual = row["as_of"], around.history.print_hours
    hours = usual.get(row["kind"], usual.get(""))
    took = (hours or 0.0) * room.stretch
    hold = took if room.slot is None else room.slot
    starts = around.games.get(row["team"], ())
    starts = starts or ([row["next_game_at"]] if row["next_game_at"] else [])
    dues = (_hours(start - as_of) - (after or 0.0) - took + hold for start in starts)
    job = PrintJob(_ready(row, around.history), hold, tuple(dues), REST)
    return _Waiting(row, "", hours if room.slot is None else hours or 0.0, job)


def _ready(row: Row, history: History) -> float:
    """Return the hours until it can usually be printed, by its stage and its time in it."""
    stage = Stage(row["stage"])
    if stage is Stage.MODELLED:
        return 0.0
    usual = history.usual(row["department"], stage, Stage.MODELLED, USUAL).time
    reached = row[f"{stage}_at"]
    return max(0.0, (usual or 0.0) - _hours(row["as_of"] - reached))


def _ranks(turns: Mapping[str, Row]) -> dict[str, int]:
    """Return the place of each guard among all drawn turns."""
    drawn = sorted(turns.values(), key=lambda turn: (turn["turn_on"], turn["draw"], turn["turn"]))
    return {turn["guard"]: number for number, turn in enumerate(drawn)}


def _ruled(one: _Waiting, around: Surroundings, ranks: Mapping[str, int]) -> _Waiting:
    """Put an order in its block: medical need and return guards, turns as drawn, the rest."""
    guard = one.row["guard"]
    is_return = around.returns_first and one.row["purpose"] == Purpose.RETURN
    if is_return or guard in around.jumped:
        rule = RETURN_FIRST if is_return else NEED_FIRST
        return replace(one, rule=rule, job=replace(one.job, block=MEDICAL))
    if guard not in ranks:
        return one
    turn = around.turns[guard]
    ready = max(one.job.ready, _days_ahead(turn["turn_on"], one.row) * 24.0)
    job = replace(one.job, block=DRAWN, turn=ranks[guard], ready=ready)
    return replace(one, rule=f"turn {turn['turn']} of {turn['draw']}", job=job)


def _days_ahead(on: date, row: Row) -> int:
    first_unknown: datetime = row["as_of"].astimezone(ZoneInfo(row["time_zone"]))
    return max(0, (on - first_unknown.date()).days)


def _queued(
    place: int, one: _Waiting, ends: tuple[float, float], room: Room, why: str
) -> QueuedPrint:
    """Return a line of the list; `ends` are of the order to agree on, and of that asked for."""
    row, is_known = one.row, not why and bool(room.servers)
    zone = ZoneInfo(row["time_zone"])
    lag = one.job.hours - (one.hours or 0.0) * room.stretch  # of an allotment's slot, not used
    return QueuedPrint(
        place=place,
        asked_place=place,
        **{name: row[name] for name in _COPIED},
        rule=one.rule,
        hours=one.hours or None,
        game_on=row["next_game_on"],
        print_by=None if why or not one.job.dues else _later(row, one.job.due - lag, zone),
        over_at=_later(row, ends[0] - lag, zone) if is_known else None,
        games_bare=_bare(one.job, ends[0]) if is_known else None,
        games_bare_now=_bare(one.job, ends[1]) if is_known else None,
        note="",
        why=_why(one, why, room),
    )


_COPIED = (*("department", "guard", "athlete", "name", "team", "kind", "side", "purpose", "stage"),)


def _why(one: _Waiting, why: str, room: Room) -> str:
    no_game = "" if one.job.dues else "no game of the team is recorded ahead"
    stands = why or ("" if room.servers else NO_PRINT)
    return "; ".join(filter(None, (stands, no_game)))


def _bare(job: PrintJob, end: float) -> int:
    return sum(end > due for due in job.dues)


def _later(row: Row, hours: float, zone: ZoneInfo) -> datetime:
    at: datetime = row["as_of"] + timedelta(minutes=round(hours * 60))
    return at.astimezone(zone)


def _hours(length: timedelta) -> float:
    return length / timedelta(hours=1)


def room_of(plan: str | None, prints_per_week: int | None, printers: Sequence[Row]) -> Room:
    """Return what prints the queue of a department, from its plan and its printers."""
    if plan == "weekly allotment":
        if prints_per_week is None:
            return Room(None, why="no allotment is recorded")
        if prints_per_week == 0:
            return Room(0, slot=WEEK_HOURS)
        return Room(1, slot=WEEK_HOURS / prints_per_week)
    if plan is None:
        return Room(None, why="no plan is recorded")
    hours = [_weekly(one) for one in printers] or [WEEK_HOURS]
    running = [one for one in hours if one > 0]
    if not running:
        return Room(0)
    return Room(len(running), WEEK_HOURS * len(running) / sum(running))


def _weekly(printer: Row) -> float:
    hours = printer["hours_per_week"]
    return WEEK_HOURS if hours is None else float(hours)
