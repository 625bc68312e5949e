"""Games before an injury in seasons with a known truth, and its words beside those of Compare.

python -m tests.truthfulness.games [--seasons 2000] [--seed 20261]

A season of several kinds has several body areas, each with its own risk and take-up; their athletes
are drawn apart. Everything is by the product's own statistics, verdict and sentence.
"""

import argparse
import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain
from types import SimpleNamespace
from typing import Any, NamedTuple

import numpy as np

from seasonboard.answers.compare.verdict import Judged, excludes_one, verdict
from seasonboard.answers.games.parts import MIN_AT_RISK, GamesOptions
from seasonboard.answers.games.words import games_sentence
from seasonboard.stats.direct_standardisation import Standardised, standardised
from seasonboard.stats.log_rank import TwoGroupTick
from seasonboard.stats.survival import RestrictedMean
from tests.contradiction import opposed
from tests.truthfulness import intervals
from tests.truthfulness.counting import Counts, Pairs, count, session_strata, side_pairs
from tests.truthfulness.scenarios import VARIATIONS, Scenario, Variation
from tests.truthfulness.seasons import (
    BLOCK,
    BLOCKS,
    CELL_OF,
    COURSE,
    GAME_RISK,
    GROUP_OF_CELL,
    SESSIONS,
    SPORT_OF_CELL,
    TEAM_OF,
    Seasons,
    simulate,
)
from tests.truthfulness.study import workers_pool
from tests.truthfulness.tables import log_ratio, markdown, percent

SEASONS, SEED, CHUNK = 2000, 20261, 25
TICKS = 48
_KIND = (SPORT_OF_CELL * 4 + GROUP_OF_CELL)[CELL_OF]
STRATA = 8 * BLOCKS


@dataclass(frozen=True, slots=True)
class GamesScenario:
    """Body areas, each with what its seasons are like, and the ratio planted in all."""

    name: str
    areas: tuple[Variation, ...]
    ratio: float
    teams: int = 10


_OWN = {one.name: one for one in VARIATIONS}
SEVERAL = (
    Variation("much hurt, mostly guarded", "", injuries=90, take_up=1.3),
    Variation("in between", "", injuries=12, take_up=0.3),
    Variation("little hurt, rarely guarded", "", injuries=3, take_up=0.1),
)
SCENARIOS = (
    *(
        GamesScenario(name, (_OWN[name],), ratio)
        for name in ("plain", "many injuries", "few injuries", "frailty 1.5", "no indication")
        for ratio in (1.0, 0.6, 0.3)
    ),
    *(GamesScenario("several kinds of unequal risk", SEVERAL, r) for r in (1.0, 0.6, 0.3)),
    *(GamesScenario("two teams, several kinds", SEVERAL, r, 2) for r in (1.0, 0.6)),
    *(GamesScenario("one team, many injuries", (_OWN["many injuries"],), r, 1) for r in (1.0, 0.6)),
)


@dataclass(frozen=True, slots=True)
class Ticks:
    """At risk, injured, and the sum of true bare rates, [group, stratum, tick], of one season."""

    at_risk: np.ndarray
    injuries: np.ndarray
    risk: np.ndarray
    horizon: int

    def side_by_side(self) -> list[TwoGroupTick]:
        """Return both groups of each stratum and tick, as `games/strata` gives them."""
        (n0, n1), (d0, d1) = self.at_risk, self.injuries
        both = np.argwhere((n0 > 0) & (n1 > 0))
        return [
            TwoGroupTick(int(s), int(k), *map(int, (n1[s, k], d1[s, k], n0[s, k], d0[s, k])))
            for s, k in both
        ]

    def as_played(self) -> list[TwoGroupTick]:
        """Return both groups of each tick, whoever is in them."""
        (n0, n1), (d0, d1) = self.at_risk.sum(axis=1), self.injuries.sum(axis=1)
        rows = np.stack([n1, d1, n0, d0], axis=1).tolist()
        return [TwoGroupTick("all", k, *row) for k, row in enumerate(rows) if k]

    def truth(self, ratio: float, found: Standardised) -> float:
        """Return the difference that these risk sets would have, were nothing left to chance."""
        n0, n1 = self.at_risk
        whole = np.maximum(n0 + n1, 1)
        weight = n0 * n1 / whole
        bare = (weight * self.risk.sum(axis=0) / whole).sum(axis=0) / weight.sum(axis=0).clip(1e-9)
        span = slice(found.start, found.horizon)
        guarded, plain = (np.cumprod(1 - r * bare[span]).sum() for r in (ratio, 1.0))
        return float(guarded - plain)


