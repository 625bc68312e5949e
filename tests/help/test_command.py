"""`seasonboard help`: what it prints, how wide, and what a shell completes."""

import re
import shutil
import subprocess

import pytest
from click.shell_completion import BashComplete
from click.testing import CliRunner

from seasonboard.cli.main import cli
from seasonboard.help.rendering import rendered
from seasonboard.help.roff import man_page
from seasonboard.help.topics import TOPICS, titles
from seasonboard.wiring import make_tools
from tests.help.test_topics import COMMANDS, HELP


def help_on(*words, columns=80):
    """Run `seasonboard help …` and give what it printed and its status."""
    tools, name = {"tools": make_tools()}, "seasonboard"
    runner = CliRunner(env={"COLUMNS": str(columns)})
    done = runner.invoke(cli, ["help", *words], obj=tools, prog_name=name)
    return done.output, done.exit_code


def test_without_a_topic_each_is_listed_in_one_line():
    printed, status = help_on()
    assert status == 0
    for name, title in titles().items():
        assert re.search(rf"^ {name} +{re.escape(title)}$", printed, re.MULTILINE)


@pytest.mark.parametrize("name", TOPICS)
def test_a_topic_is_wrapped_for_the_terminal(name):
    for width in (60, 80, 100):
        lines = rendered(HELP[name], width, styled=False).splitlines()
        assert max(map(len, lines)) <= width
        assert lines[0] == HELP[name].partition("\n")[0].lstrip("# ")


def test_a_topic_is_plain_where_there_is_no_terminal_and_printed_as_it_is_written():
    assert help_on("log", columns=70) == (rendered(HELP["log"], 70, styled=False), 0)
    assert help_on("load", "--format", "markdown")[0] == HELP["load"]
    for command, topic in {"backup": "safe", "roster": "ask", "week": "ask"}.items():
        assert help_on(command) == help_on(topic)


def test_an_unknown_topic_names_the_nearest(run):
    done = run("help", "lode")
    assert (done.status, "Traceback" in done.err) == (2, False)
    assert "There is no help topic “lode”." in done.err
    assert "Nearest: load" in done.err


@pytest.mark.parametrize("command", COMMANDS, ids=str)
def test_every_help_ends_with_where_there_is_more(command):
    words = [*command.split()[1:], "--help"]
    done = CliRunner().invoke(cli, words, obj={"tools": make_tools()}, prog_name="seasonboard")
    last = done.output.rstrip().splitlines()[-1].strip()
    assert re.fullmatch(r"More: seasonboard help( [a-z]+)?", last)
    assert set(last.split()[3:]) <= set(TOPICS)


def test_text_is_bold_on_a_terminal_and_never_coloured():
    shown = rendered("# Title\n\nPress `m` **now**.", 40, styled=True)
    assert "\x1b[1m" in shown
    codes = {code for group in re.findall(r"\x1b\[([\d;]*)m", shown) for code in group.split(";")}
    assert codes <= {"0", "1", "4"}
    assert rendered("Press `m`.", 40, styled=False) == "Press `m`.\n"


@pytest.mark.parametrize(
    ("typed", "begun", "offered"),
    [(["ask"], "ro", ["roster"]), (["help"], "ex", ["exchange"]), ([], "un", ["undo"])],
)
def test_a_shell_completes_questions_and_topics(typed, begun, offered):
    shell = BashComplete(cli, {"obj": {}}, "seasonboard", "_SEASONBOARD_COMPLETE")
    assert [item.value for item in shell.get_completions(typed, begun)] == offered


@pytest.mark.long
def test_the_program_completes_as_help_tells_the_shell_to(run):
    told = "_SEASONBOARD_COMPLETE=bash_source seasonboard"
    assert told in HELP["completion"]
    name, _, value = told.split(maxsplit=1)[0].partition("=")
    script = run(env={name: value}, fresh=True).out
    assert "complete -o nosort -F _seasonboard_completion seasonboard" in script
    words = {"COMP_WORDS": "seasonboard ask ro", "COMP_CWORD": "2"}
    assert run(env={name: "bash_complete", **words}, fresh=True).out == "plain,roster\n"


def test_the_manual_page_holds_every_topic_and_command():
    page, status = help_on("--man")
    assert status == 0
    assert page.startswith('.TH SEASONBOARD 1 "" "seasonboard ')
    assert page.splitlines()[1] == ".SH NAME"
    assert page.count("\n.SH ") == len(TOPICS) + 2
    for command in COMMANDS:
        assert command.replace("-", "\\-") in page


def test_roff_takes_text_as_text():
    topic = "# A title\n\n.dot \\slash `--flag`\n\n## Under it\n"
    page = man_page("board", "1.0", "a board", [topic])
    assert page.splitlines() == [
        '.TH BOARD 1 "" "board 1.0"',
        *(".SH NAME", "board \\- a board", ".SH SYNOPSIS", "board [OPTIONS] [COMMAND]"),
        *('.SH "A TITLE"', ".nf", "\\&.dot \\eslash \\fB\\-\\-flag\\fR", ".fi"),
        *('.SS "Under it"', ".nf", "", ".fi"),
    ]


@pytest.mark.skipif(shutil.which("man") is None, reason="there is no man here")
def test_man_reads_the_page(tmp_path):
    path = tmp_path / "seasonboard.1"
    path.write_text(man_page("seasonboard", "1", "a board", [*HELP.values()]), "utf-8")
    env = {"LC_ALL": "C.UTF-8", "MANWIDTH": "80", "PATH": "/usr/bin:/bin"}
    asked = ["man", "--warnings", "-l", str(path)]
    done = subprocess.run(asked, capture_output=True, text=True, check=False, env=env)
    assert (done.returncode, done.stderr) == (0, "")
    shown = re.sub(".\b", "", done.stdout)
    for told in ("THREE WALKS", "seasonboard ask roster", "occurred_on", "--keep-good"):
        assert told in shown
