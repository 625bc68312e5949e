"""`seasonboard ask`: one answer as text, JSON or CSV."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from seasonboard.answers.as_json import compare_json, games_json
from seasonboard.answers.board import Board
from seasonboard.answers.compare_text import compare_csv, compare_text
from seasonboard.answers.games_parts import MIN_AT_RISK, Clock, GamesOptions
from seasonboard.answers.games_text import games_csv, games_text
from seasonboard.answers.layout import cards_text
from seasonboard.cli.where import board_of, store_options
from seasonboard.scope import PARTS, Scope, read_scope

_Command = TypeVar("_Command", bound=Callable[..., Any])

_SCOPE_HELP = {
    "season": "Seasons, as recorded.",
    "through": "Last day known, as 2026-11-14: rewinds to what was known that day.",
    "department": "Departments, by key or name.",
    "team": "Teams.",
    "sport": "Sports.",
    "sex": "women, men, mixed.",
    "position group": "Position groups, as in the roster.",
    "kind": "Guard kinds; their sites are studied. Without it, all kinds made.",
    "area": "Body areas, of those the kinds cover.",
    "side": "left, right, midline.",
    "purpose": "preventive (no earlier injury to the site), return, or all.",
    "outcome": "time loss (a day lost, or still out) or any.",
    "setting": "games, practices, or both.",
    "level": "Confidence level of the limits, as 0.95 or 95.",
}


def scope_options(command: _Command) -> _Command:
    """Give a command every part of the scope as an option."""
    for part in reversed(PARTS):
        command = click.option(
            f"--{part.replace(' ', '-')}", part.replace(" ", "_"), help=_SCOPE_HELP[part]
        )(command)
    return command


def _asked(options: dict[str, str | None]) -> dict[str, str]:
    return {name.replace("_", " "): text for name, text in options.items() if text is not None}


_FORMAT = click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "csv"]),
    default="text",
    show_default=True,
    help="Text to read, one JSON object (unrounded), or the table as CSV.",
)


_EXPLAIN = click.option(
    "--explain", is_flag=True, help="Print how each number is made instead of the answer."
)
_COMPARE_CARDS = (
    "exposures",
    "rate",
    "same session",
    "alike athletes",
    "same athlete",
    "other side",
    "crude",
    "decliners",
    "clustered",
    "peek-proof",
    "needed",
    "verdict",
    "left out",
)
_GAMES_CARDS = (
    "exposures",
    "curve",
    "median",
    "restricted mean",
    "log-rank",
    "one mix",
    "other ends",
    "repeats",
    "ever never",
    "left out",
)


@click.group()
def ask() -> None:
    """Put one question to a store.

    Scope options take several values with commas; an unknown value lists the known ones.
    """


@ask.command("compare")
@store_options
@scope_options
@_FORMAT
@_EXPLAIN
@click.pass_context
def ask_compare(
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """Are guarded athletes hurt less? Rates, and the ratio compared in several ways.

    JSON: guarded, unguarded {injuries, exposures, rate, low, high}; comparisons [{comparison,
    injuries_…, exposures_…, strata, informative_strata, rate_ratio, low, high, p, method, exact,
    clustered, score, homogeneity}]; decliners {the same}; peek_proof {rate_ratio, low, high,
    e_value, looks_valid}; peek_proof_by_week; needed {ratio, power, guarded_exposures, games};
    verdict; answer, caveats, left_out, scope. Exposures are site-exposures, rates per 1000.
    """
    if explain:
        click.echo(cards_text(_COMPARE_CARDS), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        answer = board.compare(_scope(board, options))
    if form == "json":
        _print_json(compare_json(answer))
    else:
        click.echo(compare_text(answer) if form == "text" else compare_csv(answer), nl=False)


@ask.command("games")
@store_options
@scope_options
@click.option(
    "--clock",
    type=click.Choice([clock.value for clock in Clock]),
    default=Clock.GAMES.value,
    show_default=True,
    help="What ticks: own games, own sessions, or the team's games.",
)
@click.option("--horizon", type=int, help="Games to look ahead for the restricted mean.")
@click.option(
    "--min-at-risk",
    type=int,
    default=MIN_AT_RISK,
    show_default=True,
    help="A curve starts at the first tick with this many at risk.",
)
@click.option("--naive", is_flag=True, help="Add the misleading ever/never tally, for contrast.")
@_FORMAT
@_EXPLAIN
@click.pass_context
def ask_games(  # noqa: PLR0913 - click hands over every option by name
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    clock: str,
    horizon: int | None,
    min_at_risk: int,
    naive: bool,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """How many games are played before an injury? Curves by what was worn at each game.

    JSON: clock; groups [{group, athletes, sites, injuries, left, curve [{tick, at_risk, injuries,
    entered, left, survival, std_error, low, high}], median, quartiles, restricted_mean}];
    restricted_mean_difference; log_rank; log_rank_stratified; one_mix; mean_cumulative [{group,
    tick, mean, low, high}]; cumulative_incidence [{group, tick, cause, share}]; with --naive
    misleading_ever_never; answer, caveats, left_out, scope.
    """
    if explain:
        click.echo(cards_text(_GAMES_CARDS), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        asked = GamesOptions(Clock(clock), horizon, min_at_risk, naive)
        answer = board.games(_scope(board, options), asked)
    if form == "json":
        _print_json(games_json(answer))
    else:
        click.echo(games_text(answer) if form == "text" else games_csv(answer), nl=False)


def _scope(board: Board, options: dict[str, str | None]) -> Scope:
    return read_scope(_asked(options), board.known)


def _print_json(found: dict[str, Any]) -> None:
    click.echo(json.dumps(found, allow_nan=False, ensure_ascii=False, indent=1))
