"""`seasonboard ask`: one answer as text, JSON or CSV."""

from pathlib import Path

import click

from seasonboard.answers.as_json import compare_json, games_json
from seasonboard.answers.cards import CARDS
from seasonboard.answers.checks_asked import with_doubts
from seasonboard.answers.compare_text import compare_csv, compare_text
from seasonboard.answers.games_parts import MIN_AT_RISK, Clock, GamesOptions
from seasonboard.answers.games_text import games_csv, games_text
from seasonboard.answers.layout import cards_text
from seasonboard.cli.ask_allotment import ask_allotment
from seasonboard.cli.ask_checks import ask_checks
from seasonboard.cli.ask_departments import ask_departments
from seasonboard.cli.ask_orders import ask_orders
from seasonboard.cli.ask_remakes import ask_remakes
from seasonboard.cli.ask_roster import ask_roster
from seasonboard.cli.ask_take_up import ask_take_up
from seasonboard.cli.ask_turnaround import ask_turnaround
from seasonboard.cli.ask_week import ask_week
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options

_COMPARE_CARDS = (
    "exposures",
    "rate",
    "same session",
    "alike athletes",
    "same athlete",
    "other side",
    "crude",
    "decliners",
    "areas",
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


for _command in (
    ask_week,
    ask_roster,
    ask_orders,
    ask_turnaround,
    ask_remakes,
    ask_allotment,
    ask_take_up,
    ask_departments,
    ask_checks,
):
    ask.add_command(_command)


@ask.command("compare")
@store_options
@scope_options
@FORMAT
@EXPLAIN
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
    areas [{area, rate_ratio, low, high, p, p_adjusted}]; verdict; data_checks [{check,
    count}] that touch it; answer, caveats, left_out, scope.
    Exposures are site-exposures, rates per 1000.
    """
    if explain:
        click.echo(cards_text(CARDS[name] for name in _COMPARE_CARDS), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        scope = scope_of(board, options)
        answer = with_doubts(board.compare(scope), board.doubts(scope, "compare"))
    if form == "json":
        print_json(compare_json(answer))
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
@FORMAT
@EXPLAIN
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
    misleading_ever_never; data_checks [{check, count}] that touch it; answer, caveats, left_out,
    scope.
    """
    if explain:
        click.echo(cards_text(CARDS[name] for name in _GAMES_CARDS), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        asked = GamesOptions(Clock(clock), horizon, min_at_risk, naive)
        scope = scope_of(board, options)
        answer = with_doubts(board.games(scope, asked), board.doubts(scope, "games"))
    if form == "json":
        print_json(games_json(answer))
    else:
        click.echo(games_text(answer) if form == "text" else games_csv(answer), nl=False)
