"""What every command that answers takes and prints: store, scope, options of the question."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from seasonboard.answers.options import Option, options_of, words_of
from seasonboard.answers.questions import Question
from seasonboard.cli.store_options import board_of, store_options
from seasonboard.prospect import Prospect
from seasonboard.scope import PARTS, read_scope

if TYPE_CHECKING:
    from seasonboard.answers.output import Output

Command = TypeVar("Command", bound=Callable[..., Any])

_SCOPE_HELP = {
    "season": "Seasons, as recorded.",
    "through": "Last day known, as 2026-11-14: rewinds to what was known that day.",
    "department": "Departments, by key or name.",
    "team": "Teams.",
    "sport": "Sports.",
    "sex": "women, men, mixed.",
    "position group": "Position groups, as in the roster.",
    "kind": "Guard kinds; their sites are studied. Without it, all kinds made.",
    "area": "Body areas, of those the kinds cover.",
    "side": "left, right, midline.",
    "made of": "What guards are made of: “lot PETG-03”, “printer bench 1”, “scan method phone”.",
    "purpose": "preventive (no earlier injury to the site), return, or all.",
    "outcome": "time loss (a day lost, or still out) or any.",
    "setting": "games, practices, or both.",
    "level": "Confidence level of the limits, as 0.95 or 95.",
}


def scope_options(command: Command) -> Command:
    """Give a command every part of the scope as an option."""
    for part in reversed(PARTS):
        command = click.option(
            f"--{part.replace(' ', '-')}", part.replace(" ", "_"), help=_SCOPE_HELP[part]
        )(command)
    return command


FORMAT = click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "csv"]),
    default="text",
    show_default=True,
    help="Text to read, one JSON object (unrounded), or the table as CSV.",
)
EXPLAIN = click.option(
    "--explain", is_flag=True, help="Print how each number is made instead of the answer."
)
CURTAIN = click.option(
    "--curtain", is_flag=True, help="Cover names, jerseys and free text; athletes become codes."
)


def answer_command(
    ask: Callable[..., "Output"], question: Question[Any, Any]
) -> Callable[..., None]:
    """Make the function of a command of one that asks a board within a scope.

    The command takes the store, every part of the scope, options of its own, `--format`, and
    `--explain`, which prints the method cards and asks nothing.
    """

    def asking(
        store: Path | None,
        *,
        use_sample: bool,
        form: str,
        explain: bool,
        curtain: bool,
        **typed: Any,  # noqa: ANN401 - as click hands the other options over
    ) -> None:
        context = click.get_current_context()
        if explain:
            from seasonboard.answers.layout import cards_text

            click.echo(cards_text(question.cards().values()), nl=False)
            return
        parts = scope_typed(typed)
        with board_of(context, store, use_sample=use_sample) as board:
            board.cover(is_down=curtain or context.obj["curtain"])
            output = ask(board, read_scope(parts, board.scope_values), **typed)
            text = {"text": output.text, "json": output.json, "csv": output.csv}[form]()
        click.echo(text, nl=False)
        context.exit(output.status)

    return store_options(scope_options(FORMAT(EXPLAIN(CURTAIN(asking)))))


def scope_typed(typed: dict[str, Any]) -> dict[str, str]:
    """Take the parts of the scope from the options that were typed."""
    parts = {part: typed.pop(part.replace(" ", "_")) for part in PARTS}
    return {part: text for part, text in parts.items() if text is not None}


def with_options_of(kind: type | None, command: Command) -> Command:
    """Give a command what a class of options takes, beside its scope."""
    for one in () if kind is None else reversed(tuple(options_of(kind))):
        command = click_option(one)(command)
    return command


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


def read_options(kind: type | None, typed: dict[str, Any]) -> Any:  # noqa: ANN401 - its options
    """Return what was typed as the options of a question; None where it has none.

    A command gives the whole answer, also what the board works out only when it is asked for.

    Raises:
        ScopeError: Something that was typed cannot be read.
        IntakeError: A table that was named cannot be read.
    """
    if kind is None:
        return None
    whole = {"is_whole": True} if hasattr(kind, "is_whole") else {}
    return kind(**{one.name: _value(one, typed[one.name]) for one in options_of(kind)}, **whole)


def _value(one: Option, typed: Any) -> Any:  # noqa: ANN401 - by its kind
    if typed is None:
        return one.default
    if one.kind is Prospect:
        return click.get_current_context().obj["tools"].read_prospect(typed)
    if one.parse is not None:
        return one.parse(typed)
    return one.kind(typed) if words_of(one.kind) else typed
