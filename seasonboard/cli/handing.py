"""What every command that makes a document takes, and how it writes it."""

import functools
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seasonboard.cli.asking import CURTAIN, scope_options
from seasonboard.cli.where import board_of, store_options
from seasonboard.scope import PARTS, Scope, read_scope

if TYPE_CHECKING:
    from seasonboard.answers.board import Board
    from seasonboard.documents.model import Document

OUT = click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="PATH",
    help="The file: .html, .pdf or .xlsx. Without it, a page in this folder, named after kind, "
    "department and date.",
)
PAPER = click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    default="a4",
    show_default=True,
    help="The paper it is printed on.",
)
FORCE = click.option("--force", is_flag=True, help="Replace a file that is there.")

Make = Callable[..., "Document"]


def hands_out(kind: str) -> Callable[[Make], Callable[..., None]]:
    """Make a command of a function from a board, a scope, a making and own options to a document.

    The command takes the store, every part of the scope, the function's own options, `--out`,
    `--paper`, `--curtain` and `--force`. A place that cannot be written to is told before
    anything is asked.
    """

    def command(make: Make) -> Callable[..., None]:
        @functools.wraps(make)
        def handing(  # noqa: PLR0913 - click hands over each option
            store: Path | None,
            *,
            use_sample: bool,
            curtain: bool,
            out: Path | None,
            paper: str,
            force: bool,
            **given: Any,  # noqa: ANN401 - as click hands the other options over
        ) -> None:
            from seasonboard.documents.making import make as written
            from seasonboard.documents.making import read_place
            from seasonboard.documents.origin import Making

            ctx = click.get_current_context()
            if out is not None:
                read_place(out, "", may_replace=force)
            parts = {part: given.pop(part.replace(" ", "_")) for part in PARTS}
            with board_of(ctx, store, use_sample=use_sample) as board:
                board.cover(is_down=curtain or ctx.obj["curtain"])
                asked = {part: text for part, text in parts.items() if text is not None}
                scope = read_scope(asked, board.known)
                place = read_place(out, _name(kind, board, scope), may_replace=force)
                own = _typed(given) + (("--paper letter",) if paper == "letter" else ())
                today = date.today()  # noqa: DTZ011 - the day on the clock of who makes it
                document = make(board, scope, Making(kind, today, own), **given)
            said = written(document, place, paper)
            click.echo(f"Written to {place.path}.")
            if said:
                click.echo(said, err=True)

        own = handing.__dict__.pop("__click_params__", [])
        plain = OUT(PAPER(CURTAIN(FORCE(handing))))
        plain.__dict__["__click_params__"] += own
        return store_options(scope_options(plain))

    return command


def _typed(given: dict[str, Any]) -> tuple[str, ...]:
    """Return the options of a document's own as they would be typed again."""
    told = {name.replace("_", "-"): value for name, value in given.items() if value is not None}
    return tuple(f"--{name} {value}" for name, value in told.items())


def _name(kind: str, board: "Board", scope: Scope) -> str:
    """Return a file's name of kind, department and date, and nothing else."""
    from seasonboard.documents.origin import label
    from seasonboard.saving.files import named

    return named(kind, label(board.known, scope), scope.through.isoformat(), ending=".html")
