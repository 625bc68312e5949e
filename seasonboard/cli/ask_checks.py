"""`seasonboard check`, the same as `seasonboard ask checks`."""

from functools import partial

import click

from seasonboard.answers.checks.all_checks import check_named
from seasonboard.answers.checks.cards import CHECKS_CARDS
from seasonboard.answers.checks.json import check_rows_json, checks_json
from seasonboard.answers.checks.parts import ChecksAnswer
from seasonboard.answers.checks.text import (
    check_rows_csv,
    check_rows_text,
    checks_csv,
    checks_text,
)
from seasonboard.answers.rows import Rows
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.answer_command import Told, answers
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope

ATTENTION = 1
"""Exit status when a check found something."""
_ALL = PageAsked(2**31 - 1)


@click.command("checks")
@answers(CHECKS_CARDS.values())
@click.option("--check", "name", metavar="ID", help="The rows of this check, not all counts.")
def ask_checks(
    board: StoreAnswers, scope: Scope, *, name: str | None
) -> Told[ChecksAnswer] | Told[Rows]:
    """What in the records is doubtful, how many, why it matters, and how to mend it?

    JSON: checks [{check, asks, touches {answer: number}, why, mend, query, count}]; answer,
    caveats, left_out, scope. With --check: check, asks, touches, why, mend, query, count, rows
    [{department, team, athlete, name, dated_on, table_name, key, detail}], scope. Purpose and
    outcome do not filter this answer. Exit status 1 when a check found something.
    """
    if name is None:
        answer = board.checks(scope)
        status = ATTENTION if answer.found else 0
        return Told(answer, checks_json, checks_text, checks_csv, status)
    check = check_named(name)
    is_text = click.get_current_context().params["form"] == "text"
    rows = board.check_rows(scope, check.name, FIRST if is_text else _ALL)
    return Told(
        rows,
        partial(check_rows_json, check, scope=scope),
        partial(check_rows_text, check),
        check_rows_csv,
        ATTENTION if rows.total else 0,
    )
