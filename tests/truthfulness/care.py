"""Seasons with careful athletes, lost wear or lost attendance, and what the board says of them.

What is claimed is said by the product's own rule. Own risk is a gamma of mean 1, at the studied
sites and far from them alike, correlated by rho between the two.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np
import polars as pl

from seasonboard.answers.claims.rules import ClaimWord, Evidence, claim_of
from seasonboard.answers.compare.control_sites import ControlSites
from seasonboard.answers.compare.recording_checks import recording, wear_check
from seasonboard.answers.compare.verdict import verdict
from seasonboard.scope import Scope
from seasonboard.stats.anytime_valid import RiskSet, anytime_valid
from seasonboard.stats.negative_control import ControlInjuries, control_ratio, corrected_ratio
from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel
from seasonboard.stats.special import two_sided
from tests.truthfulness.intervals import sums
from tests.truthfulness.seasons import (
    ATHLETES,
    CELL_OF,
    CELL_SIZES,
    CELL_STARTS,
    CELLS,
    COURSE,
    GAME_RISK,
    GROUP_OF_CELL,
    GROUP_RISK,
    SESSIONS,
    TEAM_OF,
    TEAMS,
)

INJURIES, FAR, FAR_SITES = 105.0, 2.0, 4
"""Injuries at studied sites in a season without guards; times as many far from them."""
POOLED = 3
"""Seasons looked at together: one alone rarely has 11 guarded injuries."""
GAME_SHARE, TOOK_PART, LAST_FITTED = 0.22, 0.88, 45
NOT_RECORDED, NOT_KNOWN = 0.03, 0.05
"""Shares of attendance and of owners' wear that are missing of everybody alike."""
SCOPE = Scope(date(2026, 11, 14))


@dataclass(frozen=True, slots=True)
class CareScenario:
    """What differs; `care` is the variance of own risk, below 0 where the frail take guards."""

    name: str
    care: float = 0.0
    rho: float = 1.0
    lost_wear: float = 0.0
    lost_attendance: float = 0.0

    @property
    def is_complete(self) -> bool:
        """Say whether nothing is lost on one side only."""
        return not self.lost_wear and not self.lost_attendance

    @property
    def is_excepted(self) -> bool:
        """Say whether the sentence of the claim excepts it: care that other sites hardly show."""
        return bool(self.care) and self.rho < 1


SCENARIOS = (
    CareScenario("nothing amiss"),
    *(
        CareScenario(f"{who} {abs(care):g}, ρ {rho:g}", care, rho)
        for who, sign in (("careful", 1), ("the frail take guards,", -1))
        for care in (0.5 * sign, 1.5 * sign)
        for rho in (1.0, 0.5, 0.0)
    ),
    *(CareScenario(f"wear lost {x:.0%}", lost_wear=x) for x in (0.1, 0.3, 0.5)),
    *(CareScenario(f"attendance lost {x:.0%}", lost_attendance=x) for x in (0.1, 0.3, 0.5)),
)


@dataclass(frozen=True, slots=True)
class _World:
    """One season: [a] or [s, a]; `hurt` and `far` are first injuries, [s, a, site]."""

    game: np.ndarray
    is_owner: np.ndarray
    part: np.ndarray
    worn: np.ndarray
    hurt: np.ndarray
    fresh: np.ndarray
    far: np.ndarray


