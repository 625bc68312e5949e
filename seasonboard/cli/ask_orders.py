"""`seasonboard ask orders`."""

from pathlib import Path

import click

from seasonboard.answers.layout import cards_text
from seasonboard.answers.orders_cards import ORDERS_CARDS
from seasonboard.answers.orders_json import orders_json
from seasonboard.answers.orders_text import orders_csv, orders_text
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options


@click.command("orders")
@store_options
@scope_options
@FORMAT
@EXPLAIN
@click.pass_context
def ask_orders(
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """Say what is on its way, and whether it will be there in time.

    Every open order, the most pressing first. Guards of both purposes and all sessions count.

    JSON: as_of; known, open, fitted, cancelled, retired, late (counts of orders); late_after
    [{department, days, orders, likeness}]; orders [{guard, athlete, name, team, department, plan,
    kind, side, purpose, scan_method, remake_of, stages [{stage, reached_at}], stage, stage_days,
    age (calendar days), age_hours, late, late_after_days, attention, next_game {session,
    starts_at, on, label, days_ahead} or null, chance_by_next_game, chance_low, chance_high,
    chance_is_least, like_orders, likeness, why, exposures, exposures_bare, exposures_worn}];
    answer, caveats, left_out, scope.
    """
    if explain:
        click.echo(cards_text(ORDERS_CARDS.values()), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        answer = board.orders(scope_of(board, options))
    if form == "json":
        print_json(orders_json(answer))
    else:
        click.echo(orders_text(answer) if form == "text" else orders_csv(answer), nl=False)
