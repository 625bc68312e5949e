"""`seasonboard handout week`."""

from typing import TYPE_CHECKING

import click

from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.answers.week.parts import WeekOptions
from seasonboard.cli.ask_week import read_since
from seasonboard.cli.document_command import hands_out
from seasonboard.documents.model import Document
from seasonboard.documents.week.document import week_sheet
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.documents.origin import Making


@click.command("week")
@hands_out("week")
@click.option(
    "--since",
    metavar="DATE",
    help="Last day already talked about, as 2026-11-07. Without it, seven days before “through”.",
)
def handout_week(
    board: StoreAnswers, scope: Scope, making: "Making", *, since: str | None
) -> Document:
    """Make the sheet for the weekly meeting: changes, who can play, late orders, decisions.

    For insiders: it holds names, unless the curtain is down. Its figures are those of ask week,
    roster, orders, departments and checks, in the same scope.
    """
    return week_sheet(board, scope, making, WeekOptions(read_since(since)))
