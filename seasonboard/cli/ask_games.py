"""`seasonboard ask games`."""

import click

from seasonboard.answers.checks.counting import with_doubts
from seasonboard.answers.compare.cards import COMPARE_CARDS
from seasonboard.answers.games.cards import GAMES_CARDS
from seasonboard.answers.games.json import games_json
from seasonboard.answers.games.parts import MIN_AT_RISK, Clock, GamesAnswer, GamesOptions
from seasonboard.answers.games.text import games_csv, games_text
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.answer_command import Told, answers
from seasonboard.scope import Scope

_CARDS = (
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


@click.command("games")
@answers({**COMPARE_CARDS, **GAMES_CARDS}[name] for name in _CARDS)
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
def ask_games(  # noqa: PLR0913 - one for each option
    board: StoreAnswers,
    scope: Scope,
    *,
    clock: str,
    horizon: int | None,
    min_at_risk: int,
    naive: bool,
) -> Told[GamesAnswer]:
    """How many games are played before an injury? Curves by what was worn at each game.

    JSON: clock; groups [{group, athletes, sites, injuries, left, curve [{tick, at_risk, injuries,
    entered, left, survival, std_error, low, high}], median, quartiles, restricted_mean}];
    restricted_mean_difference; log_rank; log_rank_stratified; one_mix; mean_cumulative [{group,
    tick, mean, low, high}]; cumulative_incidence [{group, tick, cause, share}]; with --naive
    misleading_ever_never; data_checks [{check, count}] that touch it; answer, caveats, left_out,
    scope.
    """
    options = GamesOptions(Clock(clock), horizon, min_at_risk, naive)
    answer = with_doubts(board.games(scope, options), board.doubts(scope, "games"))
    return Told(answer, games_json, games_text, games_csv)