@dataclass(frozen=True, slots=True)
class Fared:
    """One season: what Games found, what is true, how it is said, and what speaks against it."""

    value: float
    low: float
    high: float
    truth: float
    is_said: bool
    opposed: str
    as_played: tuple[float, float]


def ticks_of(seasons: Seasons) -> list[Ticks]:
    """Follow every site over its athlete's own games, to its first injury."""
    played = seasons.part & seasons.game[:, TEAM_OF, :].transpose(2, 0, 1)
    tick = np.cumsum(played, axis=0)
    shape = (seasons.count, 2, STRATA, TICKS)
    at_risk, injuries, risk = (np.zeros(shape) for _ in range(3))
    of_session = COURSE * GAME_RISK if seasons.scenario.variation.traps else np.ones(SESSIONS)
    for site in (0, 1):
        fresh = np.arange(SESSIONS)[:, None, None] <= seasons.first_injury[:, :, site]
        s, c, a = np.nonzero(played & fresh)
        guarded = (seasons.worn[s, c, a] & seasons.covers[c, a, site]).astype(int)
        at = c, guarded, _KIND[a] * BLOCKS + BLOCK[s], tick[s, c, a]
        np.add.at(at_risk, at, 1)
        np.add.at(risk, at, seasons.risk[c, a] * of_session[s])
    hurt = seasons.injuries
    own = hurt.first & played[hurt.session, hurt.season, hurt.athlete]
    s, c, a = hurt.session[own], hurt.season[own], hurt.athlete[own]
    at = c, hurt.guarded[own].astype(int), _KIND[a] * BLOCKS + BLOCK[s], tick[s, c, a]
    np.add.at(injuries, at, 1)
    games = played.sum(axis=0)
    lasts = [np.quantile(g[g > 0], 0.8, method="inverted_cdf") for g in games]
    each = zip(at_risk, injuries, risk, lasts, strict=True)
    return [Ticks(n, d, r, int(last)) for n, d, r, last in each]


class Area(NamedTuple):
    """Seasons of one body area with their counts, of some teams alone."""

    seasons: Seasons
    counts: Counts
    pairs: Pairs
    ticks: list[Ticks]


def area_of(variation: Variation, scenario: GamesScenario, seed: list[int], number: int) -> Area:
    """Simulate one body area; in other teams nobody took part or was hurt."""
    rng = np.random.default_rng(seed)
    seasons = simulate(Scenario(variation, scenario.ratio, 0), rng, number)
    others, hurt = scenario.teams <= TEAM_OF, seasons.injuries
    seasons.part[:, :, others], seasons.worn[:, :, others] = False, False
    own = ~others[hurt.athlete]
    for name in ("season", "athlete", "site", "session", "guarded", "first"):
        setattr(hurt, name, getattr(hurt, name)[own])
    return Area(seasons, count(seasons), side_pairs(seasons), ticks_of(seasons))


def judged(areas: Sequence[Area], c: int) -> Judged:
    """Return the verdict of Compare on one season, body areas being strata of their own."""
    rows = np.vstack([session_strata(area.counts, c)[2] for area in areas])
    headline = intervals.estimate(rows)
    if not excludes_one(headline):
        return Judged(verdict(headline, {}), headline)
    weights = (intervals.expected_weights(area.counts, c) for area in areas)
    own = (intervals.same_athlete(a.seasons, c, w)[0] for a, w in zip(areas, weights, strict=True))
    others = {
        "alike athletes": [area.counts.alike[c] for area in areas],
        "same athlete": list(own),
        "other side": [intervals.other_side(area.pairs, c)[1] for area in areas],
    }
    ratios = {name: intervals.estimate(np.vstack(rows)) for name, rows in others.items()}
    return Judged(verdict(headline, ratios), headline)


def fared(areas: Sequence[Area], c: int, ratio: float) -> Fared:
    """Return how one season fares."""
    each = [area.ticks[c] for area in areas]
    arrays = zip(*((t.at_risk, t.injuries, t.risk) for t in each), strict=True)
    together = (np.concatenate(own, axis=1) for own in arrays)
    whole = Ticks(*together, max(t.horizon for t in each))
    asked: dict[str, Any] = {"horizon": whole.horizon, "min_at_risk": MIN_AT_RISK}
    found = standardised(whole.side_by_side(), **asked)
    played = _limits(standardised(whole.as_played(), **asked).difference)[1:]
    say, group = judged(areas, c), SimpleNamespace(ticks=1)
    sentence = games_sentence(group, group, found, say, GamesOptions(), "sites")  # type: ignore[arg-type]
    against = opposed(sentence, say.verdict, say.ratio.value)
    truth = math.nan if found.why else whole.truth(ratio, found)
    is_said = "see Compare" not in sentence
    return Fared(*_limits(found.difference), truth, is_said, against, played)


