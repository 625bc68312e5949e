"""What is ahead: games, guards that will not be there, who is out, what is late or due."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.capacity.levers import BARE, Lever
from seasonboard.answers.orders.open_orders import OpenOrder, expected_by_game, late_words
from seasonboard.answers.returns.out_now import OutNow, alike_words, return_guard_words
from seasonboard.answers.week.item_tables import CHANGE, GAMES, GUARDS, LATE, OUT
from seasonboard.answers.week.parts import DAYS_AHEAD, WeekItem, counted, rows_of


@dataclass(frozen=True, slots=True)
class MissingGuard:
    """An open order of a team with a game ahead, and the day of the first of these games."""

    order: OpenOrder
    game_on: date


def out_of(games: pl.DataFrame, places: pl.DataFrame, told: Mapping[str, OutNow]) -> pl.DataFrame:
    """Return who is out or limited of the teams with a game ahead; rows of `roster/places`.

    `told` is what is known of who is out at a site that guards can cover, by athlete.
    """
    athlete = pl.col("athlete")
    facts = [
        athlete.replace_strict(
            {key: read(one) for key, one in told.items()}, default="", return_dtype=pl.String
        ).alias(name)
        for name, read in (("like_injuries", alike_words), ("return_guard", return_guard_words))
    ]
    return (
        places.join(games.select("team", "season").unique(), on=["team", "season"], how="semi")
        .filter((pl.col("here") == "yes") & pl.col("status").is_in(["out", "limited"]))
        .select(
            *("athlete", "name", "team", "status"),
            pl.col("because").fill_null("no reason recorded"),
            pl.col("open_area").alias("area"),
            pl.coalesce("open_on", "last_on").alias("since"),
            *facts,
        )
        .sort(
            pl.col("status") != "out",
            ~pl.col("because").str.contains("injury"),
            pl.col("because") != "illness",
            *("team", "name", "athlete"),
        )
    )


def missing(games: pl.DataFrame, orders: Sequence[OpenOrder]) -> tuple[MissingGuard, ...]:
    """Return the open orders of teams with a game ahead; rows are those of `week/games`."""
    first = dict(games.sort("starts_at", descending=True).select("team", "played_on").iter_rows())
    return tuple(MissingGuard(o, first[o.team]) for o in orders if o.team in first)


def still_to_change(games: pl.DataFrame, steps: Sequence[Lever]) -> WeekItem:
    """Return the guards that can still be there for the next games, with their next step."""
    rows = tuple(one for one in steps if one.is_open)
    unknown = sum(one.by is None for one in steps)
    bare = sum(one.meanwhile == BARE for one in rows)
    if games.is_empty():
        sentence = f"No game in the next {DAYS_AHEAD} days to be ready for."
    elif not steps:
        sentence = "No guard of these teams is on its way."
    else:
        sentence = (
            f"{words.whole(len(rows))} of {words.plural(len(steps), 'guard')} on the way can still "
            "be there, each by its next step"
        )
        sentence += f"; {words.whole(bare)} of them play bare until then." if bare else "."
        if over := len(steps) - len(rows) - unknown:
            sentence += f" For {words.whole(over)} it is later than four in five need."
        if unknown:
            sentence += f" Of {words.whole(unknown)} it cannot be told: {_why(steps)}."
    title = "Still to be changed before the next games"
    return WeekItem(CHANGE, title, sentence, rows, is_ahead=True, summary=5)


def _why(steps: Sequence[Lever]) -> str:
    return next(one.why for one in steps if one.by is None)


def games_ahead(games: pl.DataFrame, guards: Sequence[MissingGuard], out: pl.DataFrame) -> WeekItem:
    """Return the games of the next days; rows are those of `week/games`."""
    counts = {"guards": Counter(guard.order.team for guard in guards)}
    for status in ("out", "limited"):
        counts[status] = Counter(out.filter(pl.col("status") == status)["team"].to_list())
    team = pl.col("team")
    rows = games.with_columns(
        team.replace_strict(by_team, default=0, return_dtype=pl.Int64).alias(name)
        for name, by_team in counts.items()
    )
    rows = rows.with_columns(at=_local_times(games)).sort("starts_at", "session")
    sentence = f"No game in the next {DAYS_AHEAD} days."
    if len(games):
        teams = words.plural(games["team"].n_unique(), "team")
        sentence = f"{words.plural(len(games), 'game')} of {teams} in the next {DAYS_AHEAD} days."
    return WeekItem(GAMES, "Games ahead", sentence, rows_of(rows), is_ahead=True, summary=3)


def guards_missing(games: pl.DataFrame, guards: Sequence[MissingGuard]) -> WeekItem:
    """Return the guards that will not be there, as of now."""
    if games.is_empty():
        sentence = "No game ahead to be missed."
    elif not guards:
        sentence = "No guard of these teams is still on its way."
    else:
        own = [guard.order for guard in guards]
        sentence = f"{words.plural(len(own), 'guard')} of these teams not fitted as of now."
        sentence += f" {expected_by_game(own)}"
    return WeekItem(GUARDS, "Guards not there", sentence, tuple(guards), is_ahead=True, summary=3)


def athletes_out(games: pl.DataFrame, out: pl.DataFrame) -> WeekItem:
    """Return who is out or limited; rows as `out_of` gives them."""
    sentence = "Nobody is recorded as out or limited." if len(games) else "No team plays."
    if len(out):
        counts = []
        for status in ("out", "limited"):
            rows = out.filter(pl.col("status") == status)
            causes = rows.group_by("because").len().sort("len", "because", descending=[True, False])
            if len(rows):
                reasons = counted(causes.iter_rows())
                counts.append(f"{words.whole(len(rows))} {status} ({reasons})")
        sentence = f"{', '.join(counts)}, by the last record."
    return WeekItem(OUT, "Out or limited", sentence, rows_of(out), is_ahead=True, summary=3)


def late_orders(orders: Sequence[OpenOrder]) -> WeekItem:
    """Return the late orders of the scope, whether a game is ahead or not."""
    late = tuple(order for order in orders if order.is_late)
    sentence = "No order is open."
    if orders:
        sentence = f"{words.plural(len(orders), 'order')} open, {late_words(orders)}."
    return WeekItem(LATE, "Late orders", sentence, late, is_ahead=True)


def _local_times(games: pl.DataFrame) -> pl.Expr:
    at = pl.lit("")
    for zone in games["time_zone"].unique().sort():
        here = pl.col("starts_at").dt.convert_time_zone(zone).dt.strftime("%H:%M")
        at = pl.when(pl.col("time_zone") == zone).then(here).otherwise(at)
    return at
