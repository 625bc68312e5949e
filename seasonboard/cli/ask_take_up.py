"""`seasonboard ask take-up`."""

from pathlib import Path

import click

from seasonboard.answers.layout import cards_text
from seasonboard.answers.take_up_cards import TAKE_UP_CARDS
from seasonboard.answers.take_up_json import take_up_json
from seasonboard.answers.take_up_parts import TakeUpBy, TakeUpOptions
from seasonboard.answers.take_up_text import take_up_csv, take_up_text
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options


@click.command("take-up")
@store_options
@scope_options
@click.option(
    "--by",
    type=click.Choice([by.value for by in TakeUpBy]),
    default=TakeUpBy.TEAM.value,
    show_default=True,
    help="What the groups are.",
)
@FORMAT
@EXPLAIN
@click.pass_context
def ask_take_up(  # noqa: PLR0913 - click hands over every option by name
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    by: str,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """Who was offered a guard, and who wears it? Steps from the roster to the session.

    JSON: by; steps [{step: eligible, offered, accepted, fitted or worn; athletes; of_before,
    of_eligible {share, low, high}; without_before}], declined, undecided, waiting, worn_share
    {worn, sessions, athletes, share, low, high}, weeks [{week (its Monday), as worn_share}] of
    all; kinds [the same for each kind, where there are several], groups [the same by --by, with
    group]; reasons [{answer, reason, count}]; out_of_order [{what, athletes}]; answer, caveats,
    left_out, scope. Purpose, outcome and setting do not filter this answer.
    """
    if explain:
        click.echo(cards_text(TAKE_UP_CARDS.values()), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        answer = board.take_up(scope_of(board, options), TakeUpOptions(TakeUpBy(by)))
    if form == "json":
        print_json(take_up_json(answer))
    else:
        click.echo(take_up_text(answer) if form == "text" else take_up_csv(answer), nl=False)
