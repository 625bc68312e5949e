"""Guards of the rostered athletes: in hand, on their way, and how they are worn."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.base import LeftOut
from seasonboard.answers.orders.lateness import LATE_SHARE, LateAfter, is_late
from seasonboard.answers.roster.parts import GuardState, RosterGuard
from seasonboard.answers.roster.words import day_word
from seasonboard.answers.words import percent, plural
from seasonboard.terms import NOT_CHECKED, RULES

LATELY = 3
"""A guard is unworn when it was worn in none of the last so many sessions taken part in."""

_RANK = {state: rank for rank, state in enumerate(GuardState)}
_AS_STORED = (
    *("guard", "kind", "side", "purpose", "stage", "games_missed", "taken_part", "worn"),
    *("not_known", "last_worn_on", "remade_by", "hurt_on"),
)


@dataclass(frozen=True, slots=True)
class Guards:
    """Guards by athlete, and what was recorded but is not among them."""

    by_athlete: Mapping[str, tuple[RosterGuard, ...]]
    left_out: tuple[LeftOut, ...]


def guards_of(frame: pl.DataFrame, late: Mapping[str, LateAfter], through: date) -> Guards:
    """Return the guards that are in hand or on their way, from the rows of `roster/guards`."""
    is_over = pl.col("state").is_in(["cancelled", "retired"]) | (pl.col("stage") == "retired")
    dropped = is_over.fill_null(value=False) | pl.col("is_undated") | pl.col("is_replaced")
    current = frame.filter(~dropped)
    by_athlete: dict[str, list[RosterGuard]] = defaultdict(list)
    for row in current.iter_rows(named=True):
        by_athlete[row["athlete"]].append(_guard(row, late.get(row["department"]), through))
    undated = int(frame["is_undated"].sum())
    why = "neither a stage nor a session worn is recorded"
    return Guards(
        {
            athlete: tuple(sorted(guards, key=lambda g: (_RANK[g.state], g.guard)))
            for athlete, guards in by_athlete.items()
        },
        (LeftOut("guards", why, undated),) if undated else (),
    )


def _guard(row: Mapping[str, Any], late: LateAfter | None, through: date) -> RosterGuard:
    asked_on = _local_day(row, "asked_at")
    age = (through - asked_on).days if asked_on and row["state"] == "open" else None
    promised = row["promised_on"]
    too_old = bool(age is not None and late and is_late(age, late, promised, through))
    state = _state(row, is_late=too_old)
    why = _no_share(row)
    return RosterGuard(
        **{name: row[name] for name in _AS_STORED},
        state=state,
        is_in_hand=state not in {GuardState.LATE, GuardState.MAKING},
        is_late=too_old,
        asked_on=asked_on,
        fitted_on=_local_day(row, "fitted_at"),
        age_days=age,
        worn_share=None if why else row["worn"] / row["taken_part"],
        why=why,
        because=_because(row, state, late if too_old else None, age) + _in_games(row["rule"]),
    )


def _in_games(rule: str | None) -> str:
    """Return what keeps it out of games or covers it there, by the rules that were looked up."""
    is_plain = rule in {None, NOT_CHECKED, RULES[0]}
    return "" if is_plain else f"; in games {rule}, as looked up"


def _no_share(row: Mapping[str, Any]) -> str:
    if row["fitted_at"] is None:
        return "not fitted yet" if row["state"] else "its fitting is not recorded"
    if row["taken_part"]:
        return ""
    if row["not_known"]:
        return "nobody recorded whether it was worn since it was fitted"
    return "no session taken part in since it was fitted"


def _state(row: Mapping[str, Any], *, is_late: bool) -> GuardState:
    is_open = row["state"] == "open"
    if is_open and row["delivered_at"] is None and not row["worn_ever"]:
        return GuardState.LATE if is_late else GuardState.MAKING
    if row["remade_by"] is not None:
        return GuardState.REMAKE
    if row["hurt_on"] is not None:
        return GuardState.CHECK
    if is_open:
        return GuardState.FIT_CHECK
    if row["taken_part"] >= LATELY and not row["worn_lately"]:
        return GuardState.UNWORN
    return GuardState.IN_HAND


def _because(
    row: Mapping[str, Any], state: GuardState, late: LateAfter | None, age: int | None
) -> str:
    match state:
        case GuardState.LATE | GuardState.MAKING:
            text = _on_its_way(row, late, age)
        case GuardState.REMAKE:
            text = f"remake {row['remade_by']} was asked for{_on_day(row, 'remade_at')}"
        case GuardState.CHECK:
            text = f"its site was hurt on {day_word(row['hurt_on'])}, when it was last worn"
        case GuardState.FIT_CHECK if row["delivered_at"] is None:
            text = "its delivery is not recorded, but it was worn"
        case GuardState.FIT_CHECK:
            text = f"delivered{_on_day(row, 'delivered_at')}"
            text += f", and late: asked for {plural(age or 0, 'day')} ago" if late else ""
        case GuardState.UNWORN:
            text = f"worn in none of the last {LATELY} sessions taken part in{_unknown(row)}"
        case GuardState.IN_HAND if row["state"] is None:
            text = f"worn in {plural(row['worn_ever'], 'session')}; no stage is recorded"
        case GuardState.IN_HAND:
            sessions = plural(row["taken_part"], "session")
            text = f"worn in {row['worn']} of {sessions} since it was fitted{_unknown(row)}"
    return text


def _unknown(row: Mapping[str, Any]) -> str:
    return f"; not recorded in {row['not_known']:,} more" if row["not_known"] else ""


def _on_day(row: Mapping[str, Any], column: str) -> str:
    on = _local_day(row, column)
    return "" if on is None else f" on {day_word(on)}"


def _on_its_way(row: Mapping[str, Any], late: LateAfter | None, age: int | None) -> str:
    parts = [f"{row['stage']}, asked for {plural(age or 0, 'day')} ago"]
    if late is not None and row["promised_on"] is not None:
        parts.append(f"promised for {day_word(row['promised_on'])}")
    elif late is not None:
        parts.append(f"{percent(LATE_SHARE)} of such orders take {late.days:g} days or fewer")
    if row["games_missed"]:
        parts.append(f"{plural(row['games_missed'], 'game')} played since")
    return "; ".join(parts)


def _local_day(row: Mapping[str, Any], column: str) -> date | None:
    at: datetime | None = row[column]
    if at is None or row["time_zone"] is None:
        return None
    return at.astimezone(ZoneInfo(row["time_zone"])).date()
