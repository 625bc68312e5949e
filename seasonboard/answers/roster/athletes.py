"""The rows of the roster: one athlete's state, guards and needs, by the last record."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

import polars as pl

from seasonboard.answers.returns.out_now import OutNow
from seasonboard.answers.roster.parts import (
    ATTENTION,
    NOT_JOINED,
    ComparableInjuries,
    GuardState,
    NextGame,
    OpenInjury,
    RosterAthlete,
    RosterGuard,
    Status,
    StripCell,
)
from seasonboard.answers.roster.words import (
    CONTRADICTION,
    day_word,
    guard_word,
    reason_word,
    site_word,
)
from seasonboard.answers.words import plural
from seasonboard.stats.days_lost import return_curve
from seasonboard.stats.survival import quantile

NO_RETURN_DAY = "no day of an expected return is recorded, and none is predicted"

NOT_AWAY = "nothing to come back from is recorded"

ENOUGH_COMPARABLE = 5
"""With fewer injuries of a body area, nothing is said of how long they kept athletes out."""

_HEALTH = frozenset({"injury", "illness"})
_AS_STORED = (
    *("athlete", "name", "team", "season", "jersey", "position", "position_group", "last_on"),
    "sessions_since",
)


@dataclass(frozen=True, slots=True)
class RosterContext:
    """What an athlete's row takes from other queries; games by team and season."""

    guards: Mapping[str, tuple[RosterGuard, ...]]
    days_lost: Mapping[str, int]
    comparable: Mapping[str, ComparableInjuries]
    games: Mapping[tuple[str, str], NextGame]
    through: date
    out_now: Mapping[str, OutNow]


def comparable_injuries(
    frame: pl.DataFrame, areas: Collection[str]
) -> dict[str, ComparableInjuries]:
    """Return how long injuries of some areas kept athletes out (rows of `roster/like_injuries`)."""
    rows = frame.filter(pl.col("area").is_in(areas))
    return {
        area: _comparable(area, own.select("days_lost", "returned", "still_open"))
        for (area,), own in rows.group_by("area", maintain_order=True)
    }


def _comparable(area: str, counts: pl.DataFrame) -> ComparableInjuries:
    still_open = int(counts["still_open"].sum())
    injuries = int(counts["returned"].sum()) + still_open
    median, why = None, f"fewer than {ENOUGH_COMPARABLE} of them"
    if injuries >= ENOUGH_COMPARABLE:
        median = quantile(return_curve(counts.rows())).value
        why = "fewer than half have returned" if median is None else ""
    days = None if median is None else int(median)
    return ComparableInjuries(area, injuries, still_open, days, why)


def roster_athlete(row: Mapping[str, Any], context: RosterContext) -> RosterAthlete:
    """Return one row of the roster from a row of `roster/places`."""
    guards = context.guards.get(row["athlete"], ())
    injury = _open_injury(row, context.through)
    fitted = [guard for guard in guards if guard.worn_share is not None]
    sessions, worn = sum(g.taken_part for g in fitted), sum(g.worn for g in fitted)
    status = Status(row["status"])
    return RosterAthlete(
        **{name: row[name] for name in _AS_STORED},
        status=status,
        reason=row["because"],
        because=_because(row, injury),
        injury=injury,
        comparable=None if injury is None else context.comparable.get(injury.area),
        days_lost=context.days_lost.get(row["athlete"], 0),
        expected_back_why=NOT_AWAY if status is Status.FULL else NO_RETURN_DAY,
        guards=guards,
        taken_part=sessions,
        worn=worn,
        worn_share=worn / sessions if sessions else None,
        worn_share_why="" if sessions else next((guard.why for guard in guards), "no guard"),
        needs=(*_record_needs(row, injury), *_guard_needs(guards)),
        attention=_attention(status, row["because"], guards),
        strip=tuple(
            StripCell(part or NOT_JOINED, guarded)
            for part, guarded in zip(row["parts"], row["guarded"], strict=True)
        ),
        next_game=context.games[row["team"], row["season"]],
        out_now=context.out_now.get(row["athlete"]),
    )


def _open_injury(row: Mapping[str, Any], through: date) -> OpenInjury | None:
    if row["open_injury"] is None:
        return None
    injury, area, side = row["open_injury"], row["open_area"], row["open_side"]
    on, others = row["open_on"], row["open_injuries"] - 1
    return OpenInjury(injury, area, side, on, (through - on).days, others)


def _because(row: Mapping[str, Any], injury: OpenInjury | None) -> str | None:
    parts = [_ground(row, injury)]
    if row["last_on"] is not None and row["sessions_since"] and row["because"] != "returned":
        since = plural(row["sessions_since"], "session")
        parts.append(f"last recorded {day_word(row['last_on'])}, {since} since")
    return "; ".join(part for part in parts if part) or None


def _ground(row: Mapping[str, Any], injury: OpenInjury | None) -> str:
    reason = row["because"]
    if injury is not None:
        text = f"{site_word(injury.area, injury.side)}, day {injury.day}"
        if injury.others:
            text += f", and {plural(injury.others, 'other injury', 'other injuries')}"
        if reason == CONTRADICTION:
            text += f", open though in full part on {day_word(row['last_on'])}"
        return text
    if reason == "returned":
        return f"returned on {day_word(row['returned_on'])}, no session since"
    if reason == "injury":
        return "injury, none recorded as open"
    return "" if reason is None else reason_word(reason)


def _record_needs(row: Mapping[str, Any], injury: OpenInjury | None) -> list[str]:
    needs = []
    if row["because"] == CONTRADICTION and injury is not None:
        needs.append(
            f"Record the return from the {injury.area} injury of {day_word(injury.occurred_on)}, "
            f"or correct the part on {day_word(row['last_on'])}."
        )
    if row["because"] == "injury" and injury is None:
        needs.append(f"Record the injury behind the part on {day_word(row['last_on'])}.")
    if row["last_on"] is None and row["sessions_since"]:
        needs.append("Record attendance: there is none yet.")
    elif row["sessions_since"] and row["because"] != "returned":
        needs.append(f"Record attendance since {day_word(row['last_on'])}.")
    return needs


def _guard_needs(guards: tuple[RosterGuard, ...]) -> list[str]:
    needs = []
    for guard in guards:
        name = guard_word(guard.kind, guard.side)
        match guard.state:
            case GuardState.LATE:
                age = plural(guard.age_days or 0, "day")
                needs.append(f"Find out about the {name}: {guard.stage}, asked for {age} ago.")
            case GuardState.FIT_CHECK:
                needs.append(f"Check the fit of the {name}: {guard.because}.")
            case GuardState.REMAKE:
                needs.append(f"Replace the {name} when it comes: {guard.because}.")
            case GuardState.CHECK:
                needs.append(f"Look the {name} over: {guard.because}.")
            case GuardState.UNWORN:
                needs.append(f"Ask why the {name} stays off: {guard.because}.")
            case GuardState.MAKING | GuardState.IN_HAND:
                continue
    return needs


def _attention(status: Status, reason: str | None, guards: tuple[RosterGuard, ...]) -> str:
    """Return the first line of `ATTENTION` that holds."""
    states = {guard.state for guard in guards}
    holds = (
        status is Status.OUT and reason in _HEALTH,
        status is Status.LIMITED,
        any(guard.is_late for guard in guards),
        bool(states & {GuardState.REMAKE, GuardState.CHECK}),
        GuardState.UNWORN in states,
        GuardState.FIT_CHECK in states,
        status is Status.NOT_RECORDED,
        status is Status.OUT,
        GuardState.MAKING in states,
        True,
    )
    return ATTENTION[holds.index(True)]
