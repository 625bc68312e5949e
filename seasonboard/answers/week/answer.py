"""What changed this week, and what must be decided? One item after the other, for a meeting."""

from collections import Counter
from collections.abc import Mapping
from datetime import date, timedelta

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION, LeftOut, Summary, studied_areas
from seasonboard.answers.capacity.history import History
from seasonboard.answers.capacity.levers import levers
from seasonboard.answers.orders.open_orders import waiting_orders
from seasonboard.answers.questions import WEEK
from seasonboard.answers.reader import Reader, read_frames
from seasonboard.answers.returns.out_now import by_athlete, out_now
from seasonboard.answers.roster.availability import with_availability
from seasonboard.answers.week import ahead as week_ahead
from seasonboard.answers.week import changes as week_changes
from seasonboard.answers.week import decisions as week_decisions
from seasonboard.answers.week.parts import (
    DAYS_AHEAD,
    DAYS_BACK,
    DayCounts,
    WeekAnswer,
    WeekItem,
    WeekOptions,
    day_words,
)
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, ScopeValues

_QUESTIONS = (
    *("week/orders", "roster/places", "week/games", "roster/sessions", "week/offers"),
    *("week/injuries", "orders/histories", "week/decisions", "week/loads", "draw/draws"),
    *("return/episodes", "roster/like_injuries"),
)
_TURNS = "turns/turns"
_CAVEATS = (
    CAUTION,
    "A row counts from the day it is dated, not from the day it was loaded. An answer to an offer "
    "is known from the day of the offer, and rows corrected later are shown as corrected.",
)


def week(
    reader: Reader, scope: Scope, scope_values: ScopeValues, options: WeekOptions | None = None
) -> WeekAnswer:
    """Tell what changed after one day up to the scope's last day, and what is ahead.

    Raises:
        ScopeError: `since` does not lie before the last day known.
    """
    since = (options or WeekOptions()).since or scope.through - timedelta(days=DAYS_BACK)
    if since >= scope.through:
        raise ScopeError(
            f"“since”, {since}, does not lie before the last day known, {scope.through}.",
            "Name an earlier day: the last one that was already talked about.",
        )
    frames = read_frames(reader, scope, *_QUESTIONS, since=since, days=DAYS_AHEAD)
    if frames["draw/draws"].height:
        frames |= read_frames(reader, scope, _TURNS)
    frames["week/injuries"] = _with_studied(frames["week/injuries"], scope, scope_values)
    sessions = with_availability(frames["roster/sessions"]).filter(pl.col("played_on") > since)
    stages = week_changes.stage_days(frames["week/orders"], since)
    items = (*_changes(frames, sessions, stages, since), *_ahead(frames, scope))
    days = _days(since, scope.through, (sessions, frames["week/injuries"], stages))
    sentence = _sentence(items, days, scope_values)
    summary = Summary(WEEK.asks, sentence, _CAVEATS, _left_out(sessions), scope)
    return WeekAnswer(summary, since, scope.through, days, items)


def _with_studied(injuries: pl.DataFrame, scope: Scope, scope_values: ScopeValues) -> pl.DataFrame:
    """Add whether the guard kinds of the scope cover a site of the injury."""
    sides = scope.sides or ("left", "right", "midline")
    both = ("both",) if {"left", "right"} & set(sides) else ()
    return injuries.with_columns(
        is_studied=pl.col("area").is_in(list(studied_areas(scope, scope_values)))
        & pl.col("side").is_in([*sides, *both])
    )


def _changes(
    frames: Mapping[str, pl.DataFrame], sessions: pl.DataFrame, stages: pl.DataFrame, since: date
) -> tuple[WeekItem, ...]:
    orders, injuries = frames["week/orders"], frames["week/injuries"]
    return (
        week_changes.played(sessions),
        week_changes.injured(injuries),
        week_changes.returned(injuries),
        week_changes.staged(stages),
        week_changes.remade(orders, since),
        *week_changes.jumped(frames.get(_TURNS), since),
        week_changes.offered(frames["week/offers"]),
        week_decisions.decided(frames["week/decisions"], since),
        week_changes.loaded(frames["week/loads"]),
    )


