"""A group whose commands are imported when they are called: `--version` needs none of them."""

import re
from collections.abc import Mapping
from importlib import import_module
from typing import ClassVar

import click

from seasonboard.terms import nearest

MORE = "More: seasonboard help "
"""What the last line of `--help` begins with; a topic follows."""


class NearestGroup(click.Group):
    """A group that names the nearest command where one is called that it has not."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command that is called; an unknown one is told with the nearest.

        Raises:
            click.UsageError: There is none of that name.
        """
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError as error:
            if near := nearest(args[0], self.list_commands(ctx)):
                told = f"{error.message} Did you mean “{near}”?"
                raise click.UsageError(told, ctx) from error
            raise


class LazyGroup(NearestGroup):
    """A group that knows its commands by the place they are written in."""

    places: ClassVar[Mapping[str, str]] = {}
    """Of every command its `module:name`."""
    topics: ClassVar[Mapping[str, str]] = {}
    """Of every command its help topic."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands' names in their order."""
        return [*super().list_commands(ctx), *self.places]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command, importing it; None where there is none of that name."""
        place = self.places.get(cmd_name)
        if place is None:
            return super().get_command(ctx, cmd_name)
        module, _, name = place.partition(":")
        command: click.Command = getattr(import_module(module), name)
        first_sentence = re.match(r"[^.?]*[.?]", (command.help or "").replace("\n", " "))
        if first_sentence:
            command.short_help = first_sentence[0]
        command.epilog = MORE + self.topics[cmd_name]
        return command
