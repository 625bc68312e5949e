"""`seasonboard ask turnaround`."""

import click

from seasonboard.answers.orders.order_times import MAKING, Unit, read_stage
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.answers.turnaround.cards import TURNAROUND_CARDS
from seasonboard.answers.turnaround.json import turnaround_json
from seasonboard.answers.turnaround.parts import By, TurnaroundAnswer, TurnaroundOptions
from seasonboard.answers.turnaround.text import turnaround_csv, turnaround_text
from seasonboard.cli.answer_command import Told, answers
from seasonboard.scope import Scope

_STAGES = ", ".join(MAKING)


@click.command("turnaround")
@answers(TURNAROUND_CARDS.values())
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
def ask_turnaround(  # noqa: PLR0913 - one for each option
    board: StoreAnswers,
    scope: Scope,
    *,
    start: str,
    end: str,
    unit: str,
    by: str | None,
    holidays: str,
) -> Told[TurnaroundAnswer]:
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
    first, last = read_stage(start), read_stage(end)
    asked = TurnaroundOptions(first, last, Unit(unit), By(by) if by else None, holidays_of=holidays)
    answer = board.turnaround(scope, asked)
    return Told(answer, turnaround_json, turnaround_text, turnaround_csv)
