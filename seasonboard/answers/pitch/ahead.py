"""The season ahead of a prospect: its teams, their injuries, and what is drawn about them."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
import polars as pl

from seasonboard.answers.pitch.baseline import ServedRates, asked_settings, baseline
from seasonboard.answers.pitch.parts import LEAST, Effect, Input, SettingAhead, TeamAhead
from seasonboard.prospect import ProspectTeam
from seasonboard.scope import Scope
from seasonboard.stats.absence_duration import AbsenceLaw, Floats, mean_days_out
from seasonboard.stats.partial_pooling import pooled
from seasonboard.stats.season_ahead import Cell, Chances, RatioLaw, SeasonAhead, season_ahead

Inputs = Mapping[str, Input]
DAYS = 7
_OUT_DIFFERS = 0.3
"""By how much teams usually differ in how long an injury keeps an athlete out (assumed)."""


def input_value(inputs: Inputs, name: str) -> float:
    """Return the value of an input that is always known."""
    value = inputs[name].value
    assert value is not None, name  # noqa: S101 - only the hours of a print may be unknown
    return value


def team_ahead(
    team: ProspectTeam,
    served: ServedRates,
    parts: pl.DataFrame,
    areas: tuple[str, ...],
    scope: Scope,
) -> TeamAhead:
    """Return one team's exposures and injuries to expect without guards.

    `parts` are rows of `pitch/taking_part`, `areas` those whose sites are studied.
    """
    athletes = _athletes(team, scope)
    shares = {
        name: (n, *taking_part(parts, team.sport, name)) for name, n in asked_settings(team, scope)
    }
    exposures = {name: athletes * n * share for name, (n, share, _) in shares.items()}
    hurt, found = baseline(team, served, areas, scope, exposures)
    why = found.why
    if not shares:
        why = "it has no session of the settings in scope"
    elif not athletes:
        why = "none of its athletes is of the position groups in scope"
    settings = tuple(
        SettingAhead(name, *cells, exposures[name], hurt.get(name))
        for name, cells in shares.items()
    )
    total = found.injuries if shares and athletes else None
    return TeamAhead(team, athletes, settings, found, total, None, why=why)


def _athletes(team: ProspectTeam, scope: Scope) -> int:
    """Return the athletes of the position groups in scope; all, where groups are not told."""
    if scope.position_groups is None or not team.groups:
        return team.athletes
    wanted = {group.casefold() for group in scope.position_groups}
    return sum(count for group, count in team.groups if group.casefold() in wanted)


def taking_part(parts: pl.DataFrame, sport: str, setting: str) -> tuple[float, bool]:
    """Return the share of the roster that takes part in one session, and whether it is recorded.

    Where too few places are recorded, all are taken to.
    """
    rows = parts.filter(
        (pl.col("sport").str.to_lowercase() == sport.casefold()) & (pl.col("setting") == setting)
    )
    places, took_part = int(rows["places"].sum()), int(rows["took_part"].sum())
    return (took_part / places, True) if places >= LEAST else (1.0, False)


def sessions_each(teams: Sequence[TeamAhead], parts: pl.DataFrame) -> float:
    """Return the sessions an athlete takes part in, games and practices alike."""
    athletes = sum(team.athletes for team in teams)
    sessions = sum(
        team.athletes * count * taking_part(parts, team.team.sport, name)[0]
        for team in teams
        for name, count in (("game", team.team.games), ("practice", team.team.practices))
    )
    return sessions / athletes if athletes else 0.0


def simulated(  # noqa: PLR0913 - one for each thing that is not known
    teams: Sequence[TeamAhead],
    effect: Effect,
    guarded: Floats,
    absence: AbsenceLaw | None,
    *,
    in_sessions: float,
    days: float,
    seed: int,
) -> SeasonAhead | None:
    """Return the season ahead of the teams whose injuries are known; None without any."""
    cells = [
        Cell(
            team.injuries,
            team.baseline.shape or 0.0,
            team.baseline.shared,
            float(team.team.games),
            team.out,
        )
        for team in teams
        if team.injuries is not None
    ]
    if not cells:
        return None
    law = None
    if effect.ratio is not None and effect.std_error is not None:
        law = RatioLaw(effect.ratio, effect.std_error)
    chances = Chances(guarded, in_sessions, law, absence)
    return season_ahead(cells, chances, days_in_season=days, seed=seed)


def with_games(teams: Sequence[TeamAhead], law: AbsenceLaw | None, days: float) -> list[TeamAhead]:
    """Return the teams with the games that their injuries would cost on average.

    Games missed last season are pooled with how long athletes are out at departments served.
    """
    if law is None:
        return list(teams)
    out = mean_days_out(law, days) / days
    spent = np.asarray(law.days) / max(law.mean, 1e-9)
    each = 1 / float(np.dot(spent**2, law.chances)) if law.mean else 0.0
    found = []
    for team in teams:
        own, longer = team.team, 1.0
        usual = (own.injuries or 0) * out * own.games
        if own.games_missed is not None and usual:
            seen = (own.injuries or 0) * each
            longer = pooled(seen * own.games_missed / usual, seen, 1 / _OUT_DIFFERS**2).mean
        missed = None if team.injuries is None else team.injuries * out * own.games * longer
        found.append(replace(team, games_missed=missed, out=longer))
    return found
