"""Every document that can be made, a line each; `handout`, its help and screens go by these.

What makes a document lies in `documents/<kind>/document.py`: for insiders a function of answers,
scope, making and options that gives a `Document`; for outsiders it takes a release and a kind of
guard in the place of the scope.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from seasonboard.answers.options import as_typed
from seasonboard.answers.questions import PITCH, TURNS, WEEK, Question
from seasonboard.saving import files
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.documents.destination import Destination
    from seasonboard.documents.origin import Making


@dataclass(frozen=True, slots=True)
class DocumentKind:
    """One kind of document, as in `handout KIND`, with the options of its question.

    `maker` is the function that makes it, `about` says for help what it is and for whom. For
    outsiders nobody is named in it, and no small count may be worked out.
    """

    kind: str
    question: Question[Any, Any]
    name: str
    maker: str
    about: str
    is_for_outsiders: bool = False

    def make(self, *asked: Any) -> Any:  # noqa: ANN401 - a `Document`
        """Make it, loading what does."""
        module = import_module(f"seasonboard.documents.{self.kind}.document")
        return getattr(module, self.maker)(*asked)

    def file_name(self, source: "AnswerSource", scope: Scope) -> str:
        """Return a file's name of kind, department (not for outsiders) and day."""
        from seasonboard.documents.origin import department_label

        whose = "" if self.is_for_outsiders else department_label(source.scope_values, scope)
        return files.named(self.kind, whose, scope.through.isoformat(), ending=".html")


WEEK_SHEET = DocumentKind(
    "week",
    WEEK,
    "the weekly sheet",
    "week_sheet",
    "Make the sheet for the weekly meeting: changes, who can play, late orders, decisions.\n\n"
    "For insiders: it holds names, unless the curtain is down. Its figures are those of ask week, "
    "capacity, roster, orders, departments and checks, in the same scope.",
)
PITCH_HANDOUT = DocumentKind(
    "pitch",
    PITCH,
    "the handout",
    "pitch_handout",
    "Make the page that a founder leaves with a new department: what a season could look like.\n\n"
    "For outsiders: no athlete, team or department of the store is named. It holds the figures of "
    "the last release (seasonboard release), over all departments, for one kind of guard; what "
    "follows from them; and what is given here for the prospect. Nothing else can be chosen.",
    is_for_outsiders=True,
)
TURNS_LIST = DocumentKind(
    "turns",
    TURNS,
    "the list of turns",
    "turns_list",
    "Make the list of drawn turns for the shop: whose guard is made in which week.\n\n"
    "For insiders: it holds names, unless the curtain is down. It says how each draw was made and "
    "what the review board said. A department gets its own with --department. Its figures are "
    "those of ask turns, in the same scope.",
)
DOCUMENTS = (WEEK_SHEET, PITCH_HANDOUT, TURNS_LIST)


@dataclass(frozen=True, slots=True)
class DocumentRequest:
    """A document that is asked for: which, of what, on which day, on `a4` or `letter` paper.

    One for outsiders takes of the scope the kind of guard alone, where there is one.
    """

    kind: DocumentKind
    source: "AnswerSource"
    scope: Scope
    options: Any
    made_on: date
    paper: str = "a4"

    def making(self) -> "Making":
        """Return how it is made: with what it would be typed on the command line."""
        from seasonboard.documents.origin import Making

        paper = ("--paper letter",) if self.paper == "letter" else ()
        return Making(self.kind.kind, self.made_on, (*as_typed(self.options), *paper))


def write_document(
    request: DocumentRequest,
    destination: "Destination",
    *,
    store: Callable[[], Path],
    check: Callable[[], None] = lambda: None,
) -> tuple[str, ...]:
    """Make a document and put it in its place, whole or not at all; return what to say of it.

    One for outsiders quotes the last release of the store, whose file `store` gives, and is scanned
    for identifiers. `check` is asked just before it is written, and raises where it may not be
    after all.

    Raises:
        SavingError: It could not be written; what was there is as it was.
        SeasonboardError: It could not be made, or may not go out.
    """
    if request.kind.is_for_outsiders:
        from seasonboard.documents.handout import hand_out

        return hand_out(request, destination, store=store(), check=check)
    from seasonboard.documents.destination import document_bytes

    document = request.kind.make(request.source, request.scope, request.making(), request.options)
    data, summary = document_bytes(document, destination.path, request.paper)
    check()
    files.save({destination.path: data}, may_replace=destination.may_replace)
    return (summary,) if summary else ()
