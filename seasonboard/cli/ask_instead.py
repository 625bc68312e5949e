"""Options of `ask` that ask for something else instead: one athlete, the rows of one check."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

import click

from seasonboard.answers.options import Option
from seasonboard.answers.output import Output
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource

_ALL = PageAsked(2**31 - 1)


@dataclass(frozen=True, slots=True)
class Instead:
    """An option, and what is asked in the place of the question where it is given."""

    option: Option
    ask: "Callable[[AnswerSource, Scope, str], Output]"


def _athlete(board: "AnswerSource", scope: Scope, athlete: str) -> Output:
    from seasonboard.answers.roster.athlete_report import REPORT

    return REPORT.output(board.athlete_timeline(scope, athlete), "roster")


def _check_rows(board: "AnswerSource", scope: Scope, name: str) -> Output:
    from seasonboard.answers.checks.all_checks import check_named
    from seasonboard.answers.checks.report import check_rows_csv, check_rows_json, check_rows_text

    check = check_named(name)
    is_text = click.get_current_context().params["form"] == "text"
    rows = board.check_rows(scope, check.name, FIRST if is_text else _ALL)
    return Output(
        partial(check_rows_text, check, rows),
        partial(check_rows_json, check, rows, scope),
        partial(check_rows_csv, rows),
        status=1 if rows.total else 0,
    )


INSTEAD: Mapping[str, Instead] = {
    "roster": Instead(
        Option("--athlete", "All that was recorded of one athlete.", "athlete", metavar="KEY"),
        _athlete,
    ),
    "checks": Instead(
        Option("--check", "The rows of this check, not all counts.", "check", metavar="ID"),
        _check_rows,
    ),
}
"""By the name of the question."""
