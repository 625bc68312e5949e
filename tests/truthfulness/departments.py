"""Are the ranges of a season ahead truthful? Departments are planned for, then played.

python -m tests.truthfulness.departments [--departments 400] [--seed 20261]

Four departments are served for a season and recorded; a fifth, drawn from the same world, is
planned for from what they tell, then played twice with the same chances: without guards and with.
"""

import argparse
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import date
from functools import cache, partial
from multiprocessing import get_context

import numpy as np
import polars as pl

from seasonboard.answers.pitch.answer import PlanBasis, planned
from seasonboard.answers.pitch.baseline import served_rates
from seasonboard.answers.pitch.inputs import (
    GUARDS_EACH,
    LATER,
    PRINT_HOURS,
    REMADE,
    SEASON,
    TAKES,
    WORN_IN,
    effect_between,
    recorded_share,
)
from seasonboard.answers.pitch.options import EffectLimits, PitchOptions
from seasonboard.answers.pitch.parts import Input
from seasonboard.answers.source import AnswerSource
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.scope import Scope
from seasonboard.stats.absence_duration import absence_law
from seasonboard.stats.ratios import Strata, mantel_haenszel
from tests.reused import ReusedStore

SERVED, ROSTER, WEEKS = 4, 25, 15
DAYS = WEEKS * 7
GAMES, PRACTICES = 22, 63
SPORTS = [(f"sport {n}", sex) for n in range(4) for sex in ("women", "men")]
BASE, GAME, REINJURY = 0.0012, 3.5, 2.0
SPORTS_DIFFER, FRAILTY, OUTSIDE = 0.4, 0.5, 0.06
TAKE_UP, WORN, HABITS_DIFFER = 0.65, 0.75, 0.35
"""Share who take a guard and of sessions in which it is worn; departments differ in log-odds."""
MAKING = (168.0, 240.0, 336.0)
"""Hours from requested to fitted beside printing, each as often."""


@dataclass(frozen=True)
class World:
    """How much departments, and teams of one, differ in risk; what a guard does."""

    name: str
    departments_differ: float
    teams_differ: float
    ratio: float


WORLDS = (
    World("alike departments", 0.1, 0.15, 0.6),
    World("departments that differ", 0.2, 0.25, 0.6),
    World("departments that differ much", 0.3, 0.35, 0.6),
)
FIGURES = ("injuries", "games missed", "games kept")
WORLD_NAMES = ("bare", "guarded")
DEPARTMENTS = 150


def gamma(rng, differ, size=None):
    return rng.gamma(1 / differ**2, differ**2, size)


def department(world, rng, sports):
    """Return a department: its teams with their risks, and its habits."""
    teams = rng.permutation(len(SPORTS))[: rng.integers(5, 8)]
    own = gamma(rng, world.departments_differ) * gamma(rng, world.teams_differ, len(teams))
    odds = [np.log(p / (1 - p)) + HABITS_DIFFER * rng.standard_normal() for p in (TAKE_UP, WORN)]
    take_up, worn = 1 / (1 + np.exp(-np.array(odds)))
    return teams, BASE * sports[teams] * own, take_up, worn, gamma(rng, 0.15)


@dataclass
class Played:
    """A season without and with guards, and what was recorded of the one with them.

    `injuries` are (athlete, day, day back) by world, `inside` those in sessions. `cells` are a, b,
    t1, t0 by session and 2 × team + game; `whole` bare injuries and exposures, after injuries too;
    `here` who took part by the same, `had` and `wore` sessions with a guard fitted, and worn.
    """

    injuries: dict
    inside: int
    cells: np.ndarray
    whole: np.ndarray
    here: np.ndarray
    took: int
    had: int
    wore: int
    games: list
    team: np.ndarray

    @property
    def size(self):
        return len(self.team)

    def missed(self, name):
        return sum(
            int(((self.games[self.team[a]] > at) & (self.games[self.team[a]] < back)).sum())
            for a, at, back in self.injuries[name]
        )


