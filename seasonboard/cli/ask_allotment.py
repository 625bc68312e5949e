"""`seasonboard ask allotment`."""

from pathlib import Path

import click

from seasonboard.answers.allotment_cards import ALLOTMENT_CARDS
from seasonboard.answers.allotment_text import allotment_csv, allotment_json, allotment_text
from seasonboard.answers.layout import cards_text
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options


@click.command("allotment")
@store_options
@scope_options
@FORMAT
@EXPLAIN
@click.pass_context
def ask_allotment(
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """Do the prints keep to the plan? Prints by week against allotments and printers' hours.

    JSON: departments [{department, name, plan, prints_per_week, printers, weeks [{week (its
    Monday), is_whole, asked, prints, hours, without_hours, queue, is_over, hours_share}],
    whole_weeks, prints, weeks_over, used (why where null), hours, hours_share (hours_why where
    null), without_hours, queue, longest_queue}]; answer, caveats, left_out, scope. Purpose, outcome
    and setting do not filter this answer.
    """
    if explain:
        click.echo(cards_text(ALLOTMENT_CARDS.values()), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        answer = board.allotment(scope_of(board, options))
    if form == "json":
        print_json(allotment_json(answer))
    else:
        click.echo(allotment_text(answer) if form == "text" else allotment_csv(answer), nl=False)
