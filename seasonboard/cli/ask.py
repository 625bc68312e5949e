"""`seasonboard ask`: one answer as text, JSON or CSV. A command for each question there is."""

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

import click

from seasonboard.answers.options import Option
from seasonboard.answers.output import Output
from seasonboard.answers.questions import QUESTIONS, Question
from seasonboard.cli.answer_command import (
    answer_command,
    click_option,
    read_options,
    with_options_of,
)
from seasonboard.cli.lazy_group import MORE, NearestGroup
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from collections.abc import Callable

    from seasonboard.answers.source import AnswerSource

_ALL = PageAsked(2**31 - 1)


class Questions(NearestGroup):
    """The questions; each is loaded, with its answer, when it is asked."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - as click calls it
        """Return the names of the questions."""
        return [question.name for question in QUESTIONS]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Return the command of a question; None where there is none of that name."""
        return next((ask_command(one) for one in QUESTIONS if one.name == cmd_name), None)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Write the questions without loading any of them."""
        with formatter.section("Commands"):
            formatter.write_dl([(question.name, question.asks) for question in QUESTIONS])


@click.group(cls=Questions)
def ask() -> None:
    """Put one question to a store.

    Scope options take several values with commas; an unknown value lists the known ones.
    """


def ask_command(question: Question[Any, Any]) -> click.Command:
    """Return the command that asks a question, with its options and its list of fields."""
    report, instead = question.report(), _INSTEAD.get(question.name)

    def ask_it(board: "AnswerSource", scope: Scope, **typed: Any) -> Output:  # noqa: ANN401 - by click
        if instead is not None and (wish := typed.pop(instead.option.name)) is not None:
            return instead.ask(board, scope, wish)
        answer = board.ask(question, scope, read_options(question.options(), typed))
        if question.counts_checks:
            from seasonboard.answers.checks.counting import with_doubts

            answer = with_doubts(answer, board.doubts(scope, question.name))
        return report.output(answer, question.name)

    command = answer_command(ask_it, question)
    if instead is not None:
        command = click_option(instead.option)(command)
    command = with_options_of(question.options(), command)
    lines = "\n".join(report.help())
    text = f"{question.asks}\n\n\b\nJSON:\n{lines}"
    named = click.command(question.name, help=text, short_help=question.asks, epilog=f"{MORE}ask")
    return named(command)


@dataclass(frozen=True, slots=True)
class _Instead:
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


_INSTEAD = {
    "roster": _Instead(
        Option("--athlete", "All that was recorded of one athlete.", "athlete", metavar="KEY"),
        _athlete,
    ),
    "checks": _Instead(
        Option("--check", "The rows of this check, not all counts.", "check", metavar="ID"),
        _check_rows,
    ),
}
"""By the name of the question."""
