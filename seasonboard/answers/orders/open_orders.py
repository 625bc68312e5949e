"""Open orders one by one: how long they wait, for which game, and what comparable orders tell."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.orders.comparable import (
    LateAfter,
    NextGameChance,
    is_late,
    late_after,
    next_game_chances,
)
from seasonboard.answers.orders.order_times import MAKING, Unit, between, durations, local_days
from seasonboard.scope import Scope
from seasonboard.stats.conditional_chance import Chance
from seasonboard.terms import Stage

UNLIKELY = 0.5
"""Below this chance an order is not likely to be there by the next game."""

NO_GAME = "no game of the team is recorded ahead"
NO_REQUEST = "no request is recorded, so how long it has waited is not known"


class Attention(StrEnum):
    """What an open order needs, the most pressing first; the order of the rows."""

    LATE = "late"
    UNLIKELY = "not likely by the next game"
    WORN = "worn already: is its fitting recorded?"
    ON_ITS_WAY = "on its way"


@dataclass(frozen=True, slots=True)
class Reached:
    """One stage and when it was reached, in the department's time zone."""

    stage: str
    reached_at: datetime


@dataclass(frozen=True, slots=True)
class NextGame:
    """The team's next game as seen from the last day known; `days_ahead` from that day."""

    session: str
    starts_at: datetime
    on: date
    label: str | None
    days_ahead: int


@dataclass(frozen=True, slots=True)
class OpenOrder:
    """One order that is neither fitted, cancelled nor retired.

    `age_days` are calendar days since the request (since the first stage, where no request is
    recorded), `stage_days` since the stage was reached that it is in. `exposures` are sessions the
    athlete took part in since then, `bare` those with a site of this guard uncovered, `worn` those
    in which this very guard was worn. `chance` is None without a game ahead or a request; `why`
    says which. `age_hours` runs from the request to the end of the last day known. `draw` and
    `turn` are None where no turn was drawn.
    """

    guard: str
    athlete: str
    name: str
    team: str
    department: str
    department_name: str
    plan: str
    kind: str
    side: str
    purpose: str
    scan_method: str | None
    remake_of: str | None
    stages: tuple[Reached, ...]
    stage: str
    stage_days: int
    age_days: int
    age_working_days: int
    age_hours: float
    next_game: NextGame | None
    chance: Chance | None
    likeness: str | None
    why: str
    exposures: int
    bare: int
    worn: int
    late_after: LateAfter
    attention: Attention
    draw: str | None = None
    turn: int | None = None

    @property
    def is_late(self) -> bool:
        """Say whether it is open for longer than four in five of its department's orders take."""
        return self.attention is Attention.LATE


_RANK = {attention: rank for rank, attention in enumerate(Attention)}
_TIE = 1e-9
Row = Mapping[str, Any]


def open_orders(
    orders: pl.DataFrame, comparable: pl.DataFrame, scope: Scope
) -> tuple[OpenOrder, ...]:
    """Return the open orders, the most pressing first.

    Late ones come first, then those not likely by the next game, then those that are worn already,
    then the rest; within each the smaller chance first, then the older.

    Args:
        orders: Rows of `orders/orders`.
        comparable: Rows of `orders/comparable`.
        scope: The scope of all of them.
    """
    rows = _waiting(orders)
    if rows.is_empty():
        return ()
    with_game = rows.filter(pl.col("by_hours").is_not_null() & pl.col("requested_at").is_not_null())
    chances = next_game_chances(with_game, comparable, level=scope.level)
    late = late_after(comparable, rows["department"].unique(maintain_order=True).to_list())
    waiting = [
        _order(row, chances.get(row["guard"]), late[row["department"]], scope)
        for row in rows.iter_rows(named=True)
    ]
    return tuple(sorted(waiting, key=_urgency))


