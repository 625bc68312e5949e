"""How often a prospect's athletes are hurt without guards: own records first, else published ones.

The order, for each team: bare sites of the same sport and sex in each setting; the same with games
and practices together; the published rate of that sport, sex and setting (or of both settings)
times the published share of injuries at the sites. An own rate needs at least 11 injuries. Injuries
of one definition are never put together with, or taken for, those of the other.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import polars as pl

from seasonboard.answers.pitch.parts import LEAST, Baseline, Basis
from seasonboard.answers.published import PublishedRate, PublishedShare, rate_for, share_for
from seasonboard.prospect import ProspectTeam
from seasonboard.scope import Scope, Settings
from seasonboard.stats.rates import PER
from seasonboard.stats.special import gamma_quantile, two_sided

GAME, PRACTICE, BOTH = "game", "practice", "both"
LEVEL = 0.95
_TAIL = (1 - LEVEL) / 2


@dataclass(frozen=True, slots=True)
class OwnRate:
    """Bare injuries and site-exposures, and the rate per athlete-exposure over all sites.

    `per_exposure` adds up the rates of the body areas, so that an area that is mostly guarded does
    not weigh less; `shape` is how many injuries it is as sure as (all of them, for one area).
    """

    injuries: int
    exposures: int
    per_exposure: float
    shape: float
    areas: int


OwnRates = Mapping[tuple[str, str, str], OwnRate]


def own_rates(rows: pl.DataFrame) -> OwnRates:
    """Return the rates by sport, sex and setting (game, practice, both) of `pitch/baseline`.

    The variance of a sum of rates, and the gamma law with the same mean and variance, are those of
    directly standardised rates (Fay & Feuer 1997, Stat Med 16:791-801).
    """
    keys = ["sport", "sex", "setting", "area"]
    both = rows.with_columns(setting=pl.lit(BOTH))
    cells = (
        pl.concat([rows, both])
        .with_columns(pl.col("sport").str.to_lowercase())
        .group_by(keys)
        .agg(pl.first("sites"), pl.sum("injuries"), pl.sum("exposures"))
        .sort(keys)  # sums of floats then come in one order, and are the same each time
    )
    weight = pl.col("sites") / pl.col("exposures")
    rates = (
        cells.group_by(keys[:3])
        .agg(
            pl.sum("injuries", "exposures"),
            (weight * pl.col("injuries")).sum().alias("rate"),
            (weight**2 * pl.col("injuries")).sum().alias("variance"),
            pl.len().alias("areas"),
        )
        .sort(keys[:3])
    )
    return {
        (sport, sex, setting): OwnRate(
            injuries, exposures, rate, rate**2 / variance if variance else 0.0, areas
        )
        for sport, sex, setting, injuries, exposures, rate, variance, areas in rates.iter_rows()
    }


def asked_settings(team: ProspectTeam, scope: Scope) -> tuple[tuple[str, int], ...]:
    """Return the settings of a team that count in the scope, with its sessions of each."""
    counts = {GAME: team.games, PRACTICE: team.practices}
    left_out = {Settings.GAMES: PRACTICE, Settings.PRACTICES: GAME}.get(scope.setting)
    return tuple((name, n) for name, n in counts.items() if name != left_out and n > 0)


def baselines(
    team: ProspectTeam, own: OwnRates, areas: tuple[str, ...], scope: Scope
) -> Mapping[str, Baseline]:
    """Return what a team's injuries rest on, setting by setting; both rest on the same kind."""
    names = [name for name, _ in asked_settings(team, scope)]
    rates = (
        _own(team, own, areas, names)
        or _own_together(team, own, areas, names, scope)
        or _published(team, areas, names, scope)
    )
    if rates:
        return rates
    why, unknown = _why(team, areas, scope), (None,) * 6
    return {name: Baseline(name, Basis.NOT_KNOWN, *unknown, None, "none", why) for name in names}


def _own(
    team: ProspectTeam, own: OwnRates, areas: tuple[str, ...], names: list[str]
) -> dict[str, Baseline]:
    rates = {
        name: _usable(own.get((team.sport.casefold(), team.sex, name)), areas) for name in names
    }
    if None in rates.values():
        return {}
    return {
        name: _of_own(rate, name, Basis.OWN, f"own {_plural(name)}")
        for name, rate in rates.items()
        if rate is not None
    }


