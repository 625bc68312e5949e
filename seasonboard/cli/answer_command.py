"""What every command that answers takes and prints."""

import functools
import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Generic, TypeVar

import click

from seasonboard.cli.store_options import board_of, store_options
from seasonboard.scope import PARTS, Scope, read_scope

if TYPE_CHECKING:
    from seasonboard.answers.cards import Card
    from seasonboard.answers.store_answers import StoreAnswers

Command = TypeVar("Command", bound=Callable[..., Any])
Answer = TypeVar("Answer")

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


@dataclass(frozen=True, slots=True)
class Told(Generic[Answer]):
    """One answer, how it is told in each form, and the exit status: 1 calls for attention."""

    answer: Answer
    json: Callable[[Answer], Mapping[str, Any]]
    text: Callable[[Answer], str]
    csv: Callable[[Answer], str]
    status: int = 0

    def told_as(self, form: str) -> str:
        """Return it as `text`, `json` (one object) or `csv`, with its last line ended."""
        if form == "json":
            found = self.json(self.answer)
            return json.dumps(found, allow_nan=False, ensure_ascii=False, indent=1) + "\n"
        return self.text(self.answer) if form == "text" else self.csv(self.answer)


def answers(cards: "Iterable[Card]") -> Callable[[Callable[..., Told[Any]]], Callable[..., None]]:
    """Make a command of a function from a board, a scope and options of its own to an answer.

    The command takes the store, every part of the scope, the function's own options, `--format`
    and `--explain`, which prints `cards` and asks nothing.
    """

    def command(ask: Callable[..., Told[Any]]) -> Callable[..., None]:
        @functools.wraps(ask)
        def asking(
            store: Path | None,
            *,
            use_sample: bool,
            form: str,
            explain: bool,
            curtain: bool,
            **given: Any,  # noqa: ANN401 - as click hands the other options over
        ) -> None:
            if explain:
                from seasonboard.answers.layout import cards_text

                click.echo(cards_text(cards), nl=False)
                return
            parts = {part: given.pop(part.replace(" ", "_")) for part in PARTS}
            with board_of(click.get_current_context(), store, use_sample=use_sample) as board:
                board.cover(is_down=curtain or click.get_current_context().obj["curtain"])
                told = ask(board, _scope(board, parts), **given)
            click.echo(told.told_as(form), nl=False)
            click.get_current_context().exit(told.status)

        own = asking.__dict__.pop("__click_params__", [])
        plain = FORMAT(EXPLAIN(CURTAIN(asking)))
        plain.__dict__["__click_params__"] += own
        return store_options(scope_options(plain))

    return command


def _scope(board: "StoreAnswers", parts: Mapping[str, str | None]) -> Scope:
    """Return the scope that the options ask for."""
    asked = {part: text for part, text in parts.items() if text is not None}
    return read_scope(asked, board.scope_values)
