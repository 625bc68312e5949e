"""From seasons to the counts that the board's questions would return: strata and their athletes.

Preventive view: a site counts until its first injury. Through view (same athlete): every injury
counts. Strata are keyed as in the comparisons; sums run over whole arrays.
"""

from dataclasses import dataclass

import numpy as np

from tests.truthfulness.seasons import (
    BLOCK,
    BLOCKS,
    CELL_OF,
    CELL_SIZES,
    CELL_STARTS,
    CELLS,
    GROUP_OF_CELL,
    SESSIONS,
    SPORT_OF_CELL,
    TEAM_OF,
    TEAM_OF_CELL,
    Seasons,
)

KINDS_OF_ATHLETE = 8
"""Two sports times four position groups."""
STRATA = KINDS_OF_ATHLETE * 2 * BLOCKS
"""Alike athletes: sport, position group, setting and two-week block, numbered in that order."""
_KIND_OF_CELL = SPORT_OF_CELL * 4 + GROUP_OF_CELL
_SESSION = np.arange(SESSIONS)[:, None, None]


@dataclass(slots=True)
class Counts:
    """Counts of several seasons.

    `cells` is [c, s, cell, 4]: a, b, t1, t0 of the preventive view by session and position group of
    a team; `through` [c, stratum, 2] injuries and exposures of bare sites, every injury counted;
    `alike` [c, stratum, 4] the cells summed for alike athletes, `stratum` [c, s, cell] their key;
    `t1`, `t0` are [s, c, a].
    """

    cells: np.ndarray
    through: np.ndarray
    alike: np.ndarray
    stratum: np.ndarray
    t1: np.ndarray
    t0: np.ndarray


@dataclass(slots=True)
class Pairs:
    """Sides of one athlete in one session, one guarded and one bare, neither injured before.

    `number` is how many each season had; the other columns hold one entry per pair in which a side
    was hurt.
    """

    number: np.ndarray
    season: np.ndarray
    athlete: np.ndarray
    guarded: np.ndarray
    bare: np.ndarray


def count(seasons: Seasons) -> Counts:
    """Return the counts of all seasons."""
    number = seasons.count
    fresh = [seasons.first_injury[:, :, site] >= _SESSION for site in (0, 1)]
    guarded = [seasons.worn & seasons.covers[:, :, site] for site in (0, 1)]
    at_risk = [seasons.part & fresh[site] for site in (0, 1)]
    t1 = sum((guarded[site] & fresh[site]).astype(np.int8) for site in (0, 1))
    t0 = sum((at_risk[site] & ~guarded[site]).astype(np.int8) for site in (0, 1))
    bare = 2 * seasons.part.astype(np.int8) - guarded[0] - guarded[1]
    cells = np.zeros((number, SESSIONS, CELLS, 4))
    for column, exposures in ((2, t1), (3, t0)):
        cells[..., column] = _by_cell(exposures)
    hurt = seasons.injuries
    at = hurt.season, hurt.session, CELL_OF[hurt.athlete]
    np.add.at(cells[..., 0], at, hurt.first & hurt.guarded)
    np.add.at(cells[..., 1], at, hurt.first & ~hurt.guarded)
    game = seasons.game[:, TEAM_OF_CELL, :].transpose(0, 2, 1)
    stratum = (_KIND_OF_CELL * 2 + game) * BLOCKS + BLOCK[:, None]
    exposed = sum_by(stratum, _by_cell(bare), STRATA)
    injured = np.zeros((number, STRATA))
    np.add.at(injured, (hurt.season, stratum[at]), ~hurt.guarded)
    through = np.stack([injured, exposed], axis=2)
    alike = np.stack([sum_by(stratum, cells[..., i], STRATA) for i in range(4)], axis=2)
    return Counts(cells, through, alike, stratum, t1, t0)


def _by_cell(exposures: np.ndarray) -> np.ndarray:
    """Sum [s, c, a] over the athletes of each cell, to [c, s, cell]."""
    summed = np.add.reduceat(exposures, CELL_STARTS, axis=2, dtype=np.int32)
    return summed.transpose(1, 0, 2)


def sum_by(keys: np.ndarray, values: np.ndarray, size: int) -> np.ndarray:
    """Sum `values` by season (first axis) and key: [c, size]."""
    number = len(keys)
    offset = np.arange(number).reshape(-1, *[1] * (keys.ndim - 1)) * size
    flat = np.bincount((keys + offset).ravel(), values.ravel(), minlength=number * size)
    return flat.reshape(number, size)


