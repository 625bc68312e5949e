"""`seasonboard ask turnaround`."""

from pathlib import Path

import click

from seasonboard.answers.layout import cards_text
from seasonboard.answers.orders_frame import MAKING, Unit, read_stage
from seasonboard.answers.turnaround_cards import TURNAROUND_CARDS
from seasonboard.answers.turnaround_json import turnaround_json
from seasonboard.answers.turnaround_parts import By, TurnaroundOptions
from seasonboard.answers.turnaround_text import turnaround_csv, turnaround_text
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options

_STAGES = ", ".join(MAKING)


@click.command("turnaround")
@store_options
@scope_options
@click.option(
    "--from", "start", default="requested", show_default=True, help=f"First stage: {_STAGES}."
)
@click.option(
    "--to", "end", default="fitted", show_default=True, help="Second stage, later in that row."
)
@click.option(
    "--unit",
    type=click.Choice([unit.value for unit in Unit]),
    default=Unit.DAYS.value,
    show_default=True,
    help="Elapsed hours, calendar days, or Mondays to Fridays.",
)
@click.option("--by", type=click.Choice([by.value for by in By]), help="Group the orders.")
@click.option(
    "--holidays",
    default="",
    metavar="COUNTRY[-PART]",
    help="Leave public holidays out of working days, as US or US-NY (needs “holidays”).",
)
@FORMAT
@EXPLAIN
@click.pass_context
def ask_turnaround(  # noqa: PLR0913 - click hands over every option by name
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    start: str,
    end: str,
    unit: str,
    by: str | None,
    holidays: str,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """How long does a guard take? Time between two stages, with open orders counted.

    JSON: from, to, unit, by, holidays; orders, finished, open, cancelled; groups [{group, key,
    orders, finished, open, cancelled, median, p80, p95 {value, low, high}, ready_for_next_game
    {share, low, high, orders, ready, undecided, cancelled, no_game}, finished_only {finished,
    mean, median, open_left_out, longest_open}, stages, curve [{time, at_risk, finished,
    cancelled, open, waiting, low, high, share_finished, share_cancelled, share_open}]}]; stages
    [{stage, next_stages, orders, finished, waiting, cancelled, median}]; together {requests,
    complete, open, cancelled, median, median_of_complete}; weeks [{week, orders, finished,
    median, in_limits_set, outside_limits}]; weekly_limits {centre, low, high}; open_orders
    [{guard, athlete, department, age (in the unit), stage, next_game, chance_by_next_game,
    chance_low, chance_high, chance_is_least, like_orders, likeness}]; answer, caveats, left_out,
    scope. Times are in the unit asked for; a null has a why beside it.
    """
    if explain:
        click.echo(cards_text(TURNAROUND_CARDS.values()), nl=False)
        return
    asked = TurnaroundOptions(
        read_stage(start),
        read_stage(end),
        Unit(unit),
        By(by) if by else None,
        holidays_of=holidays,
    )
    with board_of(ctx, store, use_sample=use_sample) as board:
        answer = board.turnaround(scope_of(board, options), asked)
    if form == "json":
        print_json(turnaround_json(answer))
    else:
        click.echo(turnaround_text(answer) if form == "text" else turnaround_csv(answer), nl=False)
