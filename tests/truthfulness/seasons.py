"""Seasons as arrays: who took part, what was worn, who was hurt, with the planted truth known.

A season has 10 teams of two sports, 25 athletes each in four position groups, two sites per
athlete, and 72 sessions over 16 weeks, about a fifth of them games. Several seasons are made at
once. Axes: s session, c season, a athlete, then site.
"""

from dataclasses import dataclass

import numpy as np

from tests.truthfulness.scenarios import Scenario, Variation

TEAMS, SESSIONS, WEEKS, BLOCKS = 10, 72, 16, 8
GROUP_SIZES = (7, 6, 6, 6)
PER_TEAM = sum(GROUP_SIZES)
ATHLETES = TEAMS * PER_TEAM
CELLS = TEAMS * len(GROUP_SIZES)
"""A cell is one team's position group; its athletes stand side by side."""

WEEK = np.arange(SESSIONS) * WEEKS // SESSIONS
BLOCK = WEEK // 2
CELL_SIZES = np.tile(GROUP_SIZES, TEAMS)
CELL_STARTS = np.concatenate(([0], np.cumsum(CELL_SIZES)[:-1]))
CELL_OF = np.repeat(np.arange(CELLS), CELL_SIZES)
TEAM_OF_CELL = np.arange(CELLS) // len(GROUP_SIZES)
GROUP_OF_CELL = np.arange(CELLS) % len(GROUP_SIZES)
SPORT_OF_CELL = (TEAM_OF_CELL >= TEAMS // 2).astype(int)
TEAM_OF = TEAM_OF_CELL[CELL_OF]

GROUP_RISK = np.array([2.0, 1.3, 0.8, 0.5])
SPORT_RISK = np.array([1.0, 1.6])
GAME_RISK = 3.5
COURSE = 1 + 2.5 * np.exp(-WEEK / 3)
"""Injuries are denser early in the season."""

FIRST_GAME_WEEK = 2
GAME_SHARE = 0.23
AT_PRACTICE = 0.93
AT_GAMES = (0.40, 0.95)
"""Share of games that bench players and starters take part in."""

TAKE_UP = np.array([0.75, 0.55, 0.35, 0.20])
TAKE_UP_ALIKE = 0.47
STARTERS_TAKE_UP = (0.8, 1.2)
LAST_ASKED = 36
LEAD = 7.0
WORN_AT_GAMES, WORN_AT_PRACTICE = 0.90, 0.85
OUT_SESSIONS, SEASON_ENDING = 6.0, 0.08
BROUGHT_ON = 0.6


@dataclass(slots=True)
class Injuries:
    """Every injury, in the order of sessions: where it was, and whether it was guarded."""

    season: np.ndarray
    athlete: np.ndarray
    site: np.ndarray
    session: np.ndarray
    guarded: np.ndarray
    first: np.ndarray


@dataclass(slots=True)
class Seasons:
    """Several seasons of one scenario.

    `part` and `worn` are [s, c, a]; `covers` [c, a, site] says what the athlete's guard covers,
    `asked` [c, a] the session from which it was asked for (SESSIONS: never), `first_injury`
    [c, a, site] the session of the first injury (SESSIONS: none), `game` [c, team, s].
    `risk` [c, a] is the rate in a bare practice late in the season. `expected` [c, 2] sums the true
    rates over bare and guarded exposures of sites not injured before.
    """

    scenario: Scenario
    game: np.ndarray
    part: np.ndarray
    worn: np.ndarray
    covers: np.ndarray
    asked: np.ndarray
    first_injury: np.ndarray
    risk: np.ndarray
    expected: np.ndarray
    injuries: Injuries

    @property
    def count(self) -> int:
        return len(self.game)


@dataclass(slots=True)
class _People:
    """What stays with an athlete through a season."""

    risk: np.ndarray
    at_games: np.ndarray
    covers: np.ndarray
    asked: np.ndarray
    fitted: np.ndarray


def simulate(scenario: Scenario, rng: np.random.Generator, count: int) -> Seasons:
    """Return `count` seasons."""
    variation = scenario.variation
    people = _people(variation, rng, count)
    week_ok = WEEK >= FIRST_GAME_WEEK
    game = (rng.random((count, TEAMS, SESSIONS)) < GAME_SHARE) & week_ok
    part = np.zeros((SESSIONS, count, ATHLETES), dtype=bool)
    worn = np.zeros_like(part)
    first = np.full((count, ATHLETES, 2), SESSIONS)
    out_until = np.full((count, ATHLETES), -1)
    expected = np.zeros((count, 2))
    found = []
    for s in range(SESSIONS):
        at_game = game[:, TEAM_OF, s]
        draws = rng.random((2, count, ATHLETES), dtype=np.float32)
        part[s] = (draws[0] < np.where(at_game, people.at_games, AT_PRACTICE)) & (out_until < s)
        share = np.where(at_game, WORN_AT_GAMES, WORN_AT_PRACTICE)
        worn[s] = part[s] & (people.fitted <= s) & (draws[1] < share)
        guarded = worn[s][:, :, None] & people.covers
        rate = people.risk * session_risk(variation, at_game, s) * part[s]
        chance = rate[:, :, None] * np.where(guarded, scenario.ratio, 1.0)
        fresh = np.where(first >= s, chance, 0.0)
        at_guarded = (fresh * guarded).sum(axis=(1, 2))
        expected += np.stack([fresh.sum(axis=(1, 2)) - at_guarded, at_guarded], axis=1)
        c, a, site = np.nonzero(rng.random((count, ATHLETES, 2)) < chance)
        found.append((c, a, site, np.full(len(c), s), guarded[c, a, site], first[c, a, site] >= s))
        first[c, a, site] = np.minimum(first[c, a, site], s)
        if variation.absence:
            out_until[c, a] = s + _out(rng, len(c))
        if variation.after_injury:
            _bring_on(people, rng, (c, a, site), s)
    injuries = Injuries(*(np.concatenate(column) for column in zip(*found, strict=True)))
    return Seasons(
        scenario, game, part, worn, people.covers, people.asked, first, people.risk, expected,
        injuries,
    )  # fmt: skip


def session_risk(variation: Variation, at_game: np.ndarray, session: int) -> np.ndarray:
    """Return by how much a session multiplies an athlete's risk."""
    if not variation.traps:
        return np.ones(at_game.shape)
    return COURSE[session] * np.where(at_game, GAME_RISK, 1.0)


def _people(variation: Variation, rng: np.random.Generator, count: int) -> _People:
    shape = (count, ATHLETES)
    frail = np.ones(shape)
    if variation.frailty:
        frail = rng.gamma(1 / variation.frailty, variation.frailty, shape)
    group, sport = GROUP_OF_CELL[CELL_OF], SPORT_OF_CELL[CELL_OF]
    relative = GROUP_RISK[group] * SPORT_RISK[sport] if variation.traps else np.ones(ATHLETES)
    starts = (rng.random(shape) < 0.5).astype(int)
    at_games = np.full(shape, float(np.mean(AT_GAMES)))
    take_up = np.full(shape, TAKE_UP_ALIKE)
    if variation.by_need:
        at_games = np.array(AT_GAMES)[starts]
        take_up = TAKE_UP[group] * np.array(STARTERS_TAKE_UP)[starts]
    if variation.own_risk:
        take_up = np.minimum(take_up * frail, 0.95)
    if variation.after_injury:
        take_up = take_up / 2
    take_up = np.minimum(take_up * variation.take_up, 0.95) if variation.take_up != 1 else take_up
    takes = rng.random(shape) < take_up
    asked = np.where(takes, rng.integers(0, LAST_ASKED, shape), SESSIONS)
    sides = rng.random(shape)
    covers = np.stack([sides < 0.7, sides >= 0.3], axis=2) & takes[:, :, None]
    scale = variation.injuries / _exposure(variation, relative)
    return _People(scale * relative * frail, at_games, covers, asked, asked + _lead(rng, shape))


def _exposure(variation: Variation, relative: np.ndarray) -> float:
    """Return the expected sum of relative risks over a season without injuries or guards."""
    games = np.where(WEEK >= FIRST_GAME_WEEK, GAME_SHARE, 0.0)
    at_games = float(np.mean(AT_GAMES))
    factor, course = (GAME_RISK, COURSE) if variation.traps else (1.0, np.ones(SESSIONS))
    sessions = course * (games * factor * at_games + (1 - games) * AT_PRACTICE)
    return float(sessions.sum() * 2 * relative.sum())


def _lead(rng: np.random.Generator, shape: tuple[int, ...]) -> np.ndarray:
    """Sessions from asking to fitting."""
    return 1 + rng.geometric(1 / LEAD, shape)


def _out(rng: np.random.Generator, number: int) -> np.ndarray:
    """Sessions missed after an injury; some miss all that are left."""
    out = rng.geometric(1 / OUT_SESSIONS, number)
    return np.where(rng.random(number) < SEASON_ENDING, SESSIONS, out)


def _bring_on(
    people: _People, rng: np.random.Generator, hurt: tuple[np.ndarray, ...], session: int
) -> None:
    """Let some of the injured without a guard ask for one there, from the next session."""
    c, a, site = hurt
    asks = (people.asked[c, a] > session) & (rng.random(len(c)) < BROUGHT_ON)
    c, a, site = c[asks], a[asks], site[asks]
    people.covers[c, a, site] = True
    people.asked[c, a] = session + 1
    people.fitted[c, a] = session + 1 + _lead(rng, (len(c),))
