"""`seasonboard ask week`."""

from datetime import date
from pathlib import Path

import click

from seasonboard.answers.layout import cards_text
from seasonboard.answers.week_cards import WEEK_CARDS
from seasonboard.answers.week_json import week_json
from seasonboard.answers.week_parts import WeekOptions
from seasonboard.answers.week_text import week_csv, week_text
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options
from seasonboard.errors import ScopeError


@click.command("week")
@store_options
@scope_options
@click.option(
    "--since",
    metavar="DATE",
    help="Last day already talked about, as 2026-11-07. Without it, seven days before “through”.",
)
@FORMAT
@EXPLAIN
@click.pass_context
def ask_week(  # noqa: PLR0913 - click hands over every option by name
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    since: str | None,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """What changed this week, and what must be decided? To be read aloud in a meeting.

    JSON: since, through; days [{day, games, practices, injuries, returns, asked, fitted}]; items
    [{item, title, sentence, ahead, rows [{…}]}], where item is played, injuries, returns, orders,
    remakes, offers, decided, loads (what changed after since), games, guards, out, late and
    decisions (what is ahead); answer, caveats, left_out, scope. CSV: item, row, column, value.
    Purpose, outcome and setting do not filter this answer.
    """
    if explain:
        click.echo(cards_text(WEEK_CARDS.values()), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        answer = board.week(scope_of(board, options), WeekOptions(_day(since)))
    if form == "json":
        print_json(week_json(answer))
    else:
        click.echo(week_text(answer) if form == "text" else week_csv(answer), nl=False)


def _day(text: str | None) -> date | None:
    if text is None:
        return None
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        raise ScopeError(
            f"“{text}” is not a date for “since”.", "Write it as 2026-11-07."
        ) from None
