"""What is ahead: games, guards that will not be there, who is out, what is late or due."""

from collections.abc import Sequence

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.orders.open_orders import OpenOrder
from seasonboard.answers.rows import Column
from seasonboard.answers.week.parts import DAYS_AHEAD, WeekItem, cells, counted

_GAMES = (
    Column("played_on", "day"),
    Column("at", "at"),
    Column("team", "team"),
    Column("label", "game"),
    Column("guards", "guards not there", is_number=True),
    Column("out", "out", is_number=True),
    Column("limited", "limited", is_number=True),
    Column("session", "session"),
)
_MISSING = (
    Column("name", "name"),
    Column("team", "team"),
    Column("kind", "kind"),
    Column("stage", "stage"),
    Column("age_days", "days", is_number=True),
    Column("chance", "chance by then", is_number=True),
    Column("game_on", "game"),
    Column("guard", "guard"),
    Column("attention", "state"),
    Column("side", "side"),
    Column("athlete", "athlete"),
)
_OUT = (
    Column("name", "name"),
    Column("team", "team"),
    Column("status", "state"),
    Column("because", "because"),
    Column("area", "area"),
    Column("since", "since"),
    Column("athlete", "athlete"),
)
_LATE = (
    Column("name", "name"),
    Column("team", "team"),
    Column("kind", "kind"),
    Column("stage", "stage"),
    Column("age_days", "days", is_number=True),
    Column("late_after", "late after", is_number=True),
    Column("guard", "guard"),
    Column("department", "department"),
    Column("athlete", "athlete"),
)


def out_of(games: pl.DataFrame, places: pl.DataFrame) -> pl.DataFrame:
    """Return who is out or limited of the teams with a game ahead; rows of `roster/places`."""
    return (
        places.join(games.select("team", "season").unique(), on=["team", "season"], how="semi")
        .filter((pl.col("here") == "yes") & pl.col("status").is_in(["out", "limited"]))
        .select(
            "athlete",
            "name",
            "team",
            "status",
            pl.col("because").fill_null("no reason recorded"),
            area=pl.col("open_area"),
            since=pl.coalesce("open_on", "last_on"),
        )
        .sort(
            pl.col("status") != "out",
            ~pl.col("because").str.contains("injury"),
            pl.col("because") != "illness",
            "team",
            "name",
            "athlete",
        )
    )


def missing(games: pl.DataFrame, orders: Sequence[OpenOrder]) -> pl.DataFrame:
    """Return the open orders of teams with a game ahead, with the first of these games."""
    first = dict(games.sort("starts_at", descending=True).select("team", "played_on").iter_rows())
    rows = [
        {
            "guard": order.guard,
            "athlete": order.athlete,
            "name": order.name,
            "team": order.team,
            "kind": order.kind,
            "side": order.side,
            "stage": order.stage,
            "age_days": order.age_days,
            "chance": order.chance.value if order.chance else None,
            "game_on": first[order.team],
            "attention": order.attention.value,
        }
        for order in orders
        if order.team in first
    ]
    types = {"age_days": pl.Int64, "chance": pl.Float64, "game_on": pl.Date}
    return pl.DataFrame(rows, schema={c.name: types.get(c.name, pl.String) for c in _MISSING})


def games_ahead(games: pl.DataFrame, lacking: pl.DataFrame, out: pl.DataFrame) -> WeekItem:
    """Return the games of the next days; rows are those of `week/games`."""
    found = (
        games.join(lacking.group_by("team").len("guards"), on="team", how="left")
        .join(_by_team(out, "out"), on="team", how="left")
        .join(_by_team(out, "limited"), on="team", how="left")
        .with_columns(pl.col("guards", "out", "limited").fill_null(0), at=_local_times(games))
        .sort("starts_at", "session")
    )
    sentence = f"No game in the next {DAYS_AHEAD} days."
    if len(games):
        teams = words.plural(games["team"].n_unique(), "team")
        sentence = f"{words.plural(len(games), 'game')} of {teams} in the next {DAYS_AHEAD} days."
    return WeekItem(
        "games",
        "Games ahead",
        sentence,
        is_ahead=True,
        columns=_GAMES,
        rows=cells(found, _GAMES),
        summary=3,
    )


def guards_missing(games: pl.DataFrame, lacking: pl.DataFrame) -> WeekItem:
    """Return the guards that will not be there, as of now; rows as `missing` gives them."""
    if games.is_empty():
        sentence = "No game ahead to be missed."
    elif lacking.is_empty():
        sentence = "No guard of these teams is still on its way."
    else:
        told = lacking.drop_nulls("chance")
        sentence = f"{words.plural(len(lacking), 'guard')} of these teams not fitted as of now"
        hoped = float(told["chance"].sum())
        sentence += (
            f"; about {words.number(hoped, digits=0)} of them may be by the team's next game."
            if len(told)
            else "."
        )
    return WeekItem(
        "guards",
        "Guards not there",
        sentence,
        is_ahead=True,
        columns=_MISSING,
        rows=cells(lacking, _MISSING),
        summary=3,
    )


def athletes_out(games: pl.DataFrame, out: pl.DataFrame) -> WeekItem:
    """Return who is out or limited; rows as `out_of` gives them."""
    sentence = "Nobody is recorded as out or limited." if len(games) else "No team plays."
    if len(out):
        told = []
        for status in ("out", "limited"):
            rows = out.filter(pl.col("status") == status)
            causes = rows.group_by("because").len().sort("len", "because", descending=[True, False])
            if len(rows):
                told.append(f"{words.whole(len(rows))} {status} ({counted(causes.iter_rows())})")
        sentence = f"{', '.join(told)}, by the last record."
    return WeekItem(
        "out",
        "Out or limited",
        sentence,
        is_ahead=True,
        columns=_OUT,
        rows=cells(out, _OUT),
        summary=3,
    )


def late_orders(orders: Sequence[OpenOrder]) -> WeekItem:
    """Return the late orders of the scope, whether a game is ahead or not."""
    late = [order for order in orders if order.is_late]
    sentence = "No order is late."
    if late:
        oldest = max(late, key=lambda order: (order.age_days, order.guard))
        sentence = (
            f"{words.plural(len(late), 'order')} late of {words.whole(len(orders))} open; the "
            f"oldest is {words.plural(oldest.age_days, 'day')} old."
        )
    found = [
        {
            "guard": each.guard,
            "athlete": each.athlete,
            "name": each.name,
            "team": each.team,
            "department": each.department,
            "kind": each.kind,
            "stage": each.stage,
            "age_days": each.age_days,
            "late_after": each.late_after.days,
        }
        for each in late
    ]
    rows = tuple(tuple(row[column.name] for column in _LATE) for row in found)
    return WeekItem("late", "Late orders", sentence, is_ahead=True, columns=_LATE, rows=rows)


def _by_team(out: pl.DataFrame, status: str) -> pl.DataFrame:
    return out.filter(pl.col("status") == status).group_by("team").len(status)


def _local_times(games: pl.DataFrame) -> pl.Expr:
    at = pl.lit("")
    for zone in games["time_zone"].unique().sort():
        here = pl.col("starts_at").dt.convert_time_zone(zone).dt.strftime("%H:%M")
        at = pl.when(pl.col("time_zone") == zone).then(here).otherwise(at)
    return at
