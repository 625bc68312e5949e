"""When teams practise and play: seasons, weekly patterns, double-headers, breaks."""

import datetime as dt
from dataclasses import dataclass

import numpy as np
import polars as pl

from seasonboard.sample.clubs import OFFSET_FORM, OPPONENTS, Clubs
from seasonboard.sample.data_files import toml_file
from seasonboard.sample.draws import Bools, Draws, Ints, spans
from seasonboard.sample.truth import LAST_DAY, SPORTS, truth

DAY = 24 * 60
PARTS = ("preseason", "regular", "postseason")


def day_number(date: dt.date) -> int:
    """Days since 1970-01-01."""
    return (date - dt.date(1970, 1, 1)).days


def as_date(days: pl.Expr) -> pl.Expr:
    """Days since 1970 as a date."""
    return days.cast(pl.Int32).cast(pl.Date)


def numbered(letter: str, digits: int) -> pl.Expr:
    """Keys of the rows of a table, such as `O00001`, upwards from 1."""
    number = pl.int_range(1, pl.len() + 1).cast(pl.String).str.zfill(digits)
    return pl.concat_str(pl.lit(letter), number)


LAST = day_number(LAST_DAY)
END = LAST * DAY + DAY - 1
_BREAK = (day_number(dt.date(2026, 12, 19)), day_number(dt.date(2027, 1, 3)))


@dataclass(frozen=True, slots=True)
class Season:
    """One sport's season: its days, and what is done on which weekday (Monday is 0)."""

    sport: str
    season: int
    begins: dt.date
    regular: dt.date
    post: dt.date
    ends: dt.date
    practices: list[int]
    games: list[list[int]]  # the game days of each kind of week
    practice_hour: float
    game_hour: float
    double_header: bool = False
    early_games: int = 0  # Saturdays at the end of the preseason with a game that counts little


_SEASONS = [Season(**row) for row in toml_file("schedule")["seasons"]]


@dataclass(frozen=True, slots=True)
class Sessions:
    """All sessions, by squad and then by start; `starts` is in local minutes since 1970."""

    squad: Ints
    number: Ints
    starts: Ints
    game: Bools
    part: Ints
    opponent: Ints
    away: Bools
    header: Ints  # 1 or 2 for the games of a double-header, else 0
    unrecorded: Bools
    first: Ints  # of each squad: its first session
    count: Ints  # of each squad: how many of its sessions lie at or before the last day

    @property
    def day(self) -> Ints:
        """Days since 1970."""
        return self.starts // DAY


