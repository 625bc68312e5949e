"""What is said when a command is stopped."""

from collections.abc import Iterator
from contextlib import contextmanager

import click

from seasonboard.interruption import Stopped, stoppable


@contextmanager
def told_when_stopped(state: str) -> Iterator[None]:
    """Say in one sentence what a stopped command leaves, and end with the shell's status.

    Args:
        state: What is the case then, such as “season.duckdb is as it was”.
    """
    try:
        with stoppable():
            yield
    except Stopped as stopped:
        click.echo(f"\nseasonboard: Stopped; {state}.", err=True)
        raise click.exceptions.Exit(stopped.status) from stopped
