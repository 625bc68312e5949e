"""Who is out now: how long like injuries took from that day on, and how the return guard stands."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.capacity.history import History
from seasonboard.answers.capacity.levers import STEPS, next_stage
from seasonboard.answers.orders.open_orders import OpenOrder, waiting_orders
from seasonboard.scope import Scope
from seasonboard.stats.days_lost import return_curve
from seasonboard.stats.survival import Curve, quantile

ENOUGH_ALIKE = 10
"""With fewer like injuries that lasted as long, nothing is said of when these were over."""
QUESTIONS = ("return/episodes", "roster/like_injuries", "week/orders", "orders/histories")
"""What `out_now` is told from."""
NONE_ASKED, GAME_UNKNOWN = "none asked for", "no game of the team is recorded ahead"


@dataclass(frozen=True, slots=True)
class OutNow:
    """An athlete out with an injury at a site that guards can cover; no return is predicted.

    `alike` are the injuries of that body area, of the whole store, that lasted longer than this one
    has by now (`day` counts from the onset, day 0). A quarter of these were over by the day on
    which this one would be `early_on`, half by `half_on`, three quarters by `late_on`; None, with
    `why`, where that is not known. `stage` is that of the return guard, or that there is none;
    `chance` that it is fitted by `game_on`, `is_least` where that is a lower bound.
    """

    injury: str
    athlete: str
    name: str
    team: str
    department: str
    area: str
    side: str
    occurred_on: date
    day: int
    alike: int
    early_on: date | None
    half_on: date | None
    late_on: date | None
    why: str
    guard: str | None
    stage: str
    chance: float | None
    is_least: bool
    chance_why: str
    game_on: date | None
    next_step: str


def out_now(frames: Mapping[str, pl.DataFrame], scope: Scope) -> tuple[OutNow, ...]:
    """Return who is out now, the longest first, from the rows of `QUESTIONS`."""
    episodes, like_injuries, orders, histories = (frames[name] for name in QUESTIONS)
    rows = episodes.filter("is_open", "is_listed")
    own = orders.filter(pl.col("guard").is_in(rows["guard"].drop_nulls().to_list()))
    waiting = {one.guard: one for one in waiting_orders(own, histories, scope)}
    history = History(histories)
    counts = {
        str(area): [tuple(row) for row in group.select(pl.exclude("area")).iter_rows()]
        for (area,), group in like_injuries.group_by("area", maintain_order=True)
    }
    return tuple(
        OutNow(
            **{name: row[name] for name in _AS_STORED},
            day=(scope.through - row["occurred_on"]).days,
            **_alike(counts.get(row["area"], []), row["occurred_on"], row["days_lost"]),
            **_guard(row, waiting.get(row["guard"]), history),
        )
        for row in rows.iter_rows(named=True)
    )


_AS_STORED = ("injury", "athlete", "name", "team", "department", "area", "side", "occurred_on")


def _alike(counts: list[tuple[int, int, int]], on: date, lost: int) -> dict[str, Any]:
    """Return when like injuries were over, of those that had lasted as long."""
    longer = [one for one in counts if one[0] > lost]
    number = sum(returned + still_open for _, returned, still_open in longer)
    if number < ENOUGH_ALIKE:
        why = f"fewer than {ENOUGH_ALIKE} lasted as long"
        return {"alike": number, "early_on": None, "half_on": None, "late_on": None, "why": why}
    curve = return_curve(longer)
    early, half, late = (_day(curve, share, on) for share in (0.25, 0.5, 0.75))
    why = "" if late is not None else "too few of them have returned"
    return {"alike": number, "early_on": early, "half_on": half, "late_on": late, "why": why}


def _day(curve: Curve, share: float, on: date) -> date | None:
    lost = quantile(curve, share).value
    return None if lost is None else on + timedelta(days=int(lost) + 1)


def _guard(row: Mapping[str, Any], order: OpenOrder | None, history: History) -> dict[str, Any]:
    told: dict[str, Any] = dict.fromkeys(("chance", "game_on"))
    told |= {"guard": row["guard"], "is_least": False, "chance_why": "", "next_step": ""}
    if row["in_hand_on"] is not None:
        return told | {"stage": f"in hand since {_day_word(row['in_hand_on'])}"}
    if row["called_off_on"] is not None:
        return told | {"stage": f"called off on {_day_word(row['called_off_on'])}"}
    if order is None:
        return told | {"stage": NONE_ASKED}
    chance, game = order.chance, order.next_game
    return told | {
        "stage": order.stage,
        "chance": None if chance is None else chance.value,
        "is_least": chance is not None and chance.is_least,
        "chance_why": order.why,
        "game_on": None if game is None else game.on,
        "next_step": STEPS[next_stage(order, history)].rstrip(","),
    }


def _day_word(on: date) -> str:
    return f"{on.day} {on:%b}"


def by_athlete(out: Sequence[OutNow]) -> dict[str, OutNow]:
    """Return who is out by the athlete's key; of several injuries the earliest."""
    return {one.athlete: one for one in reversed(out)}


def short_out_words(one: OutNow) -> str:
    """Return both facts in the fewest words: `3 Feb to 20 Feb; none asked for`."""
    return f"{_days(one) or 'not told'}; {return_guard_words(one)}"


def _days(one: OutNow) -> str:
    if one.early_on is None or one.late_on is None:
        return ""
    return f"{_day_word(one.early_on)} to {_day_word(one.late_on)}"


def alike_words(one: OutNow) -> str:
    """Return when like injuries were over: `3 Feb to 20 Feb (middle half of 24 alike)`."""
    days = _days(one)
    alike = words.whole(one.alike)
    return f"{days} (middle half of {alike} alike)" if days else f"not told, {one.why}"


def return_guard_words(one: OutNow) -> str:
    """Return how the return guard stands: `printed, 62 % by 3 Feb; finish it`."""
    if one.game_on is None:
        return "; ".join(part for part in (one.stage, one.next_step) if part)
    chance = "chance not told"
    if one.chance is not None:
        chance = f"{'at least ' if one.is_least else ''}{words.percent(one.chance)}"
    return f"{one.stage}, {chance} by {_day_word(one.game_on)}; {one.next_step}"


def out_words(one: OutNow) -> tuple[str, str]:
    """Return the two facts of somebody out now, for other answers."""
    return f"like injuries over: {alike_words(one)}", f"return guard: {return_guard_words(one)}"
