"""What is to be written down: which session, who was there, what is proposed for each."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.log.parts import (
    LogAthlete,
    LogGuard,
    LogSession,
    LogSessions,
    LogSheet,
    LogTeam,
    Mark,
)
from seasonboard.answers.reader import Reader, params_of
from seasonboard.scope import Scope, ScopeValues
from seasonboard.terms import OutReason, Part, Setting

_KNOWN_OF = (
    *("athlete", "name", "jersey", "is_listed", "last_part", "last_reason", "last_on"),
    *("open_area", "open_side", "open_on"),
)


def log_sessions(reader: Reader, scope: Scope, known: ScopeValues, today: date) -> LogSessions:
    """Return the sessions of a scope by today, and the one whose attendance is likely next.

    Args:
        reader: The store.
        scope: Which teams and seasons; its last day does not count, for sheets are written today.
        known: What the store knows.
        today: The day it is.
    """
    teams = params_of("log/teams", scope)
    until = today + timedelta(days=1)
    held, squads = reader.read_each(
        [("log/sessions", {**teams, "until": until}), ("log/teams", teams)]
    )
    sessions = tuple(LogSession(**row) for row in held.iter_rows(named=True))
    names = {one.value: one.name for one in known.values.get("team", ())}
    teams_of = (
        LogTeam(team, names.get(team, team), season, zone)
        for team, season, zone in squads.iter_rows()
    )
    return LogSessions(sessions, _proposed(sessions, today), tuple(teams_of), names)


def _proposed(sessions: Sequence[LogSession], today: date) -> int | None:
    """Return the place of today's first without attendance, else of the last one without."""
    bare = [place for place, one in enumerate(sessions) if not one.recorded]
    now = [place for place in bare if sessions[place].day == today]
    if now:
        return now[-1]  # the last one comes first
    return next(iter(bare), 0 if sessions else None)


def new_session(
    team: LogTeam, start: datetime, setting: Setting, sessions: Sequence[LogSession]
) -> LogSession:
    """Return the session of a team at a start, by the department's clock.

    Its key is made of team and start, so that two who write down the same session mean one. A
    session that the store holds at that start is returned as it is.
    """
    instant = start.replace(tzinfo=ZoneInfo(team.time_zone))
    there = (one for one in sessions if one.team == team.team and one.local_start == start)
    made = LogSession(
        session=f"{team.team}-{start:%Y%m%d-%H%M}",
        team=team.team,
        season=team.season,
        starts_at=instant,
        local_start=start,
        setting=setting.value,
        is_new=True,
    )
    return next(there, made)


def log_sheet(reader: Reader, known: ScopeValues, session: LogSession) -> LogSheet:
    """Return one session with everybody on the team's roster that day, and what is proposed.

    Who has nothing recorded is proposed as full, wearing what they wore when they last took part;
    with an open injury as out, or as limited when they took part again since it began.
    """
    names = ("session", "team", "season", "starts_at", "day")
    asked = {name: getattr(session, name) for name in names}
    people, guards = reader.read_each([("log/athletes", asked), ("log/guards", asked)])
    owned = _guards(guards)
    begun = (bool(people["part"].is_not_null().any()), bool(guards["is_worn"].is_not_null().any()))
    rows = people.iter_rows(named=True)
    athletes = tuple(_athlete(row, owned.get(row["athlete"], ()), *begun) for row in rows)
    recorded = sum(one.is_recorded for one in athletes)
    name = known.name_of("team", session.team)
    return LogSheet(replace(session, recorded=recorded), name, athletes)


def _guards(guards: pl.DataFrame) -> dict[str, tuple[LogGuard, ...]]:
    owned: dict[str, list[LogGuard]] = {}
    for guard, athlete, *rest in guards.iter_rows():
        owned.setdefault(athlete, []).append(LogGuard(guard, *rest))
    return {athlete: tuple(mine) for athlete, mine in owned.items()}


def _athlete(
    row: dict[str, Any],
    guards: tuple[LogGuard, ...],
    has_parts: bool,  # noqa: FBT001 - of the session: whether anybody's part is recorded
    has_wear: bool,  # noqa: FBT001 - and whether any guard is
) -> LogAthlete:
    """Return one athlete; who is not recorded in a session that was begun is left so."""
    now = frozenset(one.guard for one in guards if one.is_worn)
    lately = frozenset(one.guard for one in guards if one.was_worn)
    recorded = Mark(row["part"], row["reason"], row["minutes"], row["plays"], now)
    worn = now if has_wear else lately
    is_hurt = row["open_area"] is not None
    if row["part"] is not None:
        proposed = recorded
    elif has_parts:
        proposed = Mark(worn=worn)
    elif is_hurt:
        part = Part.LIMITED if row["is_back"] else Part.OUT
        proposed = Mark(part.value, OutReason.INJURY.value, worn=worn)
    else:
        proposed = Mark(Part.FULL.value, worn=worn)
    return LogAthlete(
        **{name: row[name] for name in _KNOWN_OF},
        is_back=bool(row["is_back"]),
        guards=guards,
        recorded=recorded,
        proposed=proposed,
        is_because=is_hurt and not has_parts,
    )
