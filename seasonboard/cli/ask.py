"""`seasonboard ask`: one answer as text, JSON or CSV. A command for each question there is."""

from typing import TYPE_CHECKING, Any

import click

from seasonboard.answers.output import Output
from seasonboard.answers.questions import QUESTIONS, Question
from seasonboard.cli.answer_command import answer_command
from seasonboard.cli.lazy_group import MORE, NearestGroup
from seasonboard.cli.question_options import click_option, read_options, takes_options_of
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource


class Questions(NearestGroup):
    """The questions; each is loaded, with its answer, when it is asked."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - as click calls it
        """Return the names of the questions."""
        return [question.name for question in QUESTIONS]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Return the command of a question; None where there is none of that name."""
        for question in QUESTIONS:
            if question.name == cmd_name:
                return ask_command(question)
        return None

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
    from seasonboard.cli.ask_instead import INSTEAD

    report, instead = question.report(), INSTEAD.get(question.name)

    def ask_it(board: "AnswerSource", scope: Scope, **typed: Any) -> Output:  # noqa: ANN401 - by click
        if instead is not None and (wish := typed.pop(instead.option.name)) is not None:
            return instead.ask(board, scope, wish)
        answer = board.ask(question, scope, read_options(question, typed))
        if question.counts_checks:
            from seasonboard.answers.checks.counting import with_doubts

            answer = with_doubts(answer, board.doubts(scope, question.name))
        return report.output(answer, question.name)

    command = answer_command(question.cards)(ask_it)
    if instead is not None:
        command = click_option(instead.option)(command)
    command = takes_options_of(question)(command)
    lines = "\n".join(report.help())
    text = f"{question.asks}\n\n\b\nJSON:\n{lines}"
    named = click.command(question.name, help=text, short_help=question.asks, epilog=f"{MORE}ask")
    return named(command)
