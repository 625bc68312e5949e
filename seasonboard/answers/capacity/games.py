"""Until when a guard can be asked for, game by game: by the forecast that Orders has."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.capacity.history import SAFE
from seasonboard.answers.capacity.parts import GameAhead
from seasonboard.answers.orders.forecast import Chance, Forecaster
from seasonboard.terms import Stage

TOO_LATE = "asked for now, the chance is below 80 % already"


def games_ahead(
    games: pl.DataFrame,
    plans: Mapping[str, str | None],
    forecast: Forecaster,
    through: date,
    level: float,
) -> tuple[GameAhead, ...]:
    """Return the coming games with the last day to ask, the next first.

    Args:
        games: Rows of `week/games`.
        plans: Plan of each department.
        forecast: Tells the chance of an order; of no kind it is that of the department.
        through: The last day known: what is asked for now is asked for on the day after.
        level: Of the confidence interval of a chance.
    """
    now = through + timedelta(days=1)
    rows = games.filter(pl.col("played_on") >= now).to_dicts()
    asked = [(row, day) for row in rows for day in _days(now, row["played_on"])]
    chances = forecast.chances(_orders(asked, plans), level)
    told: dict[str, dict[date, Chance]] = {}
    for (row, day), chance in zip(asked, chances, strict=True):
        told.setdefault(row["session"], {})[day] = chance
    listed = (_game(row, told[row["session"]], now) for row in rows)
    return tuple(sorted(listed, key=lambda game: (game.starts_at, game.team, game.session)))


def _days(first: date, last: date) -> list[date]:
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]


def _orders(
    asked: Sequence[tuple[dict[str, Any], date]], plans: Mapping[str, str | None]
) -> pl.DataFrame:
    """Return an order of no kind for each game and day of asking, as a forecast takes it."""
    rows = [
        {
            "department": row["department"],
            "plan": plans.get(row["department"]),
            "kind": "",
            "stage": str(Stage.REQUESTED),
            "stage_on": day,
            "by_on": row["played_on"],
            "by_share": _share(row),
        }
        for row, day in asked
    ]
    return pl.DataFrame(rows, schema_overrides={"plan": pl.String, "by_share": pl.Float64})


def _share(row: dict[str, Any]) -> float:
    """Return the part of its day until a game begins."""
    starts: datetime = row["starts_at"].astimezone(ZoneInfo(row["time_zone"]))
    midnight = datetime.combine(starts.date(), time(), starts.tzinfo)
    return (starts - midnight) / timedelta(days=1)


def _game(row: dict[str, Any], told: Mapping[date, Chance], now: date) -> GameAhead:
    chance = told[now]
    safe = [day for day, one in told.items() if one.value is not None and one.value >= SAFE]
    is_known = all(one.forecast is not None for one in told.values())
    why = "" if safe else TOO_LATE if is_known else chance.why or "too little followed yet"
    return GameAhead(
        **{name: row[name] for name in ("department", "team", "session", "label")},
        starts_at=row["starts_at"].astimezone(ZoneInfo(row["time_zone"])),
        on=row["played_on"],
        ask_by=max(safe, default=None),
        is_over=not safe and is_known,
        chance=chance,
        why=why,
    )
