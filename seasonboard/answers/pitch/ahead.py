"""The season ahead of a prospect: teams, prints, injuries, cost, and what would change it most."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import polars as pl

from seasonboard.answers.pitch.baseline import OwnRates, asked_settings, baselines
from seasonboard.answers.pitch.parts import (
    LEAST,
    Baseline,
    Effect,
    Input,
    SettingAhead,
    TeamAhead,
)
from seasonboard.prospect import ProspectTeam
from seasonboard.scope import Scope
from seasonboard.stats.absence_duration import AbsenceLaw, Floats, mean_days_out
from seasonboard.stats.rates import PER
from seasonboard.stats.season_ahead import Cell, RatioLaw, SeasonAhead, season_ahead

Inputs = Mapping[str, Input]
DAYS = 7


def input_value(inputs: Inputs, name: str) -> float:
    """Return the value of an input that is always known."""
    value = inputs[name].value
    assert value is not None, name  # noqa: S101 - only the hours of a print may be unknown
    return value


def team_ahead(
    team: ProspectTeam, own: OwnRates, parts: pl.DataFrame, areas: tuple[str, ...], scope: Scope
) -> TeamAhead:
    """Return one team's exposures and injuries to expect without guards.

    `parts` are rows of `pitch/taking_part`, `areas` those whose sites are studied.
    """
    athletes = _athletes(team, scope)
    by_setting = baselines(team, own, areas, scope)
    settings = []
    for name, sessions in asked_settings(team, scope):
        share, is_own = taking_part(parts, team.sport, name)
        exposures, baseline = athletes * sessions * share, by_setting[name]
        hurt = None if baseline.rate is None else exposures * baseline.rate / PER
        settings.append(SettingAhead(name, sessions, share, is_own, exposures, baseline, hurt))
    injuries = [one.injuries for one in settings if one.injuries is not None]
    why = next((one.baseline.why for one in settings if one.baseline.why), "")
    if not settings:
        why = "it has no session of the settings in scope"
    elif not athletes:
        why = "none of its athletes is of the position groups in scope"
    is_known = bool(injuries) and len(injuries) == len(settings) and athletes > 0
    total = sum(injuries) if is_known else None
    return TeamAhead(team, athletes, tuple(settings), total, None, why)


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
    days: float,
    seed: int,
) -> SeasonAhead | None:
    """Return the season ahead of the teams whose injuries are known; None without any."""
    counted = [team for team in teams if team.injuries is not None]
    if not counted:
        return None
    sources: dict[tuple[object, ...], int] = {}
    shapes: list[float | None] = []
    cells = []
    for team in counted:
        for setting in team.settings:
            key = _source(team, setting.baseline)
            if key not in sources:
                sources[key] = len(sources)
                shapes.append(setting.baseline.shape)
            cells.append(Cell(setting.injuries or 0.0, sources[key], float(team.team.games)))
    law = None
    if effect.ratio is not None and effect.std_error is not None:
        law = RatioLaw(effect.ratio, effect.std_error)
    return season_ahead(
        cells, shapes, ratio=law, guarded=guarded, absence=absence, days_in_season=days, seed=seed
    )


def _source(team: TeamAhead, baseline: Baseline) -> tuple[object, ...]:
    """Return what tells baselines apart: settings of one pooled rate stray together."""
    key = (team.team.sport.casefold(), team.team.sex, baseline.basis, baseline.source)
    return (*key, baseline.injuries, baseline.exposures, baseline.rate)


def with_games(teams: Sequence[TeamAhead], law: AbsenceLaw | None, days: float) -> list[TeamAhead]:
    """Return the teams with the games that their injuries would cost on average."""
    if law is None:
        return list(teams)
    out = mean_days_out(law, days) / days
    missed = [
        None if team.injuries is None else team.injuries * out * team.team.games for team in teams
    ]
    return [replace(team, games_missed=games) for team, games in zip(teams, missed, strict=True)]
