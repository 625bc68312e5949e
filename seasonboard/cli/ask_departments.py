"""`seasonboard ask departments`."""

from pathlib import Path

import click

from seasonboard.answers.departments_cards import DEPARTMENTS_CARDS
from seasonboard.answers.departments_json import departments_json
from seasonboard.answers.departments_text import departments_csv, departments_text
from seasonboard.answers.layout import cards_text
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options


@click.command("departments")
@store_options
@scope_options
@FORMAT
@EXPLAIN
@click.pass_context
def ask_departments(
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """How is each client doing? One row a department, those first that need attention most.

    JSON: departments [{department, name, plan, open, late, turnaround {median, low, high, unit},
    ready_for_next_game {count, orders, share, low, high}, remakes {count, fitted, share, low,
    high}, allotment {prints_per_week, week, week_prints, week_used, used, weeks_over, queue},
    availability and availability_before {sessions, available, recorded, not_known, share},
    worn_share {count, sessions, share, low, high}, overdue_decisions, trends {weeks, turnaround,
    remakes, availability, worn}, attention [sentence]}]; answer, caveats, left_out, scope.
    Purpose, outcome and setting do not filter this answer.
    """
    if explain:
        click.echo(cards_text(DEPARTMENTS_CARDS.values()), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        answer = board.departments(scope_of(board, options))
    if form == "json":
        print_json(departments_json(answer))
    else:
        click.echo(
            departments_text(answer) if form == "text" else departments_csv(answer), nl=False
        )
