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
@click.option(
    "--group-reasons", is_flag=True, help="In text, the reasons of every group too (JSON has them)."
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
    group_reasons: bool,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """What came back, and why? Remakes and replacements among fitted guards.

    JSON: by, window; all, groups [{group, fitted, remakes, replacements, reason_not_recorded,
    share, low, high, within_30_days {share, low, high} (named after the window), limits {low,
    high}, outside_limits (false where too few to tell), reading, sessions_worn, per_100_worn
    {value, limit_low, limit_high, outside_limits}, reasons}]; reasons [{reason, counts_as, count,
    share, before_fitting}]; months [{month, fitted, remakes, share, low, high, outside_limits}];
    chains {firsts, redone, redone_exact, redone_within, units, longest, days_to_stay,
    chains_fitted}; life {value, low, high}; guards_in_use; bare_exposures_waiting; waits; answer,
    caveats, left_out, scope. Purpose, outcome and setting do not filter this answer.
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
        told = (
            remakes_text(answer, group_reasons=group_reasons)
            if form == "text"
            else remakes_csv(answer)
        )
        click.echo(told, nl=False)