def waiting_orders(
    orders: pl.DataFrame, comparable: pl.DataFrame, scope: Scope
) -> tuple[OpenOrder, ...]:
    """Return the open orders, the most pressing first; how often a site was bare is not counted.

    Args:
        orders: Rows of `week/orders`.
        comparable: Rows of `orders/comparable`.
        scope: The scope of both.
    """
    uncounted = pl.lit(None, dtype=pl.Int64)
    return open_orders(orders.with_columns(exposures=uncounted, bare=uncounted), comparable, scope)


def late_rules(orders: pl.DataFrame, comparable: pl.DataFrame) -> tuple[LateAfter, ...]:
    """Return the rule of lateness of every department with an order, by its key."""
    return tuple(late_after(comparable, orders["department"].unique().sort().to_list()).values())


def _waiting(orders: pl.DataFrame) -> pl.DataFrame:
    """Return open orders with ages, and hours from the request to the next game."""
    rows = orders.filter(pl.col("state") == "open").with_columns(
        requested=pl.col("requested_at"), requested_at=pl.coalesce("requested_at", "first_stage_at")
    )
    rows = between(rows, Stage.REQUESTED, Stage.FITTED)
    reached = pl.coalesce(
        pl.when(pl.col("stage") == str(stage)).then(pl.col(f"{stage}_at")) for stage in MAKING
    )
    rows = rows.with_columns(
        age_days=durations(rows, Unit.DAYS),
        age_working_days=durations(rows, Unit.WORKING_DAYS),
        age_hours=durations(rows, Unit.HOURS),
        by_hours=(pl.col("next_game_at") - pl.col("from_at")) / pl.duration(hours=1),
        stage_at=reached,
        requested_at=pl.col("requested"),
    )
    last = local_days(rows, "to_at", is_end=True)
    return rows.with_columns(
        last_on=last, stage_days=(last - local_days(rows, "stage_at")).dt.total_days()
    )


def _order(row: Row, likely: NextGameChance | None, late: LateAfter, scope: Scope) -> OpenOrder:
    zone = ZoneInfo(row["time_zone"])
    chance = likely.chance if likely else None
    why = NO_GAME if row["next_game_at"] is None else NO_REQUEST if likely is None else ""
    stamps = ((str(stage), row[f"{stage}_at"]) for stage in MAKING)
    return OpenOrder(
        **{name: row[name] for name in _COPIED},
        stages=tuple(Reached(stage, at.astimezone(zone)) for stage, at in stamps if at),
        stage_days=int(row["stage_days"]),
        age_days=int(row["age_days"]),
        age_working_days=int(row["age_working_days"]),
        next_game=_next_game(row, zone, scope.through),
        chance=chance,
        likeness=likely.likeness if likely else None,
        why=why or (chance.why if chance and chance.value is None else ""),
        late_after=late,
        attention=_attention(row, chance.value if chance else None, late),
    )


_COPIED = (
    *("guard", "athlete", "name", "team", "department", "department_name", "plan", "kind", "side"),
    *("purpose", "scan_method", "remake_of", "stage", "age_hours", "exposures", "bare", "worn"),
)


def _next_game(row: Row, zone: ZoneInfo, through: date) -> NextGame | None:
    starts_at: datetime | None = row["next_game_at"]
    if starts_at is None:
        return None
    on, at = row["next_game_on"], starts_at.astimezone(zone)
    return NextGame(row["next_session"], at, on, row["next_game_label"], (on - through).days)


def _attention(row: Row, share: float | None, late: LateAfter) -> Attention:
    if row["worn"]:
        return Attention.WORN
    if is_late(row["age_days"], late):
        return Attention.LATE
    if share is not None and share < UNLIKELY - _TIE:
        return Attention.UNLIKELY
    return Attention.ON_ITS_WAY


def _urgency(order: OpenOrder) -> tuple[int, float, int, str]:
    chance = order.chance.value if order.chance else None
    return (_RANK[order.attention], 2.0 if chance is None else chance, -order.age_days, order.guard)