def _own_together(
    team: ProspectTeam, own: OwnRates, areas: tuple[str, ...], names: list[str], scope: Scope
) -> dict[str, Baseline]:
    """One rate for games and practices; where the scope asks for one setting there is no other."""
    rate = _usable(own.get((team.sport.casefold(), team.sex, BOTH)), areas)
    if rate is None or scope.setting is not Settings.BOTH:
        return {}
    summary = "own games and practices together"
    return {name: _of_own(rate, name, Basis.OWN_BOTH, summary) for name in names}


def _usable(rate: OwnRate | None, areas: tuple[str, ...]) -> OwnRate | None:
    """Return the rate where it rests on enough injuries and no area lacks bare exposures."""
    if rate is None or rate.injuries < LEAST or rate.areas < len(areas):
        return None
    return rate


def _of_own(rate: OwnRate, setting: str, basis: Basis, source: str) -> Baseline:
    low, high = (
        gamma_quantile(shape, tail) * rate.per_exposure / rate.shape
        for shape, tail in ((rate.shape, _TAIL), (rate.shape + 1, 1 - _TAIL))
    )
    return Baseline(
        setting=setting,
        basis=basis,
        rate=rate.per_exposure * PER,
        low=low * PER,
        high=high * PER,
        injuries=rate.injuries,
        exposures=rate.exposures,
        share=None,
        shape=rate.shape,
        source=source,
    )


def _published(
    team: ProspectTeam, areas: tuple[str, ...], names: list[str], scope: Scope
) -> dict[str, Baseline]:
    share = None if scope.sides else share_for(team.sport, team.sex, areas, scope.outcome.value)
    if share is None:
        return {}
    rates = {name: rate_for(team.sport, team.sex, name, scope.outcome.value) for name in names}
    if None in rates.values():
        together = rate_for(team.sport, team.sex, BOTH, scope.outcome.value)
        if together is None or scope.setting is not Settings.BOTH:
            return {}
        rates = dict.fromkeys(names, together)
    return {name: _of_published(r, share, name) for name, r in rates.items() if r is not None}


def _of_published(rate: PublishedRate, share: PublishedShare, setting: str) -> Baseline:
    shape = float(rate.injuries) if rate.injuries else None
    if shape is None and rate.low is not None and rate.high is not None and rate.high > rate.low:
        shape = (rate.rate * 2 * two_sided(LEVEL) / (rate.high - rate.low)) ** 2
    of_sites = [None if limit is None else limit * share.share for limit in (rate.low, rate.high)]
    division = "all divisions" if rate.division == "all" else f"division {rate.division}"
    settings = "games and practices together" if rate.setting == BOTH else _plural(setting)
    return Baseline(
        setting=setting,
        basis=Basis.PUBLISHED,
        rate=rate.rate * share.share,
        low=of_sites[0],
        high=of_sites[1],
        injuries=rate.injuries,
        exposures=rate.exposures,
        share=share.share,
        shape=shape,
        source=(
            f"published, {settings}: {rate.source}; {rate.period}, {division}, "
            f"{_defined(rate.definition)}. Share of “{share.category}”: {share.source}; "
            f"{share.period}"
        ),
    )


def _why(team: ProspectTeam, areas: tuple[str, ...], scope: Scope) -> str:
    """Say what is lacking: own injuries, and a published rate or share of this definition."""
    own, outcome = f"fewer than {LEAST} own bare injuries", scope.outcome.value
    if scope.sides:
        return f"{own}; published figures tell no sides"
    names = [name for name, _ in asked_settings(team, scope)]
    rates = [rate_for(team.sport, team.sex, name, outcome) for name in (*names, BOTH)]
    if not any(rates):
        return f"{own}; no published rate ({_defined(outcome)})"
    if share_for(team.sport, team.sex, areas, outcome):
        return f"{own}; no published rate of this setting alone"
    return f"{own}; no published share of these sites ({_defined(outcome)})"


def _defined(definition: str) -> str:
    return "any injury" if definition == "any" else definition


def _plural(setting: str) -> str:
    return {GAME: "games", PRACTICE: "practices"}[setting]
