"""What can still be done so that guards on their way are there for the next games."""

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.allotment.department_prints import ONSITE
from seasonboard.answers.capacity.history import SAFE, History
from seasonboard.answers.orders.open_orders import Attention, OpenOrder
from seasonboard.answers.orders.order_times import MAKING
from seasonboard.answers.orders.usual_time import ENOUGH
from seasonboard.terms import Stage

BARE = "bare"
STEPS: Mapping[Stage, str] = {
    Stage.SCANNED: "scan it, by phone where that is sooner,",
    Stage.MODELLED: "model it",
    Stage.PRINTED: "print it",
    Stage.FINISHED: "finish it",
    Stage.SHIPPED: "ship it",
    Stage.DELIVERED: "hand it over",
    Stage.FITTED: "fit it",
}
"""What brings an order to each stage."""


@dataclass(frozen=True, slots=True)
class Lever:
    """An open order of a team with a game ahead, and the next step that it waits for.

    `by` is the last hour for `step` at which four in five like it were fitted by the game; None
    with `why`. `worn_meanwhile` is another guard of that kind and side in the athlete's hands;
    who `is_out` plays in none.
    """

    order: OpenOrder
    game_on: date
    step: str
    by: datetime | None
    is_open: bool
    worn_meanwhile: str | None
    is_out: bool
    why: str

    @property
    def meanwhile(self) -> str:
        """Return how the athlete plays until then: not at all, bare, or in which guard."""
        if self.is_out:
            return "is out"
        return f"wears {self.worn_meanwhile}" if self.worn_meanwhile else BARE


def levers(
    orders: Sequence[OpenOrder],
    games: pl.DataFrame,
    rows: pl.DataFrame,
    history: History,
    out: Container[str] = frozenset(),
) -> tuple[Lever, ...]:
    """Return what each open order of a team with a game ahead waits for, the most urgent first.

    Those whose step can still be done come first. What is worn already is left out: it is there.

    Args:
        orders: Open orders.
        games: Rows of `week/games`.
        rows: Rows of `week/orders`: the guards in the athletes' hands.
        history: Past orders.
        out: Athletes who are out now.
    """
    first = {
        row["team"]: row for row in games.sort("starts_at", descending=True).iter_rows(named=True)
    }
    in_hand = rows.filter((pl.col("state") == "fitted") & pl.col("retired_at").is_null())
    held: dict[tuple[str, str], list[tuple[str, str]]] = {}
    for row in in_hand.iter_rows(named=True):
        held.setdefault((row["athlete"], row["kind"]), []).append((row["side"], row["guard"]))
    as_of = dict(rows.select("guard", "as_of").iter_rows())
    listed = [
        _lever(one, first[one.team], as_of[one.guard], own, history)
        for one in orders
        for own in [held.get((one.athlete, one.kind), [])]
        if one.team in first and one.attention is not Attention.WORN
    ]
    last = datetime.combine(date.max, time(), ZoneInfo("UTC"))
    listed = [replace(one, is_out=one.order.athlete in out) for one in listed]
    return tuple(sorted(listed, key=lambda one: (not one.is_open, one.by or last, one.order.guard)))


def _lever(
    order: OpenOrder,
    game: Mapping[str, Any],
    now: datetime,
    held: Sequence[tuple[str, str]],
    history: History,
) -> Lever:
    stage = next_stage(order, history)
    zone, hours, why = ZoneInfo(game["time_zone"]), 0.0, ""
    if stage is not Stage.FITTED:
        usual = history.usual(order.department, stage, Stage.FITTED, SAFE)
        hours, why = usual.time or 0.0, usual.why
    by = None if why else (game["starts_at"] - timedelta(hours=hours)).astimezone(zone)
    if by is not None and stage is not Stage.FITTED:
        by = by.replace(minute=0, second=0, microsecond=0)
    worn = (guard for side, guard in held if order.side in {side, "both"} or side == "both")
    return Lever(
        order=order,
        game_on=game["played_on"],
        step=STEPS[stage],
        by=by,
        is_open=by is not None and by >= now,
        worn_meanwhile=next(worn, None),
        is_out=False,
        why=why,
    )


def next_stage(order: OpenOrder, history: History) -> Stage:
    """Return the stage that an order waits for: the next one that its department's orders pass.

    Where fewer than 20 were fitted it is the next one of all; a printer on site ships nothing.
    """
    fitted = history.of(order.department).filter(pl.col("fitted_at").is_not_null())
    for stage in MAKING[MAKING.index(Stage(order.stage)) + 1 :]:
        if len(fitted) >= ENOUGH:
            is_passed = fitted[f"{stage}_at"].count() * 2 > len(fitted)
        else:
            is_passed = order.plan != ONSITE or stage not in {Stage.SHIPPED, Stage.DELIVERED}
        if stage in STEPS and is_passed:
            return stage
    return Stage.FITTED
