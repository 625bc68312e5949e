"""`seasonboard ask remakes`."""

from pathlib import Path

import click

from seasonboard.answers.layout import cards_text
from seasonboard.answers.remakes_cards import REMAKES_CARDS
from seasonboard.answers.remakes_json import remakes_json
from seasonboard.answers.remakes_parts import WINDOW, RemakesBy, RemakesOptions
from seasonboard.answers.remakes_text import remakes_csv, remakes_text
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options


@click.command("remakes")
@store_options
@scope_options
@click.option(
    "--by",
    type=click.Choice([by.value for by in RemakesBy]),
    default=RemakesBy.KIND.value,
    show_default=True,
    help="What the groups are.",
)
@click.option(
    "--window",
    type=int,
    default=WINDOW,
    show_default=True,
    help="Days after fitting within which a remake is looked at.",
)
@FORMAT
@EXPLAIN
@click.pass_context
def ask_remakes(  # noqa: PLR0913 - click hands over every option by name
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    by: str,
    window: int,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """What came back, and why? Remakes and replacements among fitted guards.

    JSON: by, window; all, groups [{group, fitted, remakes, replacements, reason_not_recorded,
    share, low, high, within_30_days {share, low, high}, limits {low, high}, outside_limits,
    sessions_worn, per_100_worn}]; reasons [{reason, counts_as, count, share}]; months; chains
    {firsts, redone, redone_exact, redone_within, units, longest, days_to_stay}; life {value, low,
    high}; guards_in_use; bare_exposures_waiting; answer, caveats, left_out, scope. Purpose,
    outcome and setting do not filter this answer.
    """
    if explain:
        click.echo(cards_text(REMAKES_CARDS.values()), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        asked = RemakesOptions(RemakesBy(by), window)
        answer = board.remakes(scope_of(board, options), asked)
    if form == "json":
        print_json(remakes_json(answer))
    else:
        click.echo(remakes_text(answer) if form == "text" else remakes_csv(answer), nl=False)