def played(world, drawn, rng):
    """Play one season twice with the same chances, without guards and with them."""
    teams, risk, take_up, worn_share, longer = drawn
    team = np.repeat(np.arange(len(teams)), ROSTER)
    athletes, size = len(team), 2 * len(teams)
    frail = rng.gamma(1 / FRAILTY, FRAILTY, athletes)
    takes = rng.random(athletes) < take_up
    fitted = rng.random(athletes) * 14 + rng.choice(MAKING, athletes) / 24 + 0.25
    day = np.sort(rng.random((len(teams), GAMES + PRACTICES)) * DAYS, axis=1)
    is_game = np.argsort(rng.random(day.shape), axis=1) < GAMES
    back = {name: np.zeros(athletes) for name in WORLD_NAMES}
    hurt = {name: np.zeros((athletes, 2), dtype=bool) for name in WORLD_NAMES}
    injuries = {name: [] for name in WORLD_NAMES}
    cells, places, had, wore, whole = [], np.zeros(size), 0, 0, np.zeros((2, size))
    for number in range(day.shape[1]):
        at, game = day[team, number], is_game[team, number]
        has = takes & (fitted <= at)
        worn = has & (rng.random(athletes) < worn_share)
        rate = risk[team] * frail * np.where(game, GAME, 1.0) * (1 + np.exp(-at / 35))
        place, out = rng.random((athletes, 2)), days_out(rng, (athletes, 2)) * longer
        for name in WORLD_NAMES:
            guards, here = worn & (name == "guarded"), back[name] <= at
            chance = rate[:, None] * np.where(hurt[name], REINJURY, 1.0) * here[:, None]
            hit = place < chance * np.where(guards, world.ratio, 1.0)[:, None]
            first = ~hurt[name] & here[:, None]
            counts = (hit & first).sum(axis=1), first.sum(axis=1)
            every = hit.sum(axis=1), 2 * here
            until = at + np.where(hit, out, 0.0).max(axis=1)
            injuries[name] += [(a, at[a], at[a] + out[a, i]) for a, i in np.argwhere(hit)]
            back[name] = np.where(hit.any(axis=1), np.maximum(back[name], until), back[name])
            hurt[name] |= hit
        key = 2 * team + game
        cells.append([np.bincount(key, counts[n] * mask, size)
                      for n in (0, 1) for mask in (guards, ~guards)])  # fmt: skip
        whole += [np.bincount(key, one * ~guards, size) for one in every]
        places += np.bincount(key, here, size)
        had, wore = had + int((has & here).sum()), wore + int((guards & here).sum())
    inside = len(injuries["guarded"])
    outside = rng.poisson(OUTSIDE * risk[team] * frail * 2 * 1.3 * (GAME * GAMES + PRACTICES))
    for a in np.repeat(np.arange(athletes), outside):
        at = rng.random() * DAYS
        more = (a, at, at + days_out(rng, 1)[0] * longer)
        for name in WORLD_NAMES:
            injuries[name].append(more)
    games = [day[n][is_game[n]] for n in range(len(teams))]
    took = int(takes.sum())
    return Played(injuries, inside, np.array(cells), whole, places, took, had, wore, games, team)


def days_out(rng, size):
    """Return days lost: mostly short, some long."""
    return rng.geometric(1 / 9, size) * np.where(rng.random(size) < 0.08, 4, 1)


def recorded(world, sports, rng):
    """Return what the departments served tell, as a plan's basis."""
    rates, parts, seasons = [], [], []
    for number in range(SERVED):
        drawn = department(world, rng, sports)
        season = played(world, drawn, rng)
        seasons.append(season)
        for place, kind in enumerate(drawn[0]):
            for game, setting, sessions in ((0, "practice", PRACTICES), (1, "game", GAMES)):
                at = 2 * place + game
                counts = (int(count) for count in season.whole[:, at])
                rates.append((f"D{number}", *SPORTS[kind], setting, "lower leg", 2, *counts))
                told = int(season.here[at])
                parts.append((SPORTS[kind][0], setting, ROSTER * sessions, told))
    columns = ("department", "sport", "sex", "setting", "area", "sites", "injuries", "exposures")
    frame = pl.DataFrame(rates, schema=columns, orient="row")
    heads = ("sport", "setting", "places", "took_part")
    return basis(frame, pl.DataFrame(parts, schema=heads, orient="row"), seasons)


def basis(frame, parts, seasons):
    """Return what a plan rests on, as the program makes it from records."""
    cells = [season.cells.transpose(1, 0, 2).reshape(4, -1) for season in seasons]
    cells = np.concatenate(cells, axis=1)
    ratio = mantel_haenszel(Strata(*cells))
    limits = (ratio.value, ratio.low, ratio.high, ratio.std_error)
    days = [int(back - at) for season in seasons for _, at, back in season.injuries["guarded"]]
    lasted, number = np.unique(days, return_counts=True)
    law = absence_law([(int(d), int(n), 0) for d, n in zip(lasted, number, strict=True)])
    took, had, wore, athletes = (
        sum(getattr(season, name) for season in seasons) for name in ("took", "had", "wore", "size")
    )
    inputs = (
        recorded_share(TAKES, took, athletes, "of athletes", "recorded"),
        recorded_share(WORN_IN, wore, had, "of sessions", "recorded"),
        Input(GUARDS_EACH, 1.0, 1.0, 1.0, "guards", "recorded"),
        Input(REMADE, 0.0, None, None, "of guards", "recorded"),
        Input(LATER, 0.0, None, None, "prints", "recorded"),
        Input(PRINT_HOURS, 6.0, None, None, "hours", "recorded"),
        Input(SEASON, float(WEEKS), None, None, "weeks", "recorded"),
    )
    counted = [int(n) for n in cells[:2].sum(axis=1)]
    effect = effect_between(EffectLimits.ORDINARY, counted, limits)
    making = pl.DataFrame({"plan": "weekly allotment", "hours": MAKING, "orders": [1, 1, 1]})
    share = sum(season.inside for season in seasons) / len(days)
    rates = served_rates(frame, ("lower leg",), 1 / share)
    effects = dict.fromkeys(EffectLimits, effect)
    return PlanBasis(Prospect(()), rates, share, parts, making, law, inputs, effects, {}, ())


