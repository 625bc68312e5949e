"""What a long command is doing, on one line of the terminal that goes when it is done."""

import sys
from typing import Self

import click

_TO_THE_START = "\r\x1b[K"


class ProgressLine:
    """Shows steps on standard error where that is a terminal; nothing of it stays."""

    def __init__(self) -> None:
        """Show nothing yet."""
        self._is_seen = sys.stderr.isatty()

    def show(self, step: str) -> None:
        """Show a step in the place of the one before."""
        if self._is_seen:
            click.echo(f"{_TO_THE_START}{step} …", nl=False, err=True)

    def clear(self) -> None:
        """Take the line away, before something else is said."""
        if self._is_seen:
            click.echo(_TO_THE_START, nl=False, err=True)

    def __enter__(self) -> Self:
        """Return itself; leaving the block takes the line away."""
        return self

    def __exit__(self, *error: object) -> None:
        """Take the line away."""
        self.clear()