def make_sessions(clubs: Clubs, draws: Draws) -> Sessions:
    """Every team's season, from its sport's weekly pattern; future games included."""
    squads = len(clubs.squad_team)
    variants = draws.below(squads, 2)
    patterns = {
        (SPORTS.index(usual.sport), usual.season, variant): _pattern(usual, variant)
        for usual in _SEASONS
        for variant in (0, 1)
    }
    sports = clubs.team_sport[clubs.squad_team].tolist()
    keys = zip(sports, clubs.squad_season.tolist(), variants.tolist(), strict=True)
    chosen = [patterns[key] for key in keys]
    squad = np.repeat(np.arange(squads, dtype=np.int64), [len(rows) for rows in chosen])
    rows = np.concatenate(chosen)
    keep = _kept(squad, rows, draws, squads)
    squad, rows = squad[keep], rows[keep]
    later = (draws.below(squads, 3) * 15)[squad]  # each team has its own habit of starting
    recorded = np.bincount(squad[rows[:, 0] // DAY <= LAST], minlength=squads)
    sizes = np.bincount(squad, minlength=squads)
    first = np.cumsum(sizes) - sizes
    pairs = (squad * 40_000 + rows[:, 0] // DAY) % len(_SHUFFLE)
    return Sessions(
        squad=squad,
        number=np.arange(len(squad)) - first[squad] + 1,
        starts=rows[:, 0] + later,
        game=rows[:, 1] == 1,
        part=rows[:, 2],
        opponent=_SHUFFLE[pairs] % len(OPPONENTS),
        away=_SHUFFLE[pairs] % 2 == 1,
        header=rows[:, 3],
        unrecorded=draws.chance(len(squad), truth().attendance_session_missing_share),
        first=first,
        count=recorded,
    )


# Both games of a double-header meet the same opponent: it is looked up by team and day.
_SHUFFLE = (np.arange(9973, dtype=np.int64) * 2741 + 7 * np.arange(9973) ** 2) % 9973


def _kept(squad: Ints, rows: Ints, draws: Draws, squads: int) -> Bools:
    """Practices called off, teams beaten in the postseason and coming practices are left out."""
    day = rows[:, 0] // DAY
    game = rows[:, 1] == 1
    called_off = draws.chance(len(squad), 0.06) & ~game
    out_on = day_number(dt.date(2026, 11, 9)) + draws.below(squads, 4) * 7
    fall_post = (rows[:, 2] == 2) & (day <= LAST)
    beaten: Bools = fall_post & (day > out_on[squad])
    kept: Bools = ~called_off & ~beaten & (game | (day <= LAST))
    return kept


def _pattern(season: Season, variant: int) -> Ints:
    """Rows of (start, is game, part, double-header) of one sport's season, in order."""
    days = np.arange(day_number(season.begins), day_number(season.ends) + 1, dtype=np.int64)
    weekday = (days + 3) % 7
    part = (days >= day_number(season.regular)).astype(np.int64)
    part += days >= day_number(season.post)
    in_break = (days >= _BREAK[0]) & (days <= _BREAK[1])
    game_day = np.isin(weekday, season.games[variant]) & (part > 0)
    early = (part == 0) & (weekday == 5)
    early &= days >= day_number(season.regular) - 7 * season.early_games
    game_day = (game_day | early) & ~in_break
    if season.double_header:  # every other week only
        game_day &= (days // 7) % 2 == variant
    practice_day = np.isin(weekday, season.practices) & ~game_day & ~in_break
    two_a_day = practice_day & (part == 0) & np.isin(weekday, (1, 3)) & (season.early_games == 2)
    games, practices = int(season.game_hour * 60), int(season.practice_hour * 60)
    double = int(season.double_header)
    blocks = [(game_day, games, 1, double), (practice_day, practices, 0, 0)]
    blocks.append((two_a_day, 9 * 60, 0, 0))
    if double:
        blocks.append((game_day, games + 150, 1, 2))
    parts = []
    for when, minute, is_game, header in blocks:
        starts, one = days[when] * DAY + minute, np.ones(when.sum(), dtype=np.int64)
        parts.append(np.column_stack((starts, one * is_game, part[when], one * header)))
    rows = np.concatenate(parts)
    return np.asarray(rows[np.argsort(rows[:, 0], kind="stable")], dtype=np.int64)


def pairs_of(sessions: Sessions, row_first: Ints, row_count: Ints) -> tuple[Ints, Ints]:
    """Every recorded session of each squad with every roster row of that squad.

    Returns the session and the roster row of each pair, by session and then by roster row.
    """
    recorded, owner = spans(sessions.first, sessions.count)
    rows, place = spans(row_first[owner], row_count[owner])
    return recorded[place], rows


def instants(minutes: Ints, pattern: Ints) -> pl.Series:
    """Local minutes since 1970 as ISO 8601 text, with the offset where the department does so."""
    frame = pl.DataFrame({"minute": minutes, "offset": pattern == OFFSET_FORM})
    local = (pl.col("minute") * 60_000_000).cast(pl.Datetime("us"))
    zoned = local.dt.replace_time_zone(
        "America/Chicago", ambiguous="earliest", non_existent="null"
    ).dt.to_string("%Y-%m-%dT%H:%M:%S%:z")
    plain = local.dt.to_string("%Y-%m-%dT%H:%M:%S")
    return frame.select(at=pl.when("offset").then(zoned).otherwise(plain))["at"]