def _ahead(frames: Mapping[str, pl.DataFrame], scope: Scope) -> tuple[WeekItem, ...]:
    games = frames["week/games"]
    waiting = waiting_orders(frames["week/orders"], frames["orders/histories"], scope)
    told = by_athlete(out_now(frames, scope))
    out = week_ahead.out_of(games, frames["roster/places"], told)
    guards = week_ahead.missing(games, waiting)
    history = History(frames["orders/histories"])
    is_out = frozenset(out.filter(pl.col("status") == "out")["athlete"])
    steps = levers(waiting, games, frames["week/orders"], history, is_out)
    return (
        week_ahead.still_to_change(games, steps),
        week_ahead.games_ahead(games, guards, out),
        week_ahead.guards_missing(games, guards),
        week_ahead.athletes_out(games, out),
        week_ahead.late_orders(waiting),
        week_decisions.decisions_due(frames["week/decisions"], scope.through),
    )


def _days(
    since: date, through: date, frames: tuple[pl.DataFrame, pl.DataFrame, pl.DataFrame]
) -> tuple[DayCounts, ...]:
    """Return what happened day by day, from the sessions, injuries and stages of the stretch."""
    sessions, injuries, stages = frames
    columns = [
        Counter(rows[day].to_list())
        for rows, day in (
            (sessions.filter(pl.col("setting") == "game"), "played_on"),
            (sessions.filter(pl.col("setting") != "game"), "played_on"),
            (injuries.filter("is_new"), "known_on"),
            (injuries.filter("is_return"), "returned_on"),
            (stages.filter(pl.col("stage") == "requested"), "on"),
            (stages.filter(pl.col("stage") == "fitted"), "on"),
        )
    ]
    days = (since + timedelta(days=n) for n in range(1, (through - since).days + 1))
    return tuple(DayCounts(day, *(counts[day] for counts in columns)) for day in days)


def _sentence(
    items: tuple[WeekItem, ...], days: tuple[DayCounts, ...], scope_values: ScopeValues
) -> str:
    first, last = day_words(days[0].day), day_words(days[-1].day)
    when = f"From {first} to {last}" if len(days) > 1 else f"On {last}"
    if scope_values.is_empty:
        return "Nothing is recorded yet, so there is no week to tell of."
    rows = {item.key: len(item.rows) for item in items}
    games = sum(day.games for day in days)
    requested, fitted = sum(day.asked for day in days), sum(day.fitted for day in days)
    due = next(item.rows for item in items if item.key == "decisions")
    overdue = sum(row["state"].startswith("overdue") for row in due)
    return (
        f"{_still(rows)}{when}: {words.plural(games, 'game')}, "
        f"{words.plural(rows['injuries'], 'new injury', 'new injuries')}, "
        f"{words.plural(rows['returns'], 'return')}, "
        f"{words.plural(requested, 'guard')} asked for and {words.whole(fitted)} fitted. "
        f"Ahead: {words.plural(rows['games'], 'game')} in {DAYS_AHEAD} days, "
        f"{words.plural(rows['guards'], 'guard')} not there as of now, "
        f"{words.plural(rows['late'], 'late order')}, "
        f"{words.plural(overdue, 'overdue decision')}."
    )


def _still(rows: Mapping[str, int]) -> str:
    """Return what can still be changed, where something can."""
    count = rows["change"]
    guards = words.plural(count, "guard")
    return f"{guards} can still be there for the next games. " if count else ""


def _left_out(sessions: pl.DataFrame) -> tuple[LeftOut, ...]:
    """Return attendance that availability leaves out."""
    missing, unlisted = (int(sessions[name].sum()) for name in ("not_recorded", "unlisted"))
    counts = (
        LeftOut("athletes' sessions", "attendance not recorded", missing),
        LeftOut("attendances", "not on the roster that day", unlisted),
    )
    return tuple(one for one in counts if one.count)
