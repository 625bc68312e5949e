"""Until when a guard can be asked for, game by game."""

from datetime import date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.capacity.history import (
    History,
    UsualTime,
    needed_hours,
    new_order_chances,
)
from seasonboard.answers.capacity.parts import GameAhead
from seasonboard.stats.estimate import Estimate


def games_ahead(games: pl.DataFrame, history: History, through: date) -> tuple[GameAhead, ...]:
    """Return the coming games with the last time to ask, the next first.

    Args:
        games: Rows of `week/games`.
        history: Past orders.
        through: The last day known: what is asked for now is asked for at its end.
    """
    listed: list[GameAhead] = []
    for (department,), own in games.partition_by("department", as_dict=True).items():
        rows = own.to_dicts()
        zone = ZoneInfo(rows[0]["time_zone"])
        now = datetime.combine(through + timedelta(days=1), time(), zone)
        hours = [(row["starts_at"] - now) / timedelta(hours=1) for row in rows]
        chances = new_order_chances(history, str(department), hours)
        needed = needed_hours(history, str(department))
        listed += [
            _game(row, chance, needed, now) for row, chance in zip(rows, chances, strict=True)
        ]
    return tuple(sorted(listed, key=lambda game: (game.starts_at, game.team, game.session)))


def _game(row: dict[str, Any], chance: Estimate, needed: UsualTime, now: datetime) -> GameAhead:
    by = None
    if needed.hours is not None:
        exact = (row["starts_at"] - timedelta(hours=needed.hours)).astimezone(now.tzinfo)
        by = exact.replace(minute=0, second=0, microsecond=0)
    return GameAhead(
        **{name: row[name] for name in ("department", "team", "session", "label")},
        starts_at=row["starts_at"].astimezone(now.tzinfo),
        on=row["played_on"],
        needed=needed,
        ask_by=by,
        is_over=by is not None and by < now,
        chance=chance,
        why=needed.why,
    )
