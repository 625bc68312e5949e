"""The word that goes to the board when something was written into its store."""

from dataclasses import replace
from typing import TYPE_CHECKING

from textual.message import Message

from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.answers.board import Asker

UNDO = "u takes it back"


class StoreChanged(Message):
    """Something was written: every answer of the board is old. `said` tells what it was."""

    def __init__(self, said: str) -> None:
        """Keep the sentence."""
        super().__init__()
        self.said = said


def written(label: str, load_no: int) -> str:
    """Return the line that tells what was written."""
    return f"Written as load {load_no}: {label}. {UNDO}."


def look_again(asker: "Asker", scope: Scope) -> Scope:
    """Find out what the store knows by now; return the scope to go on with. Runs in a thread.

    A scope that ended with the last record still does; one of an empty store opens anew.
    """
    before = asker.known
    asker.look_again()
    if before.is_empty:
        return asker.opening_scope()
    last = asker.known.last_day
    if last is not None and scope.through == before.last_day:
        return replace(scope, through=last)
    return scope
