"""`seasonboard handout pitch`."""

from collections.abc import Callable
from dataclasses import fields
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from seasonboard.answers.pitch.parts import EffectLimits, PitchOptions
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.ask_pitch import PitchTools, ask_pitch
from seasonboard.cli.document_command import hands_out_to_outsiders
from seasonboard.documents.pitch.document import pitch_handout
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.documents.handout import Handed, Terms
    from seasonboard.documents.origin import Making

_Command = TypeVar("_Command", bound=Callable[..., Any])


def _asked_as_by_ask(command: _Command) -> _Command:
    """Give a command the options of `ask pitch` that say what is planned."""
    wanted = {"teams", *(field.name for field in fields(PitchOptions))}
    own = [param for param in ask_pitch.params if param.name in wanted]
    command.__dict__.setdefault("__click_params__", []).extend(reversed(own))
    return command


@click.command("pitch")
@hands_out_to_outsiders("pitch")
@_asked_as_by_ask
def handout_pitch(  # noqa: PLR0913 - click hands over each option
    board: StoreAnswers,
    scope: Scope,
    making: "Making",
    terms: "Terms",
    *,
    teams: Path | None,
    limits: str,
    **given: Any,  # noqa: ANN401 - the numbers of `PitchOptions`
) -> "Handed":
    """Make the page that a founder leaves with a new department: what a season could look like.

    For outsiders: no athlete, team or department of the store is named, and no count of 1 to 10
    can be worked out from it, alone or with what was handed out before. Its figures are those of
    ask pitch, compare, games, turnaround, remakes and take-up, in the same scope.
    """
    tools: PitchTools = click.get_current_context().obj["tools"]
    prospect = None if teams is None else tools.read_prospect(teams)
    options = PitchOptions(prospect=prospect, limits=EffectLimits(limits), **given)
    return pitch_handout(board, scope, making, terms, options)
