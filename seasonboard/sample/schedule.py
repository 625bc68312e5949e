"""When teams practise and play: seasons, weekly patterns, double-headers, breaks."""

import datetime as dt
from dataclasses import dataclass

import numpy as np

from seasonboard.sample.clubs import Clubs
from seasonboard.sample.draws import Bools, Draws, Ints, spans
from seasonboard.sample.rates import SPORTS
from seasonboard.sample.truth import LAST_DAY

DAY = 24 * 60
PARTS = ("preseason", "regular", "postseason")


def day_number(date: dt.date) -> int:
    """Days since 1970-01-01."""
    return (date - dt.date(1970, 1, 1)).days


LAST = day_number(LAST_DAY)
END = LAST * DAY + DAY - 1
_BREAK = (day_number(dt.date(2026, 12, 19)), day_number(dt.date(2027, 1, 3)))


@dataclass(frozen=True, slots=True)
class Season:
    """One sport's season: its days, and what is done on which weekday (Monday is 0)."""

    begins: dt.date
    regular: dt.date
    post: dt.date
    ends: dt.date
    practices: tuple[int, ...]
    games: tuple[tuple[int, ...], ...]  # the game days of each kind of week
    practice_hour: float
    game_hour: float
    double_header: bool = False
    early_games: int = 0  # Saturdays at the end of the preseason with a game that counts little


SEASON_OF: dict[tuple[str, int], Season] = {
    ("soccer", 0): Season(
        dt.date(2026, 8, 10), dt.date(2026, 8, 31), dt.date(2026, 11, 9), dt.date(2026, 12, 5),
        (0, 1, 2, 3, 4, 5), ((2, 5), (4, 6)), 15.5, 18.5, early_games=2,
    ),
    ("lacrosse", 0): Season(
        dt.date(2026, 9, 7), dt.date(2026, 9, 21), dt.date(2026, 11, 16), dt.date(2026, 11, 15),
        (0, 1, 2, 3), ((5,), (6,)), 16.0, 11.0, double_header=True,
    ),
    ("softball", 0): Season(
        dt.date(2026, 8, 31), dt.date(2026, 9, 14), dt.date(2026, 11, 9), dt.date(2026, 11, 8),
        (1, 2, 3, 4), ((5,), (6,)), 16.25, 12.0, double_header=True,
    ),
    ("ice hockey", 1): Season(
        dt.date(2026, 10, 26), dt.date(2026, 11, 6), dt.date(2027, 3, 1), dt.date(2027, 3, 13),
        (0, 1, 2, 3), ((4, 5), (4, 5)), 6.75, 19.0, early_games=1,
    ),
    ("basketball", 1): Season(
        dt.date(2026, 10, 26), dt.date(2026, 11, 9), dt.date(2027, 3, 1), dt.date(2027, 3, 13),
        (0, 2, 3, 4), ((1, 5), (2, 5)), 17.0, 19.5, early_games=1,
    ),
    ("lacrosse", 1): Season(
        dt.date(2026, 11, 30), dt.date(2026, 12, 14), dt.date(2027, 3, 1), dt.date(2027, 2, 28),
        (1, 3), ((6,), (5,)), 20.0, 13.0, double_header=True,
    ),
}  # fmt: skip


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


def make_sessions(clubs: Clubs, draws: Draws, *, opponents: int, missing: float) -> Sessions:
    """Every team's season, from its sport's weekly pattern; future games included."""
    squads = len(clubs.squad_team)
    variants = draws.below(squads, 2)
    keys = zip(
        clubs.team_sport[clubs.squad_team].tolist(),
        clubs.squad_season.tolist(),
        variants.tolist(),
        strict=True,
    )
    patterns = {
        (sport, season, variant): _pattern(usual, variant)
        for sport, name in enumerate(SPORTS)
        for season in (0, 1)
        if (usual := SEASON_OF.get((name, season))) is not None
        for variant in (0, 1)
    }
    chosen = [patterns[key] for key in keys]
    squad = np.repeat(np.arange(squads, dtype=np.int64), [len(rows) for rows in chosen])
    rows = np.concatenate(chosen)
    keep = _kept(squad, rows, draws, squads)
    squad, rows = squad[keep], rows[keep]
    later = (draws.below(squads, 3) * 15)[squad]  # each team has its own habit of starting
    recorded = np.bincount(squad[rows[:, 0] // DAY <= LAST], minlength=squads)
    sizes = np.bincount(squad, minlength=squads)
    first = np.cumsum(sizes) - sizes
    count = len(squad)
    pairs = (squad * 40_000 + rows[:, 0] // DAY) % len(_SHUFFLE)
    return Sessions(
        squad=squad,
        number=np.arange(count) - first[squad] + 1,
        starts=rows[:, 0] + later,
        game=rows[:, 1] == 1,
        part=rows[:, 2],
        opponent=_SHUFFLE[pairs] % opponents,
        away=_SHUFFLE[pairs] % 2 == 1,
        header=rows[:, 3],
        unrecorded=draws.chance(count, missing),
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
    blocks = [
        (game_day, games, 1, double),
        (practice_day, practices, 0, 0),
        (two_a_day, 9 * 60, 0, 0),
    ]
    if double:
        blocks.append((game_day, games + 150, 1, 2))
    rows = np.concatenate(
        [
            np.column_stack(
                (days[when] * DAY + minute, *(np.full(when.sum(), flag),), part[when],
                 np.full(when.sum(), header))
            )
            for when, minute, flag, header in blocks
        ]
    )  # fmt: skip
    return np.asarray(rows[np.argsort(rows[:, 0], kind="stable")], dtype=np.int64)


def pairs_of(sessions: Sessions, row_first: Ints, row_count: Ints) -> tuple[Ints, Ints]:
    """Every recorded session of each squad with every roster row of that squad.

    Returns the session and the roster row of each pair, by session and then by roster row.
    """
    recorded, owner = spans(sessions.first, sessions.count)
    rows, place = spans(row_first[owner], row_count[owner])
    return recorded[place], rows
