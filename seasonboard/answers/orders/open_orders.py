"""Open orders one by one: how long they wait, for which game, the chance to be there by then."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.orders.forecast import Chance, forecaster
from seasonboard.answers.orders.lateness import LateAfter, is_late, late_after
from seasonboard.answers.orders.order_times import (
    MAKING,
    Unit,
    between,
    durations,
    local_days,
    local_share,
)
from seasonboard.scope import Scope
from seasonboard.stats.forecast_grading import expected_sum
from seasonboard.stats.special import two_sided
from seasonboard.terms import NOT_CHECKED, Stage

UNLIKELY = 0.5
"""Below this chance an order is not likely to be there by the next game."""

NO_GAME = "no game of the team is recorded ahead"


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
    in which this very guard was worn. `chance` is None without a game ahead. `age_hours` runs from
    the request to the end of the last day known; None where of a stage the day alone is known.
    `promised_on` is the day it was promised for, which then says whether it is late. `draw` and
    `turn` are None where no turn was drawn. `rule` is what its department looked up of the sport's.
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
    promised_on: date | None
    stages: tuple[Reached, ...]
    stage: str
    stage_days: int
    age_days: int
    age_working_days: int
    age_hours: float | None
    next_game: NextGame | None
    chance: Chance | None
    why: str
    exposures: int
    bare: int
    worn: int
    late_after: LateAfter
    attention: Attention
    draw: str | None = None
    turn: int | None = None
    rule: str = NOT_CHECKED

    @property
    def forecast(self) -> float | None:
        """Return the chance where it is one, not a lower bound; None where it is not known."""
        return self.chance.forecast if self.chance else None

    @property
    def is_late(self) -> bool:
        """Say whether it is open for longer than promised, or than four in five like it take."""
        return self.attention is Attention.LATE

    @property
    def is_late_told(self) -> bool:
        """Say whether it can be told that it is late or not: by its promise, or by orders."""
        return self.promised_on is not None or self.late_after.days is not None


_RANK = {attention: rank for rank, attention in enumerate(Attention)}
_TIE = 1e-9
Row = Mapping[str, Any]


def open_orders(
    orders: pl.DataFrame, histories: pl.DataFrame, scope: Scope
) -> tuple[OpenOrder, ...]:
    """Return the open orders, the most pressing first.

    Late ones come first, then those not likely by the next game, then those that are worn already,
    then the rest; within each the smaller chance first, then the older.

    Args:
        orders: Rows of `orders/orders`.
        histories: Rows of `orders/histories`.
        scope: The scope of all of them.
    """
    rows = _waiting(orders)
    if rows.is_empty():
        return ()
    with_game = rows.filter(pl.col("by_on").is_not_null())
    tells = forecaster(histories, scope.through + timedelta(days=1))
    chances = dict(zip(with_game["guard"], tells.chances(with_game, scope.level), strict=True))
    late = late_after(histories, rows["department"].unique(maintain_order=True).to_list())
    waiting = [
        _order(row, chances.get(row["guard"]), late[row["department"]], scope)
        for row in rows.iter_rows(named=True)
    ]
    return tuple(sorted(waiting, key=_urgency))


def waiting_orders(
    orders: pl.DataFrame, histories: pl.DataFrame, scope: Scope
) -> tuple[OpenOrder, ...]:
    """Return the open orders, the most pressing first; how often a site was bare is not counted.

    Args:
        orders: Rows of `week/orders`.
        histories: Rows of `orders/histories`.
        scope: The scope of both.
    """
    uncounted = pl.lit(None, dtype=pl.Int64)
    return open_orders(orders.with_columns(exposures=uncounted, bare=uncounted), histories, scope)


def late_rules(orders: pl.DataFrame, histories: pl.DataFrame) -> tuple[LateAfter, ...]:
    """Return the rule of lateness of every department with an order, by its key."""
    return tuple(late_after(histories, orders["department"].unique().sort().to_list()).values())


def late_words(waiting: Sequence[OpenOrder]) -> str:
    """Return how many open orders are late and how old the oldest is; without a rule, not none."""
    late = [order for order in waiting if order.is_late]
    untold = [order for order in waiting if not order.is_late_told]
    oldest = max(late or waiting, key=lambda order: (order.age_days, order.guard))
    age = f"the oldest, {oldest.guard}, is {words.plural(oldest.age_days, 'day')} old"
    if len(untold) == len(waiting):
        return f"which are late cannot be told yet ({age})"
    number = words.whole(len(late)) if late else "none"
    rest = f"; of {words.whole(len(untold))} it cannot be told" if untold else ""
    return f"{number} of them late ({age}{rest})"


def expected_by_game(waiting: Sequence[OpenOrder]) -> str:
    """Return how many of those with a forecast can be expected by their next game, with a range."""
    forecasts = [order.forecast for order in waiting if order.forecast is not None]
    bounds = sum(order.chance is not None for order in waiting) - len(forecasts)
    rest = f"; of {words.whole(bounds)} it cannot be told yet" if bounds else ""
    expected = expected_sum(forecasts, two_sided(0.95))
    if expected.value is None:
        return "Of none it can be told yet whether it will be fitted by the next game."
    low, high = (words.number(limit or 0.0, digits=0) for limit in (expected.low, expected.high))
    about = words.number(expected.value, digits=0)
    how_many = "hardly any" if about == "0" else f"about {about}"
    how_many += "" if high == "0" else f" ({low} to {high})"
    return (
        f"Of {words.whole(len(forecasts))} with a forecast {how_many} "
        f"can be expected to be fitted by their next game{rest}."
    )


def _waiting(orders: pl.DataFrame) -> pl.DataFrame:
    """Return open orders with ages, the day of their stage, and what is left to the next game."""
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
        age_hours=pl.when(~pl.col("is_by_day")).then(durations(rows, Unit.HOURS)),
        stage_at=reached,
        requested_at=pl.col("requested"),
    )
    last, stage_on = local_days(rows, "to_at", is_end=True), local_days(rows, "stage_at")
    return rows.with_columns(
        last_on=last,
        stage_on=stage_on,
        stage_days=(last - stage_on).dt.total_days(),
        by_on=pl.col("next_game_on"),
        by_share=local_share(rows, "next_game_at"),
    )


def _order(row: Row, chance: Chance | None, late: LateAfter, scope: Scope) -> OpenOrder:
    zone = ZoneInfo(row["time_zone"])
    stamps = ((str(stage), row[f"{stage}_at"]) for stage in MAKING)
    return OpenOrder(
        **{name: row[name] for name in _COPIED},
        stages=tuple(Reached(stage, at.astimezone(zone)) for stage, at in stamps if at),
        stage_days=int(row["stage_days"]),
        age_days=int(row["age_days"]),
        age_working_days=int(row["age_working_days"]),
        next_game=_next_game(row, zone, scope.through),
        chance=chance,
        why=chance.why if chance else NO_GAME,
        late_after=late,
        attention=_attention(row, chance.forecast if chance else None, late, scope.through),
        rule=row.get("rule") or NOT_CHECKED,
    )


_COPIED = (
    *("guard", "athlete", "name", "team", "department", "department_name", "plan", "kind", "side"),
    *(
        "purpose",
        "scan_method",
        "remake_of",
        "promised_on",
        "stage",
        "age_hours",
        "exposures",
        "bare",
        "worn",
    ),
)


def _next_game(row: Row, zone: ZoneInfo, through: date) -> NextGame | None:
    starts_at: datetime | None = row["next_game_at"]
    if starts_at is None:
        return None
    on, at = row["next_game_on"], starts_at.astimezone(zone)
    return NextGame(row["next_session"], at, on, row["next_game_label"], (on - through).days)


def _attention(row: Row, share: float | None, late: LateAfter, through: date) -> Attention:
    if row["worn"]:
        return Attention.WORN
    if is_late(row["age_days"], late, row["promised_on"], through):
        return Attention.LATE
    if share is not None and share < UNLIKELY - _TIE:
        return Attention.UNLIKELY
    return Attention.ON_ITS_WAY


def _urgency(order: OpenOrder) -> tuple[int, float, int, str]:
    chance = order.chance.value if order.chance else None
    return (_RANK[order.attention], 2.0 if chance is None else chance, -order.age_days, order.guard)
