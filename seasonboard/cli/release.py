"""`seasonboard release`: the figures that every document for outsiders quotes."""

from contextlib import ExitStack
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from seasonboard.cli.interrupted import told_when_stopped
from seasonboard.cli.services import Tools
from seasonboard.cli.store_options import named_store, store_options
from seasonboard.errors import SeasonboardError

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.releases.reading import ReleaseMemory


@click.command()
@store_options
@click.option("--plan", "plan_only", is_flag=True, help="Show what it would hold, write nothing.")
@click.option("--yes", is_flag=True, help="Do not ask before writing.")
@click.option(
    "--agreed",
    metavar="DEPARTMENT",
    help="Record first that this department agreed in writing to figures of few departments.",
)
@click.option(
    "--agreement", default="", metavar="TEXT", help="What it agreed to, by whom and when."
)
@click.option(
    "--never-out",
    metavar="KEY",
    help="Forget a release that is not in the store, since no outsider ever saw it.",
)
@click.pass_context
def release(  # noqa: PLR0913 - one argument for each option
    ctx: click.Context,
    store: Path | None,
    *,
    use_sample: bool,
    plan_only: bool,
    yes: bool,
    agreed: str | None,
    agreement: str,
    never_out: str | None,
) -> None:
    """Release figures for outsiders: once, numbered and dated, over all departments.

    Every document for outsiders quotes the last release and nothing else. It holds counts by kind
    of guard, by sport and sex, and by plan. No count of 1 to 10 is told, nor what one could be
    worked out from, beside earlier releases either. A kind for which that cannot be is quoted as
    it was.

    Figures on health come from three departments or more, none with more than 80 % of the
    injuries; else it takes the written agreement of those departments.

    What it would hold is shown first. A release stays as it is; a later one holds what changed.
    """
    tools: Tools = ctx.obj["tools"]
    with ExitStack() as stack:
        path = _store_path(ctx, tools, store, use_sample=use_sample, stack=stack)
        board = stack.enter_context(tools.open_kept(path))
        today = datetime.now().astimezone().date()
        memory = _memory(board)
        if never_out:
            memory.forget(never_out)
        if agreed:
            _record(board, agreed, agreement, today)
        _make(board, memory, today, path, plan_only=plan_only, yes=yes)


def _store_path(
    ctx: click.Context, tools: Tools, store: Path | None, *, use_sample: bool, stack: ExitStack
) -> Path:
    """Return the store; the sample is not remembered as the last one opened."""
    if not (use_sample or ctx.obj["sample"]):
        return named_store(ctx, store)
    last = tools.last_store()
    if last is not None:
        stack.callback(tools.remember_store, last)
    return tools.sample_path()


def _memory(board: "AnswerSource") -> "ReleaseMemory":
    from seasonboard.releases.reading import ReleaseMemory

    return ReleaseMemory(board.releases_path)


def _record(board: "AnswerSource", department: str, text: str, today: date) -> None:
    from seasonboard.entries import Entry

    if not text.strip():
        raise SeasonboardError(
            "An agreement without its words is none.",
            "Say what was agreed, by whom and when, with --agreement.",
        )
    row = {"department": department, "agreed_on": today.isoformat(), "words": text}
    assert board.entry_writer is not None  # noqa: S101 - opened to be written to
    board.entry_writer.write(Entry(f"agreement of {department}", {"agreements": [row]}))


def _make(  # noqa: PLR0913 - one for each thing that is asked
    board: "AnswerSource",
    memory: "ReleaseMemory",
    today: date,
    path: Path,
    *,
    plan_only: bool,
    yes: bool,
) -> None:
    from seasonboard.releases.making import make_release, plan_release
    from seasonboard.releases.text import plan_lines

    plan = plan_release(board, memory, today, lambda kind: click.echo(kind, err=True))
    for line in plan_lines(plan):
        click.echo(line)
    asked = f"Release this now, and freeze it in {path}?"
    if plan_only or not (yes or click.confirm(asked, default=False, err=True)):
        click.echo("Nothing was released.")
        return
    with told_when_stopped(f"{path} is as it was"):
        make_release(board, memory, plan)
    click.echo(f"Released as {plan.release.key}. “seasonboard handout proposal” quotes it.")
