"""The options of a question as options of a command: made from their description, and read."""

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from seasonboard.answers.options import Option, options_of, words_of
from seasonboard.answers.questions import Question
from seasonboard.prospect import Prospect

CommandT = TypeVar("CommandT", bound=Callable[..., Any])


def question_options(question: Question[Any, Any]) -> tuple[Option, ...]:
    """Return what a question may be asked with, beside its scope."""
    kind = question.options()
    return () if kind is None else tuple(options_of(kind))


def takes_options_of(question: Question[Any, Any]) -> Callable[[CommandT], CommandT]:
    """Give a command the options of a question."""

    def taking(command: CommandT) -> CommandT:
        for one in reversed(question_options(question)):
            command = click_option(one)(command)
        return command

    return taking


def click_option(one: Option) -> Any:  # noqa: ANN401 - a decorator of click
    """Return an option as one of a command."""
    if one.kind is bool:
        return click.option(one.flag, one.name, is_flag=True, help=one.help)
    words = words_of(one.kind)
    kind: Any = click.Choice(words) if words else one.kind
    if one.kind is Prospect:
        kind = click.Path(path_type=Path, dir_okay=False)
    default = str(one.default) if one.default is not None and (words or one.parse) else one.default
    return click.option(
        one.flag,
        one.name,
        type=kind,
        default=default,
        show_default=default not in {None, ""},
        metavar=one.metavar,
        help=one.help,
    )


def read_options(question: Question[Any, Any], typed: dict[str, Any]) -> Any:  # noqa: ANN401 - its options
    """Return what was typed as the options of a question; None where it has none.

    Raises:
        ScopeError: Something that was typed cannot be read.
        IntakeError: A table that was named cannot be read.
    """
    kind = question.options()
    if kind is None:
        return None
    return kind(**{one.name: _value(one, typed[one.name]) for one in options_of(kind)})


def _value(one: Option, typed: Any) -> Any:  # noqa: ANN401 - by its kind
    if typed is None:
        return one.default
    if one.kind is Prospect:
        return click.get_current_context().obj["tools"].read_prospect(typed)
    if one.parse is not None:
        return one.parse(typed)
    return one.kind(typed) if words_of(one.kind) else typed
