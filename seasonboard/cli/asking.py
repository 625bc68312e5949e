"""What every command that answers takes and prints."""

import json
from collections.abc import Callable
from typing import Any, TypeVar

import click

from seasonboard.answers.board import Board
from seasonboard.scope import PARTS, Scope, read_scope

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


def _asked(options: dict[str, str | None]) -> dict[str, str]:
    return {name.replace("_", " "): text for name, text in options.items() if text is not None}


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


def scope_of(board: Board, options: dict[str, str | None]) -> Scope:
    """Return the scope that the options ask for."""
    return read_scope(_asked(options), board.known)


def print_json(found: dict[str, Any]) -> None:
    """Print one answer as one JSON object."""
    click.echo(json.dumps(found, allow_nan=False, ensure_ascii=False, indent=1))
