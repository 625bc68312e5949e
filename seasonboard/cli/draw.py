"""`seasonboard draw`: who waits for a preventive guard gets a turn, in an order drawn at random."""

import secrets
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seasonboard.cli.answer_command import scope_options, scope_typed
from seasonboard.cli.interrupted import told_when_stopped
from seasonboard.cli.services import Tools
from seasonboard.cli.store_options import own_store, store_option
from seasonboard.errors import ScopeError
from seasonboard.scope import read_scope

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.answers.turns.planning import DrawPlan
    from seasonboard.scope import Scope

_SEEDS = 2**31


def _day(_: click.Context, option: click.Parameter, text: str | None) -> date | None:
    try:
        return None if text is None else date.fromisoformat(text)
    except ValueError:
        raise click.BadParameter(f"“{text}” is no day, such as 2026-09-07.", param=option) from None


@click.command()
@store_option
@scope_options
@click.option("--prints-per-week", type=int, metavar="N", help="Guards made a week; else its plan.")
@click.option(
    "--starts-on",
    callback=_day,
    metavar="DAY",
    help="First day of week 1; else the Monday after the draw.",
)
@click.option(
    "--ready-days",
    type=float,
    metavar="DAYS",
    help="Days from the turn to the fitted guard; else the department's own median.",
)
@click.option("--seed", type=int, metavar="N", help="Seed of the draw; else one is made.")
@click.option("--key", "draw_key", metavar="KEY", help="Key of the draw; else the next free one.")
@click.option(
    "--leave-out",
    multiple=True,
    metavar="ATHLETE",
    help="Whose need is medical: gets no turn, and need not wait for one.",
)
@click.option("--board-number", default="", metavar="TEXT", help="Number of the review board.")
@click.option(
    "--no-board-because",
    "no_board_reason",
    default="",
    metavar="TEXT",
    help="Why no review board is needed.",
)
@click.option("--plan", "plan_only", is_flag=True, help="Show what would be drawn, write nothing.")
@click.option("--yes", is_flag=True, help="Do not ask before writing.")
@click.pass_context
def draw(  # noqa: PLR0913 - one argument for each option
    ctx: click.Context,
    /,
    store: Path | None,
    *,
    seed: int | None,
    draw_key: str | None,
    plan_only: bool,
    yes: bool,
    **typed: Any,  # noqa: ANN401 - as click hands the other options over
) -> None:
    """Draw whose preventive guard comes first, among those who accepted one and wait.

    Turns are drawn in each team and position group, spread evenly, and cut into weeks of printing.
    The plan is shown first. The order is drawn when it is written; it is frozen from then on, and
    “seasonboard undo” takes the whole draw back. The draw is of today, or of the day that
    --through names. Guards made for return, and medical need, are never drawn.

    Drawing turns is research on people in many places, and the review board decides: its number,
    or why none is needed, is asked for and printed.
    """
    from seasonboard.answers.turns.planning import DrawOptions

    tools: Tools = ctx.obj["tools"]
    path = own_store(ctx, store)
    parts = {"through": datetime.now().astimezone().date().isoformat()} | scope_typed(typed)
    with tools.open_kept(path) as board:
        scope = read_scope(parts, board.scope_values)
        options = DrawOptions(
            seed=secrets.randbelow(_SEEDS) if seed is None else seed,
            draw=draw_key or board.lists.free_key("turns"),
            **typed,
        )
        plan = board.plan_draw(scope, options)
        for sentence in plan.sentences():
            click.echo(sentence)
        if plan_only:
            click.echo("Nothing was written.")
            return
        if not plan.board:
            what = "The draw is not frozen: the review board is not named."
            raise ScopeError(what, "Give --board-number, or say why none with --no-board-because.")
        asked = f"Draw the order now and freeze it in {path}?"
        if not (yes or click.confirm(asked, default=False, err=True)):
            click.echo("Nothing was written.")
            return
        with told_when_stopped(f"{path} is as it was"):
            _write(board, scope, plan)


def _write(board: "AnswerSource", scope: "Scope", plan: "DrawPlan") -> None:
    """Draw, freeze, and print the turns."""
    from dataclasses import replace

    from seasonboard.answers.questions import TURNS

    assert board.entry_writer is not None  # noqa: S101 - opened to be written to
    written = board.entry_writer.write(plan.entry())
    board.look_again()
    answer = board.ask(TURNS, replace(scope, departments=(plan.department,)))
    own = tuple(turn for turn in answer.turns if turn.draw == plan.options.draw)
    click.echo("")
    for line in TURNS.report().as_text(replace(answer, turns=own)).splitlines()[3:]:
        click.echo(line)
    click.echo(
        f"\nWritten as load {written.load_no}; “seasonboard undo” takes the draw back, "
        "“seasonboard handout turns” prints the list."
    )