def session_strata(counts: Counts, c: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return session, cell and [n, 4] counts of one season's strata with an injury, in order.

    The last row sums the strata without; it has no session.
    """
    cells = counts.cells[c]
    s, cell = np.nonzero(cells[..., 0] + cells[..., 1])
    rows = cells[s, cell]
    rest = cells.sum(axis=(0, 1)) - rows.sum(axis=0)
    return s, cell, np.vstack([rows, rest])


def session_members(seasons: Seasons, counts: Counts, c: int) -> list[np.ndarray]:
    """Return stratum, athlete, a, b, t1, t0 of each athlete exposed in a session with an injury."""
    s, cell, _ = session_strata(counts, c)
    sizes = CELL_SIZES[cell]
    stratum = np.repeat(np.arange(len(s)), sizes)
    within = np.arange(sizes.sum()) - np.repeat(np.cumsum(sizes) - sizes, sizes)
    athlete, session = CELL_STARTS[cell][stratum] + within, s[stratum]
    table = np.zeros((2, SESSIONS, len(CELL_OF)))
    _put_injuries(seasons, c, table)
    return [
        stratum, athlete, table[0, session, athlete], table[1, session, athlete],
        counts.t1[session, c, athlete], counts.t0[session, c, athlete],
    ]  # fmt: skip


def alike_members(seasons: Seasons, counts: Counts, c: int) -> list[np.ndarray]:
    """Return the same for the strata of alike athletes that hold an injury."""
    table = np.zeros((4, SESSIONS, len(CELL_OF)))
    _put_injuries(seasons, c, table)
    table[2], table[3] = counts.t1[:, c], counts.t0[:, c]
    stratum = counts.stratum[c][:, CELL_OF]
    hurt = np.zeros(STRATA, dtype=bool)
    hurt[stratum[table[0] + table[1] > 0]] = True
    s, athlete = np.nonzero(hurt[stratum] & (table[2] + table[3] > 0))
    key = stratum[s, athlete] * len(CELL_OF) + athlete
    sums = [np.bincount(key, column[s, athlete], STRATA * len(CELL_OF)) for column in table]
    there = np.flatnonzero(sums[2] + sums[3])
    return [there // len(CELL_OF), there % len(CELL_OF), *(column[there] for column in sums)]


def _put_injuries(seasons: Seasons, c: int, table: np.ndarray) -> None:
    """Put one season's first injuries, guarded and bare, into [2 or more, s, a]."""
    hurt = seasons.injuries
    own = (hurt.season == c) & hurt.first
    at = hurt.session[own], hurt.athlete[own]
    np.add.at(table[0], at, hurt.guarded[own])
    np.add.at(table[1], at, ~hurt.guarded[own])


def side_pairs(seasons: Seasons) -> Pairs:
    """Return the pairs of all seasons."""
    one_side = seasons.covers[:, :, 0] ^ seasons.covers[:, :, 1]
    fresh = seasons.first_injury.min(axis=2) >= _SESSION
    pairs = seasons.worn & one_side & fresh
    hurt = seasons.injuries
    told = pairs[hurt.session, hurt.season, hurt.athlete]
    key = (hurt.season * SESSIONS + hurt.session) * len(CELL_OF) + hurt.athlete
    keys, pair = np.unique(key[told], return_inverse=True)
    a = np.bincount(pair, hurt.guarded[told], len(keys))
    b = np.bincount(pair, ~hurt.guarded[told], len(keys))
    season, athlete = keys // (SESSIONS * len(CELL_OF)), keys % len(CELL_OF)
    return Pairs(pairs.sum(axis=(0, 2)), season, athlete, a, b)


def course_rows(seasons: Seasons, c: int) -> tuple[np.ndarray, np.ndarray]:
    """Return athlete and site of every injured site of one season whose guard was asked for."""
    hurt = seasons.injuries
    own = hurt.season == c
    known = np.unique(hurt.athlete[own] * 2 + hurt.site[own])
    athlete, site = known // 2, known % 2
    asked = (seasons.asked[c, athlete] < SESSIONS) & seasons.covers[c, athlete, site]
    return athlete[asked], site[asked]


def athlete_stratum(seasons: Seasons, c: int, athletes: np.ndarray) -> np.ndarray:
    """Return the stratum of alike athletes of each athlete and session: [n, s]."""
    game = seasons.game[c, TEAM_OF[athletes]]
    kind = _KIND_OF_CELL[CELL_OF[athletes]][:, None]
    return (kind * 2 + game) * BLOCKS + BLOCK
