"""Which store a command means."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from seasonboard.cli.services import Tools
from seasonboard.errors import StoreError

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from seasonboard.answers.source import AnswerSource

_Command = TypeVar("_Command", bound=Callable[..., Any])


def _names_a_store(text: str) -> Callable[[_Command], _Command]:
    return click.option("--store", type=click.Path(path_type=Path), metavar="FILE", help=text)


store_option = _names_a_store("The store; without it, the last one opened.")
"""Names the store of a command that works on the store itself."""


def store_options(command: _Command) -> _Command:
    """Give a command `--store` and `--sample`."""
    sample = click.option(
        "--sample", "use_sample", is_flag=True, help="Ask the invented sample season."
    )
    return _names_a_store("The store to ask; without it, the last one opened.")(sample(command))


def named_store(
    ctx: click.Context, store: Path | None, *, hint: str = "Name one with --store FILE."
) -> Path:
    """Return the store that a command is about: the one named, else the one opened last.

    Raises:
        StoreError: There is neither, and `hint` says what to do; or the last one is gone.
    """
    tools: Tools = ctx.obj["tools"]
    named = store or ctx.obj["store"]
    if named is not None:
        return named
    last = tools.last_store()
    if last is None:
        raise StoreError("No store was named.", hint)
    if not last.exists():
        what = f"The store opened last is not there any more: {last}."
        raise StoreError(
            what, "Is its drive connected? Put it back, or name one with --store FILE."
        )
    return last


def own_store(ctx: click.Context, store: Path | None) -> Path:
    """Return the store that a command is about, which cannot be the sample season.

    Raises:
        UsageError: The sample season was asked for.
        StoreError: As `named_store`.
    """
    if ctx.obj["sample"]:
        raise click.UsageError(f"--sample does not go with {ctx.info_name}; name a store.")
    return named_store(ctx, store)


def board_of(
    ctx: click.Context, store: Path | None, *, use_sample: bool
) -> "AbstractContextManager[AnswerSource]":
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
    hint = "Name one with --store FILE, or ask the sample season with --sample."
    return tools.open_board(named_store(ctx, store, hint=hint))
