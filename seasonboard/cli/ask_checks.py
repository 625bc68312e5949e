"""`seasonboard check`, the same as `seasonboard ask checks`."""

from pathlib import Path

import click

from seasonboard.answers.board import Board
from seasonboard.answers.checks_cards import CHECKS_CARDS
from seasonboard.answers.checks_json import check_rows_json, checks_json
from seasonboard.answers.checks_list import check_named
from seasonboard.answers.checks_text import (
    check_rows_csv,
    check_rows_text,
    checks_csv,
    checks_text,
)
from seasonboard.answers.layout import cards_text
from seasonboard.answers.rows import FIRST
from seasonboard.cli.asking import EXPLAIN, FORMAT, print_json, scope_of, scope_options
from seasonboard.cli.where import board_of, store_options
from seasonboard.paging import PageAsked
from seasonboard.scope import Scope

ATTENTION = 1
"""Exit status when a check found something."""
_ALL = PageAsked(2**31 - 1)


@click.command("checks")
@store_options
@scope_options
@click.option("--check", "name", metavar="ID", help="The rows of this check, not all counts.")
@FORMAT
@EXPLAIN
@click.pass_context
def ask_checks(  # noqa: PLR0913 - click hands over every option by name
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    use_sample: bool,
    name: str | None,
    form: str,
    explain: bool,
    **options: str | None,
) -> None:
    """What in the records is doubtful, how many, why it matters, and how to mend it?

    JSON: checks [{check, asks, touches {answer: number}, why, mend, query, count}]; answer,
    caveats, left_out, scope. With --check: check, asks, touches, why, mend, query, count, rows
    [{department, team, athlete, name, dated_on, table_name, key, detail}], scope. Purpose and
    outcome do not filter this answer. Exit status 1 when a check found something.
    """
    if explain:
        click.echo(cards_text(CHECKS_CARDS.values()), nl=False)
        return
    with board_of(ctx, store, use_sample=use_sample) as board:
        scope = scope_of(board, options)
        found = _all(board, scope, form) if name is None else _one(board, scope, form, name)
    ctx.exit(ATTENTION if found else 0)


def _all(board: Board, scope: Scope, form: str) -> int:
    """Print every check; return how many found something."""
    answer = board.checks(scope)
    if form == "json":
        print_json(checks_json(answer))
    else:
        click.echo(checks_text(answer) if form == "text" else checks_csv(answer), nl=False)
    return len(answer.found)


def _one(board: Board, scope: Scope, form: str, name: str) -> int:
    """Print the rows of one check; return how many there are."""
    check = check_named(name)
    rows = board.check_rows(scope, check.name, FIRST if form == "text" else _ALL)
    if form == "json":
        print_json(check_rows_json(check, rows, scope))
    else:
        told = check_rows_text(check, rows) if form == "text" else check_rows_csv(rows)
        click.echo(told, nl=False)
    return rows.total
