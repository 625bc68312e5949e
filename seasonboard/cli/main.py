"""`seasonboard`: its commands, its options, and what it says when something is wrong."""

from pathlib import Path
from typing import Any, ClassVar

import click

from seasonboard import __version__
from seasonboard.cli.lazy_group import MORE, LazyGroup
from seasonboard.cli.services import Tools
from seasonboard.errors import IntakeError, SeasonboardError

MOST_PROBLEMS = 40
"""Problems printed before the rest is only counted."""


class Refused(click.ClickException):
    """A request or its data was wrong: the message on standard error, exit status 2."""

    exit_code = 2

    def __init__(self, error: SeasonboardError) -> None:
        """Take the sentences of the error over."""
        super().__init__(error.what)
        self.error = error

    def show(self, file: Any = None) -> None:  # noqa: ANN401, ARG002 - click's signature
        """Print what is wrong, where, and what to do."""
        click.echo(f"seasonboard: {self.error.what}", err=True)
        if isinstance(self.error, IntakeError):
            for problem in self.error.problems[:MOST_PROBLEMS]:
                click.echo(f"  {problem.sentence()}", err=True)
            if len(self.error.problems) > MOST_PROBLEMS:
                click.echo(f"  and {len(self.error.problems) - MOST_PROBLEMS:,} more.", err=True)
        if self.error.hint:
            click.echo(self.error.hint, err=True)


class Commands(LazyGroup):
    """The commands; the program's own errors become messages, never tracebacks."""

    places: ClassVar = {
        **{name: f"seasonboard.cli.{name}:{name}" for name in ("ask", "load", "draw")},
        "undo": "seasonboard.cli.backup:undo",
        **{name: f"seasonboard.cli.{name}:{name}" for name in ("sample", "check", "handout")},
        "release": "seasonboard.cli.release:release",
        "evidence": "seasonboard.cli.evidence:evidence",
        **{name: f"seasonboard.cli.exchange:{name}" for name in ("bundle", "export")},
        **{name: f"seasonboard.cli.backup:{name}" for name in ("backup", "restore", "verify")},
        "help": "seasonboard.cli.help:help_on",
    }
    topics: ClassVar = {
        "ask": "ask",
        "check": "ask",
        "load": "load",
        "draw": "draw",
        "sample": "load",
        **dict.fromkeys(("handout", "release", "evidence"), "documents"),
        **dict.fromkeys(("bundle", "export"), "exchange"),
        **dict.fromkeys(("undo", "backup", "restore", "verify"), "safe"),
        "help": "completion",
    }

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401 - click's signature
        """Run the command."""
        try:
            return super().invoke(ctx)
        except SeasonboardError as error:
            raise Refused(error) from error


@click.group(
    cls=Commands,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog=MORE.strip(),
)
@click.version_option(__version__, prog_name="seasonboard")
@click.option("--store", type=click.Path(path_type=Path), metavar="FILE", help="The store to open.")
@click.option("--sample", "use_sample", is_flag=True, help="Open the invented sample season.")
@click.option("--curtain", is_flag=True, help="Begin with names covered by codes.")
@click.pass_context
def cli(ctx: click.Context, store: Path | None, *, use_sample: bool, curtain: bool) -> None:
    """Open the board, or put one question to a store.

    Links custom-fit guards to availability, games played and injuries over a season. Without a
    command the board opens: on the store named, else on the last one, else on the sample season.

    It reports what was recorded. Fit, injury and return decisions belong to licensed medical
    staff; whether a guard may be worn belongs to the sport's rules and officials.

    Exit status: 0 answered; 1 answered, but something needs attention; 2 the request or the data
    was wrong (a message on standard error); 130 or 143 stopped by Ctrl-C or the system.
    """
    tools: Tools = ctx.obj["tools"]
    ctx.obj["store"], ctx.obj["sample"], ctx.obj["curtain"] = store, use_sample, curtain
    if store is not None and use_sample:
        raise click.UsageError("--store and --sample exclude each other.")
    if ctx.invoked_subcommand is None:
        ctx.exit(tools.show_board(store, use_sample, curtain))
