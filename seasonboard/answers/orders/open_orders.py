"""Open orders one by one: how long they wait, for which game, and what like orders tell."""

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.orders.comparable import LateAfter, Likely, is_late, late_after, likely
from seasonboard.answers.orders.order_times import MAKING, Unit, between, local_days, times
from seasonboard.answers.orders.parts import (
    NO_GAME,
    NO_REQUEST,
    UNLIKELY,
    Attention,
    NextGame,
    OpenOrder,
    Reached,
)
from seasonboard.scope import Scope
from seasonboard.terms import Stage

_PLACE = {attention: place for place, attention in enumerate(Attention)}
_TIE = 1e-9
Row = Mapping[str, Any]


def open_orders(orders: pl.DataFrame, like: pl.DataFrame, scope: Scope) -> tuple[OpenOrder, ...]:
    """Return the open orders, the most pressing first.

    Late ones come first, then those not likely by the next game, then those that are worn already,
    then the rest; within each the smaller chance first, then the older.

    Args:
        orders: Rows of `orders/orders`.
        like: Rows of `orders/like`.
        scope: The scope of all of them.
    """
    rows = _waiting(orders)
    if rows.is_empty():
        return ()
    asked = rows.filter(pl.col("by_hours").is_not_null() & pl.col("requested_at").is_not_null())
    told = likely(asked, like, level=scope.level)
    late = late_after(like, rows["department"].unique(maintain_order=True).to_list())
    found = [
        _order(row, told.get(row["guard"]), late[row["department"]], scope)
        for row in rows.iter_rows(named=True)
    ]
    return tuple(sorted(found, key=_pressing))


def late_rules(orders: pl.DataFrame, like: pl.DataFrame) -> tuple[LateAfter, ...]:
    """Return the rule of lateness of every department with an order, by its key."""
    return tuple(late_after(like, orders["department"].unique().sort().to_list()).values())


def _waiting(orders: pl.DataFrame) -> pl.DataFrame:
    """Return open orders with ages, and hours from the request to the next game."""
    rows = orders.filter(pl.col("state") == "open").with_columns(
        requested=pl.col("requested_at"),
        requested_at=pl.coalesce("requested_at", "first_stage_at"),
    )
    rows = between(rows, Stage.REQUESTED, Stage.FITTED)
    reached = pl.coalesce(
        pl.when(pl.col("stage") == str(stage)).then(pl.col(f"{stage}_at")) for stage in MAKING
    )
    hours = pl.duration(hours=1)
    rows = rows.with_columns(
        age_days=pl.Series(times(rows, Unit.DAYS).durations),
        age_working_days=pl.Series(times(rows, Unit.WORKING_DAYS).durations),
        age_hours=pl.Series(times(rows, Unit.HOURS).durations),
        by_hours=(pl.col("next_game_at") - pl.col("from_at")) / hours,
        stage_at=reached,
        requested_at=pl.col("requested"),
    )
    last = local_days(rows, "to_at", is_end=True)
    return rows.with_columns(
        last_on=last, stage_days=(last - local_days(rows, "stage_at")).dt.total_days()
    )


def _order(row: Row, told: Likely | None, late: LateAfter, scope: Scope) -> OpenOrder:
    zone = ZoneInfo(row["time_zone"])
    chance = told.chance if told else None
    why = NO_GAME if row["next_game_at"] is None else NO_REQUEST if told is None else ""
    return OpenOrder(
        **{name: row[name] for name in _COPIED},
        stages=tuple(
            Reached(str(stage), row[f"{stage}_at"].astimezone(zone))
            for stage in MAKING
            if row[f"{stage}_at"] is not None
        ),
        stage_days=int(row["stage_days"]),
        age_days=int(row["age_days"]),
        age_working_days=int(row["age_working_days"]),
        next_game=_next_game(row, zone, scope.through),
        chance=chance,
        likeness=told.likeness if told else None,
        why=why or (chance.why if chance and chance.share is None else ""),
        late_after=late,
        attention=_attention(row, chance.share if chance else None, late),
    )


_COPIED = (
    "guard",
    "athlete",
    "name",
    "team",
    "department",
    "department_name",
    "plan",
    "kind",
    "side",
    "purpose",
    "scan_method",
    "remake_of",
    "stage",
    "age_hours",
    "exposures",
    "bare",
    "worn",
)


def _next_game(row: Row, zone: ZoneInfo, through: date) -> NextGame | None:
    starts_at: datetime | None = row["next_game_at"]
    if starts_at is None:
        return None
    on = row["next_game_on"]
    return NextGame(
        row["next_session"],
        starts_at.astimezone(zone),
        on,
        row["next_game_label"],
        (on - through).days,
    )


def _attention(row: Row, share: float | None, late: LateAfter) -> Attention:
    if row["worn"]:
        return Attention.WORN
    if is_late(row["age_days"], late):
        return Attention.LATE
    if share is not None and share < UNLIKELY - _TIE:
        return Attention.UNLIKELY
    return Attention.ON_ITS_WAY


def _pressing(order: OpenOrder) -> tuple[int, float, int, str]:
    share = order.chance.share if order.chance else None
    rank = 2.0 if share is None else share
    return (_PLACE[order.attention], rank, -order.age_days, order.guard)