def one(world, seed, number, *, is_known):
    """Return of one department what came, and its ranges: (came, mean, low 80, high 80, …)."""
    rng = np.random.default_rng([seed, number])
    sports = rng.gamma(1 / SPORTS_DIFFER**2, SPORTS_DIFFER**2, len(SPORTS))
    told, drawn = recorded(world, sports, rng), department(world, rng, sports)
    last, came = played(world, drawn, rng), played(world, drawn, rng)
    own = np.bincount([last.team[a] for a, *_ in last.injuries["bare"]], minlength=len(drawn[0]))
    teams = tuple(
        ProspectTeam(*SPORTS[kind], ROSTER, (), GAMES, PRACTICES, int(n) if is_known else None)
        for kind, n in zip(drawn[0], own, strict=True)
    )
    options = PitchOptions(Prospect(teams), seasons=2000, seed=number, prints_per_week=5000)
    plan = planned(told, Scope(date(2026, 12, 1), kinds=("shin",)), known(), options)
    bare, guarded = (came.missed(name) for name in WORLD_NAMES)
    ahead = plan.plans[1].ahead
    spreads = (ahead.injuries, ahead.games_missed, ahead.games_kept)
    real = (len(came.injuries["bare"]), bare, bare - guarded)
    return [
        (value, of.mean, of.low_80, of.high_80, of.low_95, of.high_95)
        for value, of in zip(real, spreads, strict=True)
    ]


@cache
def known():
    """Return what a store without a record knows: kinds of guards and what they cover."""
    with ReusedStore() as store:
        return AnswerSource(store, "nothing").scope_values


def departments_section(*, departments, seed, workers=1):
    """Return the table of the ranges, as Markdown."""
    lines = [
        "## The season ahead of a department", "",
        f"{departments} departments of each kind, seed {seed}; made by",
        f"`python -m tests.truthfulness.departments --departments {departments} --seed {seed}`.",
        "Four departments are served and recorded; a fifth is planned for, then played without",
        "guards and with them: repeats, injuries outside sessions, frailty, take-up and wear that",
        "differ. *Inside*: % of departments of which what came lies in the range; *below*,",
        "*above*: of which it lies on that side of the 80 % range. *Came / expected*: means.", "",
        "| departments | figure | 80 % inside | below | above | 95 % inside | came / expected |",
        "| --- | --- | --- | --- | --- | --- | --- |",
    ]  # fmt: skip
    with ProcessPoolExecutor(workers, get_context("spawn")) as pool:
        for world in WORLDS:
            for is_known in (False, True):
                tell = partial(one, world, seed, is_known=is_known)
                rows = np.array(list(pool.map(tell, range(departments), chunksize=10)))
                name = f"{world.name}{', last season known' if is_known else ''}"
                lines += [_line(name, figure, rows[:, n]) for n, figure in enumerate(FIGURES)]
    return "\n".join([*lines, ""])


def _line(name, figure, rows):
    came, mean, low_80, high_80, low_95, high_95 = rows.T
    below, above = came < np.round(low_80), came > np.round(high_80)
    inside = (came >= np.round(low_95)) & (came <= np.round(high_95))
    cells = (1 - below.mean() - above.mean(), below.mean(), above.mean(), inside.mean())
    shares = " | ".join(f"{100 * cell:.0f}" for cell in cells)
    return f"| {name} | {figure} | {shares} | {came.mean() / max(mean.mean(), 1e-9):.2f} |"


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.truthfulness.departments")
    parser.add_argument("--departments", type=int, default=DEPARTMENTS)
    parser.add_argument("--seed", type=int, default=20261)
    asked = parser.parse_args()
    print(departments_section(departments=asked.departments, seed=asked.seed, workers=2))
