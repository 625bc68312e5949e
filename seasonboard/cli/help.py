"""`seasonboard help`: a topic in the terminal, the list of them, and the manual page."""

import shutil
import sys
from collections.abc import Iterator

import click

from seasonboard import __version__
from seasonboard.cli.lazy_group import MORE
from seasonboard.cli.services import Tools
from seasonboard.help.topics import TOPICS, list_markdown, topic_markdown

_WIDEST = 100
_SUMMARY = "custom-fit guards, availability and injuries over a season, with their uncertainty"


def _matching(_: click.Context, __: click.Parameter, begun: str) -> list[str]:
    """Return the topics that a shell may complete."""
    return [name for name in TOPICS if name.startswith(begun)]


@click.command("help")
@click.argument("topic", required=False, shell_complete=_matching)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "markdown"]),
    default="text",
    show_default=True,
    help="Text for this terminal, or the Markdown it is made from.",
)
@click.option("--man", "as_man", is_flag=True, help="Print all topics as a manual page.")
@click.pass_context
def help_on(ctx: click.Context, topic: str | None, form: str, *, as_man: bool) -> None:
    """Print a help topic; without one, list the topics.

    A command or screen may be named as well: its topic is printed. The same topics open under ?
    on the board.
    """
    tools: Tools = ctx.obj["tools"]
    if as_man:
        click.echo(_manual(tools), nl=False)
        return
    if topic is None:
        markdown = f"{list_markdown()}\n\n`seasonboard help TOPIC` prints a topic.\n"
    else:
        markdown = topic_markdown(_topic_of(ctx, topic), tools.help_part)
    if form == "markdown":
        click.echo(markdown, nl=False)
        return
    from seasonboard.help.rendering import rendered

    width = min(shutil.get_terminal_size().columns, _WIDEST)
    click.echo(rendered(markdown, width, styled=sys.stdout.isatty()), nl=False)


def _topic_of(ctx: click.Context, word: str) -> str:
    """Return the topic called `word`, or that of the command called so."""
    if word in TOPICS:
        return word
    for _, command, own in _commands(ctx.find_root()):
        if own.info_name == word and command.epilog:
            return command.epilog.removeprefix(MORE)
    return word


def _program() -> click.Context:
    from seasonboard.cli.main import cli

    return click.Context(cli, info_name="seasonboard")


def questions_markdown() -> str:
    """Return every question: how it is asked here, and what it asks."""
    rows = [
        f"| {own.info_name} | {command.short_help} |"
        for path, command, own in _commands(_program())
        if " ask " in path
    ]
    return "\n".join(["| `ask` | answers |", "| --- | --- |", *rows])


def commands_markdown() -> str:
    """Return every command with its options; those that every question takes stand once."""
    program = _program()
    listed = [("seasonboard", program.command, program), *_commands(program)]
    asked = [set(_options(own, command)) for path, command, own in listed if " ask " in path]
    shared = set.intersection(*asked)
    first = next(one for one in listed if " ask " in one[0])
    scope = [row for row in _options(first[2], first[1]) if row in shared]
    parts = [_table("Options of every question", "Documents take those of the scope.", scope)]
    for path, command, own in listed:
        rows = [row for row in _options(own, command) if row not in shared]
        usage = " ".join([path, *(piece for piece in command.collect_usage_pieces(own))])
        parts.append(_table(usage, command.short_help or "", rows))
    return "\n\n".join(parts)


def _table(title: str, sentence: str, rows: list[tuple[str, str]]) -> str:
    lines = [f"## {title}", ""]
    lines += [sentence, ""] if sentence else []
    if rows:
        lines += ["| option | does |", "| --- | --- |"]
    return "\n".join([*lines, *(f"| `{option}` | {does} |" for option, does in rows)]).rstrip()


def _options(ctx: click.Context, command: click.Command) -> list[tuple[str, str]]:
    """Return the options of a command with what they do, without `--help`."""
    options = (param for param in command.params if isinstance(param, click.Option))
    records = (option.get_help_record(ctx) for option in options)
    return [(name.replace("|", "\\|"), does) for name, does in filter(None, records)]


def _commands(ctx: click.Context) -> Iterator[tuple[str, click.Command, click.Context]]:
    """Give every command that does something: how it is called, itself, its context."""
    group = ctx.command
    if not isinstance(group, click.Group):
        return
    for name in group.list_commands(ctx):
        command = group.get_command(ctx, name)
        if command is not None:
            own = click.Context(command, info_name=name, parent=ctx)
            if isinstance(command, click.Group):
                yield from _commands(own)
            else:
                yield own.command_path, command, own


def _manual(tools: Tools) -> str:
    """Return the manual page: every topic, the board's first."""
    from seasonboard.help.roff import man_page

    sections = [topic_markdown(name, tools.help_part) for name in TOPICS]
    return man_page("seasonboard", __version__, _SUMMARY, sections)
