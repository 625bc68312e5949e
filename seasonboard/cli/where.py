"""Which store a command means."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from seasonboard.cli.tools import Tools
from seasonboard.errors import StoreError

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from seasonboard.answers.board import Board

_Command = TypeVar("_Command", bound=Callable[..., Any])


def store_options(command: _Command) -> _Command:
    """Give a command `--store` and `--sample`."""
    command = click.option(
        "--sample", "use_sample", is_flag=True, help="Ask the invented sample season."
    )(command)
    return click.option(
        "--store",
        type=click.Path(path_type=Path),
        metavar="FILE",
        help="The store to ask; without it, the last one opened.",
    )(command)


def board_of(
    ctx: click.Context, store: Path | None, *, use_sample: bool
) -> "AbstractContextManager[Board]":
    """Return the board of the store that the options name, to be opened with `with`.

    Raises:
        StoreError: No store was named and none was opened before.
    """
    tools: Tools = ctx.obj["tools"]
    store = store or ctx.obj["store"]
    if use_sample or ctx.obj["sample"]:
        if store is not None:
            raise click.UsageError("--store and --sample exclude each other.")
        return tools.open_sample()
    store = store or tools.last_store()
    if store is None:
        raise StoreError(
            "No store was named.",
            "Name one with --store FILE, or ask the sample season with --sample.",
        )
    return tools.open_board(store)
