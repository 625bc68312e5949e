"""How often a prospect's athletes are hurt without guards: its own past, pooled with like teams.

A team starts from what teams of its sport and sex are hurt at departments served, pooled with all
teams served; where none of that sport is served, from the published rate times the published share
of injuries at the sites; else from all teams served. Its own injuries of last season are pooled
with that by their weight. Injuries of one definition are never put together with those of another.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.pitch.parts import LEAST, Baseline, Basis
from seasonboard.answers.published import PublishedRate, rate_for, share_for
from seasonboard.prospect import ProspectTeam
from seasonboard.scope import Scope, Settings
from seasonboard.stats.partial_pooling import Pooled, both, pooled, spread_between
from seasonboard.stats.rates import PER
from seasonboard.stats.special import gamma_quantile, two_sided

GAME, PRACTICE, BOTH = "game", "practice", "both"
TEAMS_DIFFER, SPORTS_DIFFER = 0.25, 0.4
"""By how much rates of teams of a sport, and of sports, usually differ: coefficient of variation.

Assumed, without a source, before own counts tell; each is then taken from them (`spread_between`).
"""
BESIDES_USUAL, IN_SESSIONS_USUAL = 1.1, 0.95
"""Injuries in all for one that is counted, and their share in sessions, where neither is told.

Assumed, without a source.
"""
_SURE = 1e6
"""As many injuries as a rate that is taken as it is printed is as sure as."""
_TAIL = 0.025


@dataclass(frozen=True, slots=True)
class Group:
    """A sport and sex that is served: bare injuries, and those expected at the rates of all."""

    injuries: float
    expected: float


@dataclass(frozen=True, slots=True)
class ServedRates:
    """How often bare sites are hurt at departments served.

    `rates` are injuries per athlete-exposure by setting, over all sites and all teams of so many
    `departments`, empty where too few are known. They hold `besides` injuries for one that is
    counted. `sports_differ` and `teams_differ` are coefficients of variation.
    """

    rates: Mapping[str, float]
    groups: Mapping[tuple[str, str], Group]
    injuries: float
    besides: float = 1.0
    departments: int = 1
    sports_differ: float = SPORTS_DIFFER
    teams_differ: float = TEAMS_DIFFER


def served_rates(rows: pl.DataFrame, areas: Sequence[str], besides: float) -> ServedRates:
    """Return the rates that `pitch/baseline` tells, each area counted with all its sites.

    Groups are compared with all teams by indirect standardisation, by setting and area, so that
    an area that is mostly guarded does not weigh less.
    """
    cells = rows.with_columns(pl.col("sport").str.to_lowercase())
    whole = cells.group_by("setting", "area").agg(
        pl.first("sites"), (pl.sum("injuries") / pl.sum("exposures")).alias("rate")
    )
    total = float(cells["injuries"].sum())
    if total < LEAST or not set(areas) <= set(whole["area"]):
        return ServedRates({}, {}, total, besides)
    expected = (pl.col("rate") * pl.col("exposures")).alias("expected")
    teams = (
        cells.join(whole.drop("sites"), on=["setting", "area"])
        .group_by("department", "sport", "sex")
        .agg(pl.sum("injuries").cast(pl.Float64), expected.sum())
        .sort("department", "sport", "sex")
    )
    sums = teams.group_by("sport", "sex").agg(pl.sum("injuries", "expected")).sort("sport", "sex")
    groups = {(sport, sex): Group(*counts) for sport, sex, *counts in sums.iter_rows()}
    sports_differ = spread_between(sums["injuries"], sums["expected"], SPORTS_DIFFER)
    # Each team is held against the others of its sport, lest it make its own expectation.
    alike = [
        pooled(of.injuries - injuries, max(of.expected - mean, 0.0), 1 / sports_differ**2)
        for sport, sex, injuries, mean in teams.drop("department").iter_rows()
        for of in [groups[sport, sex]]
    ]
    by_setting = whole.group_by("setting").agg(
        (pl.col("sites") * pl.col("rate")).sum().alias("rate"), pl.len().alias("areas")
    )
    rates = {
        setting: rate * besides for setting, rate, n in by_setting.iter_rows() if n >= len(areas)
    }
    expected_of = teams["expected"] * pl.Series([one.mean for one in alike])
    unsure = [1 / one.shape for one in alike]
    differ = spread_between(teams["injuries"], expected_of, TEAMS_DIFFER, unsure)
    departments = teams["department"].n_unique()
    return ServedRates(rates, groups, total, besides, departments, sports_differ, differ)


def _counts(group: Group) -> tuple[float, float]:
    return group.injuries, group.expected


def asked_settings(team: ProspectTeam, scope: Scope) -> tuple[tuple[str, int], ...]:
    """Return the settings of a team that count in the scope, with its sessions of each."""
    counts = {GAME: team.games, PRACTICE: team.practices}
    left_out = {Settings.GAMES: PRACTICE, Settings.PRACTICES: GAME}.get(scope.setting)
    return tuple((name, n) for name, n in counts.items() if name != left_out and n > 0)


@dataclass(frozen=True, slots=True)
class _Start:
    """What a team's injuries are pooled with: rates by setting, and how sure they are."""

    basis: Basis
    rates: Mapping[str, float]
    like: Pooled
    source: str