def _limits(gap: RestrictedMean) -> tuple[float, float, float]:
    value, low, high = (math.nan if x is None else x for x in (gap.value, gap.low, gap.high))
    return value, low, high


def _chunk(task: tuple[GamesScenario, tuple[int, ...], int]) -> list[Fared]:
    scenario, seed, number = task
    areas = [area_of(one, scenario, [*seed, i], number) for i, one in enumerate(scenario.areas)]
    return [fared(areas, c, scenario.ratio) for c in range(number)]


def run_games(
    scenarios: Sequence[GamesScenario], *, seasons: int, seed: int, workers: int = 1
) -> list[list[Fared]]:
    """Simulate seasons of each scenario; seeds do not depend on how many processes there are."""
    tasks = [
        [
            (scenario, (seed, 700, SCENARIOS.index(scenario), at), min(CHUNK, seasons - at))
            for at in range(0, seasons, CHUNK)
        ]
        for scenario in scenarios
    ]
    if workers == 1:
        return [list(chain.from_iterable(map(_chunk, own))) for own in tasks]
    with workers_pool(workers) as pool:
        waiting = [pool.map(_chunk, own) for own in tasks]
        return [list(chain.from_iterable(own)) for own in waiting]


HEAD = (
    *("season", "curves %", "coverage %", "true mean", "found mean", "“longer” %", "“shorter” %"),
    *("in the sentence %", "against Compare %", "as played “longer” %", "as played “shorter” %"),
)
_SAYS = """\
Difference of the mean games before an injury, guarded − bare, within body area, sport, position
group and two-week block, up to the 80th percentile of games per athlete; against what the same risk
sets would have without chance. *Curves*: seasons in which it can be had; coverage and means are
among those. *“Longer”*, *“shorter”*: its interval lies over, or under, 0. *In the sentence*: the
sentence holds the difference; else it says why not and points to Compare. *Against Compare*: the
sentence says something that the verdict or the ratio of Compare contradicts, read from its words.
*As played*: the difference of the two curves as they are, for contrast. *Several kinds*: three body
areas, of which the one most hurt is guarded most.
"""


def games_report(
    scenarios: Sequence[GamesScenario], results: Sequence[Sequence[Fared]], *, command: str
) -> str:
    """Return the section of the report."""
    rows = [_row(*each) for each in zip(scenarios, results, strict=True)]
    made = f"{len(results[0])} seasons each, made by `{command}`."
    return f"## Games before an injury\n\n{_SAYS}\n{made}\n\n{markdown(HEAD, rows)}"


def _row(scenario: GamesScenario, seasons: Sequence[Fared]) -> list[str]:
    had = [one for one in seasons if not math.isnan(one.value)]
    played = [one.as_played for one in seasons if not math.isnan(one.as_played[0])]

    shares = (
        [one.low > 0 for one in had],
        [one.high < 0 for one in had],
        [one.is_said for one in seasons],
        [bool(one.opposed) for one in seasons],
        [low > 0 for low, _ in played],
        [high < 0 for _, high in played],
    )
    return [
        f"{scenario.name}, ratio {scenario.ratio:g}",
        percent(len(had) / len(seasons)),
        percent(float(np.mean([one.low <= one.truth <= one.high for one in had]))),
        *(log_ratio(float(np.mean([getattr(o, n) for o in had]))) for n in ("truth", "value")),
        *(percent(float(np.mean(those))) for those in shares),
    ]


def games_section(*, seasons: int, seed: int, workers: int) -> str:
    """Simulate all scenarios and return the section."""
    results = run_games(SCENARIOS, seasons=seasons, seed=seed, workers=workers)
    command = f"python -m tests.truthfulness.games --seasons {seasons} --seed {seed}"
    return games_report(SCENARIOS, results, command=command)


def main() -> None:
    """Run the scenarios and print the section."""
    parser = argparse.ArgumentParser(prog="python -m tests.truthfulness.games")
    parser.add_argument("--seasons", type=int, default=SEASONS, help="of each scenario")
    parser.add_argument("--seed", type=int, default=SEED)
    asked = parser.parse_args()
    print(games_section(seasons=asked.seasons, seed=asked.seed, workers=2))


if __name__ == "__main__":
    main()
