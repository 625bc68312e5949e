"""`seasonboard help`: a topic in the terminal, the list of them, and the manual page."""

import shutil
import sys
from collections.abc import Iterable, Iterator

import click

from seasonboard import __version__
from seasonboard.cli.lazy_group import MORE
from seasonboard.cli.services import Tools
from seasonboard.help.topics import TOPICS, titles, topic_markdown

_WIDEST = 100
_SUMMARY = "custom-fit guards, availability and injuries over a season, with their uncertainty"


@click.command("help")
@click.argument(
    "topic",
    required=False,
    shell_complete=lambda _, __, begun: [name for name in TOPICS if name.startswith(begun)],
)
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

    A command or question may be named as well: its topic is printed. The same topics open under ?
    on the board.
    """
    tools: Tools = ctx.obj["tools"]
    if as_man:
        from seasonboard.help.roff import man_page

        sections = (topic_markdown(name, tools.help_part) for name in TOPICS)
        click.echo(man_page("seasonboard", __version__, _SUMMARY, sections), nl=False)
        return
    if topic is None:
        listed = _table(("topic", "about"), titles().items())
        markdown = f"{listed}\n\n`seasonboard help TOPIC` prints a topic.\n"
    else:
        markdown = topic_markdown(_topic_of(ctx, topic), tools.help_part)
    if form == "text":
        _show(markdown)
    else:
        click.echo(markdown, nl=False)


def _show(markdown: str) -> None:
    """Print Markdown as text; what is longer than the terminal goes through its pager."""
    from seasonboard.help.rendering import rendered

    columns, height = shutil.get_terminal_size()
    is_terminal = sys.stdout.isatty()
    text = rendered(markdown, min(columns, _WIDEST), styled=is_terminal)
    if is_terminal and text.count("\n") >= height:
        click.echo_via_pager(text)
    else:
        click.echo(text, nl=False)


def _topic_of(ctx: click.Context, word: str) -> str:
    """Return the topic of the command called `word`, else `word`."""
    if word in TOPICS:
        return word
    named = (one.command.epilog for one in _commands(ctx.find_root()) if one.info_name == word)
    return (next(named, None) or word).removeprefix(MORE)


def commands_markdown() -> str:
    """Return every command with its options; those that every question takes stand once."""
    listed = [_program(), *_commands(_program())]
    asked = [_options(own) for own in listed if " ask " in own.command_path]
    shared = {name: does for name, does in asked[0].items() if all(name in one for one in asked)}
    heads = ("option", "does")
    parts = ["## Options of every question", _table(heads, shared.items())]
    for own in listed:
        usage = [own.command_path, *own.command.collect_usage_pieces(own)]
        parts += [f"## {' '.join(usage)}", own.command.short_help or ""]
        rows = [row for row in _options(own).items() if row not in shared.items()]
        parts += [_table(heads, rows)] if rows else []
    return "\n\n".join(filter(None, parts))


def _program() -> click.Context:
    from seasonboard.cli.main import cli

    return click.Context(cli, info_name="seasonboard")


def _commands(ctx: click.Context) -> Iterator[click.Context]:
    if not isinstance(ctx.command, click.Group):
        yield ctx
        return
    for name in ctx.command.list_commands(ctx):
        command = ctx.command.get_command(ctx, name)
        if command is not None:
            yield from _commands(click.Context(command, info_name=name, parent=ctx))


def _options(ctx: click.Context) -> dict[str, str]:
    options = (param for param in ctx.command.params if isinstance(param, click.Option))
    records = filter(None, (option.get_help_record(ctx) for option in options))
    return {f"`{name}`".replace("|", "\\|"): does for name, does in records}


def _table(heads: tuple[str, str], rows: Iterable[tuple[str, str]]) -> str:
    return "\n".join(f"| {left} | {right} |" for left, right in (heads, ("---", "---"), *rows))
