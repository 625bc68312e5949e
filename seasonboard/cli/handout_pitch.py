"""`seasonboard handout pitch`."""

from typing import TYPE_CHECKING, Any

import click

from seasonboard.answers.questions import PITCH
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.document_command import hands_out_to_outsiders
from seasonboard.cli.question_options import read_options, takes_options_of
from seasonboard.documents.pitch.document import pitch_handout
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.documents.handout import Handed, Terms
    from seasonboard.documents.origin import Making


@click.command("pitch")
@hands_out_to_outsiders("pitch")
@takes_options_of(PITCH)
def handout_pitch(
    board: StoreAnswers,
    scope: Scope,
    making: "Making",
    terms: "Terms",
    **typed: Any,  # noqa: ANN401 - by click
) -> "Handed":
    """Make the page that a founder leaves with a new department: what a season could look like.

    For outsiders: no athlete, team or department of the store is named, and no count of 1 to 10
    can be worked out from it, alone or with what was handed out before. Its figures are those of
    ask pitch, compare, games, turnaround, remakes and take-up, in the same scope.
    """
    return pitch_handout(board, scope, making, terms, read_options(PITCH, typed))
