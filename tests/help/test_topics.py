"""Help names everything there is, in short sentences, and nothing that is not there."""

import pkgutil
import re
from importlib import import_module
from pathlib import Path

import click
import pytest
from textual.binding import Binding

import seasonboard.ui
from seasonboard.answers.questions import QUESTIONS, WITH_SCREENS
from seasonboard.cli.main import cli
from seasonboard.help.topics import TOPICS, titles, topic_markdown
from seasonboard.stored_tables import TABLES
from seasonboard.ui.all_screens import screen_class
from seasonboard.ui.log.menu import forms
from seasonboard.ui.windows.tour import STEPS
from seasonboard.wiring import help_part

ROOT = Path(__file__).resolve().parent.parent.parent
FOLDER = ROOT / "seasonboard" / "help"
HELP = {name: topic_markdown(name, help_part) for name in TOPICS}
SOURCES = {name: (FOLDER / f"{name}.md").read_text("utf-8") for name in TOPICS}
README = (ROOT / "README.md").read_text("utf-8")


def commands(group=cli, parent=None):
    """Give every command with how it is called: `("seasonboard ask roster", command)`."""
    own = click.Context(group, parent=parent, info_name=group.name if parent else "seasonboard")
    yield own.command_path, group
    if isinstance(group, click.Group):
        for name in group.list_commands(own):
            command = group.get_command(own, name)
            command.name = name
            yield from commands(command, own)


COMMANDS = dict(commands())
OPTIONS = {
    option
    for command in COMMANDS.values()
    for param in command.params
    if isinstance(param, click.Option)
    for option in (*param.opts, *param.secondary_opts)
}


def prose(markdown):
    """Give the paragraphs and list items of Markdown, without code, tables and headings."""
    text = re.sub(r"^```.*?^```$", "", markdown, flags=re.MULTILINE | re.DOTALL)
    for block in re.split(r"\n{2,}", text):
        if not block.startswith(("#", "|", "{{", "!")):
            yield from (" ".join(item.split()) for item in re.split(r"\n(?=- |\d+\. )", block))


def test_every_file_is_a_topic_and_has_a_title():
    assert {path.stem for path in FOLDER.glob("*.md")} == set(TOPICS)
    for name, title in titles().items():
        assert SOURCES[name].startswith(f"# {title}\n\n")
        assert len(title) <= 44, "one line in the list on the board"
        assert "{{" not in HELP[name], "every part that it leaves to the program is made"


@pytest.mark.parametrize("command", COMMANDS, ids=str)
def test_every_command_and_option_is_named(command):
    if isinstance(COMMANDS[command], click.Group) and command != "seasonboard":
        return
    assert re.search(rf"^## {command}( |$)", HELP["commands"], re.MULTILINE)
    for param in COMMANDS[command].params:
        if isinstance(param, click.Option):
            assert f"{param.opts[-1]} " in HELP["commands"].replace("`", " "), param.opts


def test_every_option_that_is_named_exists():
    written = "\n".join([README, *SOURCES.values()])
    named = set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", written))
    assert named - OPTIONS - {"--help"} == set()


def test_every_command_and_topic_that_is_named_exists():
    written = "\n".join([README, *SOURCES.values()])
    named = set(re.findall(r"seasonboard (ask \w[\w-]*|handout \w+|[a-z]+)\b", written))
    named -= {"is", "ask", "ask ro"}  # in prose, before “…”, and half typed
    assert {f"seasonboard {name}" for name in named} - set(COMMANDS) == set()
    written += "".join(command.epilog or "" for command in COMMANDS.values())
    topics = set(re.findall(r"seasonboard help ([a-z][a-z-]*)", written))
    assert topics - set(TOPICS) == set()
    assert len(topics) > 8


@pytest.mark.parametrize("board", WITH_SCREENS, ids=lambda board: board.name)
def test_every_screen_is_explained_under_its_key_and_question(board):
    heading = f"## {board.key} · {board.title}: {board.asks}\n\n"
    explained = HELP["screens"].partition(heading)[2].partition("\n\n## ")[0].strip()
    assert explained == screen_class(board.name).HELP


def test_every_question_is_named_and_is_a_command():
    asked = [path.split()[-1] for path in COMMANDS if path.startswith("seasonboard ask ")]
    assert asked == [question.name for question in QUESTIONS]
    for question in QUESTIONS:
        assert f"| {question.asks} | `{question.name}` |" in HELP["ask"]
        assert re.search(rf"^## seasonboard ask {question.name} ", HELP["commands"], re.MULTILINE)


@pytest.mark.parametrize("table", TABLES.values(), ids=lambda table: table.name)
def test_every_column_of_a_table_is_explained(table):
    heading = f"## {table.name}: {table.meaning}\n\nKey: {', '.join(table.key)}.\n\n"
    section = HELP["tables"].partition(heading)[2].partition("\n\n")[0]
    names = [line.split(" | ")[0].removeprefix("| ") for line in section.splitlines()[2:]]
    assert names == [f"{one.name}{'' if one.required else '?'}" for one in table.columns]
    for column, line in zip(table.columns, section.splitlines()[2:], strict=True):
        assert f" | {column.meaning}" in line
        assert column.unit in line
        assert line.count(",") >= len(column.words) - 1
        assert [word for word in column.words if word not in line] == []


def bound():
    """Give every binding of the board, with its class."""
    for module in pkgutil.walk_packages(seasonboard.ui.__path__, "seasonboard.ui."):
        for kind in vars(import_module(module.name)).values():
            if isinstance(kind, type) and kind.__module__ == module.name:
                own = kind.__dict__.get("BINDINGS", ())
                yield from ((kind, one) for one in own if isinstance(one, Binding))


def test_every_key_of_the_board_is_named_can_be_remapped_and_says_what_it_does():
    assert [one for _, one in bound() if not (one.id and one.tooltip and one.description)] == []
    missing = [
        (kind.__name__, one.id)
        for kind, one in bound()
        if f" {one.tooltip} |" not in HELP["keys"].replace(f"{one.description}: ", "")
        or f"`{(one.key_display or '').lower()}" not in HELP["keys"].lower()
    ]
    assert missing == []
    for form in forms(is_kept=True):
        assert f"| `{form.key}` | {form.title}: {form.asks} |" in HELP["keys"]


def test_every_key_that_the_tour_names_is_one_of_the_board():
    for key in ("s", "m", "f", "/", "^p", "?", ","):
        assert f"| `{key}` |" in HELP["keys"]
        assert any(key in told for _, told in STEPS)


@pytest.mark.parametrize("name", ["README", *TOPICS])
def test_sentences_have_at_most_thirty_words(name):
    paragraphs = list(prose(SOURCES.get(name, README)))
    sentences = [
        one for text in paragraphs for one in re.split(r"(?<=[.?!:])\s+(?=[A-Z“`*\[])", text)
    ]
    assert [one for one in sentences if len(one.split()) > 30] == []


def test_a_part_that_cannot_be_made_here_is_pointed_to():
    assert "seasonboard help keys" in topic_markdown("keys")
