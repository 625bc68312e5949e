"""`seasonboard handout week`."""

from typing import TYPE_CHECKING, Any

import click

from seasonboard.answers.questions import WEEK
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.document_command import hands_out
from seasonboard.cli.question_options import read_options, takes_options_of
from seasonboard.documents.model import Document
from seasonboard.documents.week.document import week_sheet
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.documents.origin import Making


@click.command("week")
@hands_out("week")
@takes_options_of(WEEK)
def handout_week(
    board: StoreAnswers,
    scope: Scope,
    making: "Making",
    **typed: Any,  # noqa: ANN401 - by click
) -> Document:
    """Make the sheet for the weekly meeting: changes, who can play, late orders, decisions.

    For insiders: it holds names, unless the curtain is down. Its figures are those of ask week,
    roster, orders, departments and checks, in the same scope.
    """
    return week_sheet(board, scope, making, read_options(WEEK, typed))