def baseline(
    team: ProspectTeam,
    served: ServedRates,
    areas: tuple[str, ...],
    scope: Scope,
    exposures: Mapping[str, float],
) -> tuple[Mapping[str, float], Baseline]:
    """Return injuries to expect without guards by setting, and what they rest on.

    `exposures` are athlete-exposures of the season by setting.
    """
    start = _start(team, served, areas, scope, tuple(exposures))
    own = team.injuries if scope.setting is Settings.BOTH else None
    if start is None:
        return _own_alone(team, own, exposures, _why(team, areas, scope, tuple(exposures)))
    like = {name: n * start.rates[name] * start.like.mean for name, n in exposures.items()}
    expected = sum(like.values())
    # Teams of a department are alike in half of what tells teams apart; so are those served.
    of_department = served.teams_differ**2 / 2
    common = of_department / served.departments + 1 / max(served.injuries, LEAST)
    shape = both(both(start.like.shape, 1 / served.teams_differ**2), 1 / common)
    of_own = pooled(own or 0, expected if own is not None else 0.0, shape)
    mean = expected * of_own.mean
    low, high = _limits(mean, of_own.shape)
    shared = (of_department + common) * shape
    found = Baseline(
        *(start.basis, expected, mean, low, high, of_own.shape, own, of_own.own_weight),
        min(1.0, shared) * (1 - of_own.own_weight),
        start.source,
    )
    return {name: count * of_own.mean for name, count in like.items()}, found


def _limits(mean: float, shape: float) -> tuple[float, float]:
    low, high = (gamma_quantile(shape, tail) * mean / shape for tail in (_TAIL, 1 - _TAIL))
    return low, high


def _own_alone(
    team: ProspectTeam, own: int | None, exposures: Mapping[str, float], why: str
) -> tuple[Mapping[str, float], Baseline]:
    """Return last season's own injuries alone, where there was one; else not known."""
    if not own:
        nothing = (None,) * 5
        unknown = Baseline(Basis.NOT_KNOWN, *nothing, team.injuries, None, 0.0, "none", why)
        return {}, unknown
    total = sum(exposures.values())
    low, high = _limits(own, own)
    found = Baseline(
        *(Basis.OWN, None, float(own), low, high, float(own), own, 1.0, 0.0), "last season alone"
    )
    return {name: own * n / total for name, n in exposures.items()}, found


def _start(
    team: ProspectTeam,
    served: ServedRates,
    areas: tuple[str, ...],
    scope: Scope,
    names: Sequence[str],
) -> _Start | None:
    alike = 1 / served.sports_differ**2
    has_rates = set(names) <= set(served.rates)
    group = served.groups.get((team.sport.casefold(), team.sex))
    if has_rates and group is not None:
        like = pooled(*_counts(group), alike)
        weight = words.percent(like.own_weight)
        source = f"teams of this sport at departments served ({weight}), pooled with all teams"
        return _Start(Basis.SPORT, served.rates, like, source)
    published = _published(team, areas, scope, names)
    if published is not None:
        return published
    if not has_rates:
        return None
    source = "all teams served: none of this sport is"
    return _Start(Basis.SERVED, served.rates, Pooled(1.0, alike, 0.0), source)


def _published(
    team: ProspectTeam, areas: tuple[str, ...], scope: Scope, names: Sequence[str]
) -> _Start | None:
    share = None if scope.sides else share_for(team.sport, team.sex, areas, scope.outcome.value)
    if share is None:
        return None
    rates = {name: rate_for(team.sport, team.sex, name, scope.outcome.value) for name in names}
    if None in rates.values():
        together = rate_for(team.sport, team.sex, BOTH, scope.outcome.value)
        if together is None or scope.setting is not Settings.BOTH:
            return None
        rates = dict.fromkeys(names, together)
    known = {name: rate for name, rate in rates.items() if rate is not None}
    sources = dict.fromkeys(_source(rate, name) for name, rate in known.items())
    source = (
        f"published, {'; '.join(sources)}. Share of “{share.category}”: {share.source}; "
        f"{share.period}"
    )
    by_setting = {name: rate.rate * share.share / PER for name, rate in known.items()}
    sure = min((_shape(rate) for rate in known.values()), default=_SURE)
    return _Start(Basis.PUBLISHED, by_setting, Pooled(1.0, sure, 0.0), source)


def _shape(rate: PublishedRate) -> float:
    """Return how many injuries a published rate is as sure as."""
    if rate.injuries:
        return float(rate.injuries)
    if rate.low is None or rate.high is None or rate.high <= rate.low:
        return _SURE
    return (rate.rate * 2 * two_sided(0.95) / (rate.high - rate.low)) ** 2


def _source(rate: PublishedRate, setting: str) -> str:
    division = "all divisions" if rate.division == "all" else f"division {rate.division}"
    of = "games and practices together" if rate.setting == BOTH else f"{setting}s"
    defined = _defined(rate.definition)
    return f"{of}: {rate.source}; {rate.period}, {division}, {defined}"


def _why(team: ProspectTeam, areas: tuple[str, ...], scope: Scope, names: Sequence[str]) -> str:
    """Say what is lacking: injuries served or its own, and a published rate of this definition."""
    own, outcome = f"fewer than {LEAST} bare injuries at departments served", scope.outcome.value
    if scope.sides:
        return f"{own}; published figures tell no sides"
    rates = [rate_for(team.sport, team.sex, name, outcome) for name in (*names, BOTH)]
    if not any(rates):
        return f"{own}; no published rate ({_defined(outcome)})"
    if share_for(team.sport, team.sex, areas, outcome):
        return f"{own}; no published rate of this setting alone"
    return f"{own}; no published share of these sites ({_defined(outcome)})"


def _defined(definition: str) -> str:
    return "any injury" if definition == "any" else definition
