"""`seasonboard ask roster`: who can play the next game, and in what guard."""

from pathlib import Path

import click

from seasonboard.answers.athlete_text import athlete_csv, athlete_json, athlete_text
from seasonboard.answers.layout import cards_text
from seasonboard.answers.roster_cards import ROSTER_CARDS
from seasonboard.answers.roster_json import roster_json
from seasonboard.answers.roster_text import roster_csv, roster_text
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options


@click.command("roster")
@store_options
@scope_options
@click.option("--athlete", metavar="KEY", help="Show all that was recorded of one athlete instead.")
@FORMAT
@EXPLAIN
@click.pass_context
def ask_roster(  # noqa: PLR0913 - click hands over every option by name
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    athlete: str | None,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """Who can play the next game, and in what guard? Athletes by what needs attention first.

    JSON: next_game, next_games [{team, season, session, starts_at, label, rostered, is_listed,
    strip_sessions}]; headline {rostered, full, limited, out, not_recorded, out_for_health,
    out_because, guards}; athletes [{athlete, name, team, position, status, reason, because,
    expected_back, injury, like_injuries, days_lost, guards [{guard, kind, side, purpose, state,
    stage, age_days, games_missed, worn, taken_part, worn_share, because}], worn_share, needs,
    attention, strip}]; late_after; availability {sessions, totals, roster_days, unavailable_days,
    severity, burden, by_season_part}; answer, caveats, left_out, scope. status is full, limited,
    out or not recorded; expected_back is always null, since no such day is recorded.

    With --athlete: athlete, name, teams, parts, guarded, injuries, timeline [{on, at, what, item,
    word, reason, kind, side, label, guards, days_lost, told}].
    """
    if explain:
        click.echo(cards_text(ROSTER_CARDS.values()), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        scope = scope_of(board, options)
        if athlete is not None:
            timeline = board.athlete_timeline(scope, athlete)
            if form == "json":
                print_json(athlete_json(timeline))
            else:
                text = athlete_text(timeline) if form == "text" else athlete_csv(timeline)
                click.echo(text, nl=False)
            return
        answer = board.roster(scope)
    if form == "json":
        print_json(roster_json(answer))
    else:
        click.echo(roster_text(answer) if form == "text" else roster_csv(answer), nl=False)