def _own_risks(scenario: CareScenario, rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Return own risk at the studied sites and far from them: gammas that share a part."""
    variance = abs(scenario.care)
    if not variance:
        return np.ones(ATHLETES), np.ones(ATHLETES)
    shared = rng.gamma(scenario.rho / variance, variance, ATHLETES) if scenario.rho else 0.0
    rest = (1 - scenario.rho) / variance
    apart = rng.gamma(rest, variance, (2, ATHLETES)) if rest else np.zeros((2, ATHLETES))
    return shared + apart[0], shared + apart[1]


def _world(scenario: CareScenario, ratio: float, rng: np.random.Generator) -> _World:
    near, far = _own_risks(scenario, rng)
    rank = (near if scenario.care else rng.random(ATHLETES)).argsort().argsort() / ATHLETES
    careful = rank if scenario.care < 0 else 1 - rank
    takes = rng.random(ATHLETES) < 0.2 + 0.6 * careful
    fitted = np.where(takes, rng.integers(0, LAST_FITTED, ATHLETES), SESSIONS)
    shape = (SESSIONS, ATHLETES)
    is_owner = np.arange(SESSIONS)[:, None] >= fitted
    game = rng.random((SESSIONS, TEAMS)) < GAME_SHARE
    part = rng.random(shape) < TOOK_PART
    worn = part & is_owner & (rng.random(shape) < 0.4 + 0.55 * careful)
    group = GROUP_RISK[GROUP_OF_CELL[CELL_OF]]
    rate = COURSE[:, None] * np.where(game[:, TEAM_OF], GAME_RISK, 1.0) * group * part
    mean_game = GAME_SHARE * GAME_RISK + 1 - GAME_SHARE
    scale = INJURIES / (COURSE.sum() * mean_game * TOOK_PART * group.sum() * 2)
    chance = scale * rate * near * np.where(worn, ratio, 1.0)
    hurt = _first(rng.random((*shape, 2)) < chance[:, :, None])
    fresh = hurt.cumsum(axis=0) - hurt == 0
    elsewhere = (scale * FAR * 2 / FAR_SITES) * rate * far
    far_hurt = _first(rng.random((*shape, FAR_SITES)) < elsewhere[:, :, None])
    return _World(game, is_owner, part, worn, hurt, fresh, far_hurt)


def _first(hurt: np.ndarray) -> np.ndarray:
    return hurt & (hurt.cumsum(axis=0) == 1)


@dataclass(frozen=True, slots=True)
class CareLook:
    """What the board says of some seasons; `once`: were limits for a single look enough."""

    above: float
    under: float
    word: ClaimWord
    once: ClaimWord
    wear_rings: bool
    attendance_rings: bool
    controls_ring: bool
    informing: int


def care_season(scenario: CareScenario, ratio: float, seed: Sequence[int]) -> CareLook:
    """Return what the product's statistics and its rule of claims say of seasons put together."""
    rng = np.random.default_rng(seed)
    made = [_records(scenario, _world(scenario, ratio, rng), rng, n) for n in range(POOLED)]
    rows = np.vstack([one.rows for one in made])
    columns = np.concatenate([one.controls for one in made], axis=1)
    headline = quick(rows)
    far = control_ratio(ControlInjuries(np.arange(columns.shape[1]).tolist(), *columns.tolist()))
    controls = ControlSites(far, far, corrected_ratio(headline, far), pl.DataFrame())
    attendance, wear = (pl.concat([getattr(x, n) for x in made]) for n in ("attendance", "wear"))
    records = recording(attendance, wear_check(wear), headline)
    now = anytime_valid([RiskSet(t1, t0, a, b) for a, b, t1, t0 in rows.tolist()])
    judged = verdict(headline, {})
    evidence = Evidence(SCOPE, judged, headline, headline, now, controls, records)
    above, under, _ = sums(rows)
    return CareLook(
        above,
        under,
        claim_of(evidence).word,
        claim_of(replace(evidence, now=replace(now, high=headline.high))).word,
        records.wear.rings,
        records.attendance.rings,
        far.value is not None and not far.is_quiet,
        headline.informative_injuries,
    )


@dataclass(frozen=True, slots=True)
class _Records:
    """What one season leaves on record: strata, columns of control sites, rows of both checks."""

    rows: np.ndarray
    controls: np.ndarray
    attendance: pl.DataFrame
    wear: pl.DataFrame


def _records(
    scenario: CareScenario, world: _World, rng: np.random.Generator, number: int
) -> _Records:
    injured = world.hurt.any(axis=2)
    loss = np.where(world.is_owner | injured, 0.0, scenario.lost_attendance)
    recorded = rng.random(loss.shape) < (1 - NOT_RECORDED) * (1 - loss)
    loss = np.where(world.worn & injured, scenario.lost_wear, 0.0)
    known = ~world.is_owner | (rng.random(loss.shape) < (1 - NOT_KNOWN) * (1 - loss))
    seen = (world.part & recorded & known)[:, :, None] & world.fresh
    guarded = world.worn[:, :, None]
    sides = [(seen & group).sum(axis=2) for group in (guarded, ~guarded)]
    cells = [_by_cell((seen & group & world.hurt).sum(axis=2)) for group in (guarded, ~guarded)]
    table = np.stack([*cells, *map(_by_cell, sides)], axis=2)
    there = table[:, :, 0] + table[:, :, 1] > 0
    far = _controls(world.far & (world.part & recorded)[:, :, None], sides, table)
    return _Records(table[there], far, _attendance(world, recorded, number), _wear(world, known))


_TEMPLATE = mantel_haenszel(Strata([1, 1], [1, 1], [5, 5], [5, 5]))


def quick(rows: np.ndarray) -> RateRatio:
    """Return the product's ratio of [n, 4] strata without exact limits and tests: much faster.

    Where there is no log, the product's own function speaks.
    """
    above, under, spread = sums(rows)
    telling = rows[(rows[:, 0] + rows[:, 1] > 0) & (rows[:, 2] > 0) & (rows[:, 3] > 0)]
    if above == 0 or under == 0 or len(telling) < 2:
        return mantel_haenszel(Strata(*(column.tolist() for column in rows.T)))
    value, std_error = above / under, (spread / (above * under)) ** 0.5
    reach = np.exp(two_sided(0.95) * std_error)
    a, b, t1, t0 = rows.sum(axis=0).tolist()
    return replace(
        _TEMPLATE,
        value=value,
        low=value / reach,
        high=value * reach,
        std_error=std_error,
        injuries_guarded=a,
        injuries_unguarded=b,
        exposures_guarded=t1,
        exposures_unguarded=t0,
        informative_injuries=int(telling[:, :2].sum()),
    )


def _by_cell(counts: np.ndarray) -> np.ndarray:
    """Sum [s, a] over the athletes of each cell, to [s, cell]."""
    return np.add.reduceat(counts, CELL_STARTS, axis=1)


def _controls(far: np.ndarray, sides: list[np.ndarray], table: np.ndarray) -> np.ndarray:
    s, a, _ = np.nonzero(far)
    t1, t0 = (table[s, CELL_OF[a], i] for i in (2, 3))
    return np.stack([sides[0][s, a], sides[1][s, a], t1, t0])


def _attendance(world: _World, recorded: np.ndarray, number: int) -> pl.DataFrame:
    """Return the rows of the question on recorded attendance at practices."""
    owners = _by_cell(world.is_owner.astype(int))
    both = (owners > 0) & (owners < np.tile(CELL_SIZES, (SESSIONS, 1)))
    s, a = np.nonzero(both[:, CELL_OF] & ~world.game[:, TEAM_OF])
    strata = (number * SESSIONS + s) * CELLS + CELL_OF[a]
    columns = {"stratum": strata, "athlete_no": number * ATHLETES + a}
    return pl.DataFrame(columns | {"is_owner": world.is_owner[s, a], "is_recorded": recorded[s, a]})


def _wear(world: _World, known: np.ndarray) -> pl.DataFrame:
    """Return the rows of the question on wear of the injured; nothing is only assumed."""
    own = world.is_owner & world.part
    starts = np.flatnonzero(np.diff(TEAM_OF, prepend=-1))
    owners, unknown = (
        np.add.reduceat(x.astype(int), starts, axis=1)[:, TEAM_OF] for x in (own, own & ~known)
    )
    s, a = np.nonzero(own & world.hurt.any(axis=2))
    lacks = ~known[s, a]
    return pl.DataFrame(
        {
            "is_assumed": np.zeros(len(s), dtype=bool),
            "not_known": lacks,
            "fellows": owners[s, a] - 1,
            "fellows_not_known": unknown[s, a] - lacks,
        }
    )
