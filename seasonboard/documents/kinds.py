"""Every document that can be made, a line each; `handout`, its help and screens go by these.

What makes a document lies below `documents/`: a function of answers, scope, making and options that
gives a `Document`; where it quotes a release it takes that and a kind of guard in the place of the
scope.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from seasonboard.answers.options import as_typed
from seasonboard.answers.questions import PITCH, RECALL, TURNS, WEEK, Question
from seasonboard.saving import files
from seasonboard.scope import Scope

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.documents.destination import Destination
    from seasonboard.documents.model import Document
    from seasonboard.documents.origin import Making


@dataclass(frozen=True, slots=True)
class DocumentKind:
    """One kind of document, as in `handout KIND`, with the options of its question or its own.

    `maker` is the module and the function that make it, `about` says for help what it is and for
    whom. One that `quotes_release` holds figures of a release alone; for outsiders nobody is named
    in it either, and no small count may be worked out.
    """

    kind: str
    question: Question[Any, Any]
    name: str
    maker: str
    about: str
    quotes_release: bool = False
    is_for_outsiders: bool = False
    own_options: str = ""

    def make(self, *asked: Any) -> Any:  # noqa: ANN401 - a `Document`
        """Make it, loading what does."""
        return _loaded(self.maker)(*asked)

    def options(self) -> type | None:
        """Return what it may be asked with."""
        return _loaded(self.own_options) if self.own_options else self.question.options()

    def file_name(self, source: "AnswerSource", scope: Scope) -> str:
        """Return a file's name of kind, department (not for outsiders) and day."""
        from seasonboard.documents.origin import department_label

        whose = "" if self.quotes_release else department_label(source.scope_values, scope)
        return files.named(self.kind, whose, scope.through.isoformat(), ending=".html")


def _loaded(name: str) -> Any:  # noqa: ANN401 - whatever is called so
    module, _, attribute = name.partition(":")
    return getattr(import_module(f"seasonboard.documents.{module}"), attribute)


WEEK_SHEET = DocumentKind(
    "week",
    WEEK,
    "the weekly sheet",
    "week.document:week_sheet",
    "Make the sheet for the weekly meeting: changes, who can play, late orders, decisions.\n\n"
    "For insiders: it holds names, unless the curtain is down. Its figures are those of ask week, "
    "capacity, roster, orders, departments and checks, in the same scope.",
)
_OFFER_OPTIONS = "proposal.options:ProposalOptions"
PROPOSAL = DocumentKind(
    "proposal",
    PITCH,
    "the offer",
    "proposal.document:proposal",
    "Make an offer to a new department: two pages with two plans, and the evidence behind them.\n\n"
    "For outsiders: no athlete, team or department of the store is named. It holds the figures of "
    "the last release (seasonboard release), over all departments, for one kind of guard; what "
    "follows from them; and what is given here for the prospect. Nothing else can be chosen.",
    quotes_release=True,
    is_for_outsiders=True,
    own_options=_OFFER_OPTIONS,
)
NOTES = DocumentKind(
    "notes",
    PITCH,
    "the notes to the offer",
    "proposal.notes:founder_notes",
    "Make notes for who makes an offer: what it lacks, what not to claim, what will be asked.\n\n"
    "For insiders: it says what is hidden from outsiders and why, and whose agreement is missing. "
    "It takes what the offer takes; --show prints it and writes nothing.",
    quotes_release=True,
    own_options=_OFFER_OPTIONS,
)
TURNS_LIST = DocumentKind(
    "turns",
    TURNS,
    "the list of turns",
    "turns.document:turns_list",
    "Make the list of drawn turns for the shop: whose guard is made in which week.\n\n"
    "For insiders: it holds names, unless the curtain is down. It says how each draw was made and "
    "what the review board said. A department gets its own with --department. Its figures are "
    "those of ask turns, in the same scope.",
)
RECALL_SHEET = DocumentKind(
    "recall",
    RECALL,
    "the recall sheet",
    "recall.document:recall_sheet",
    "Make the list of guards made alike: who wears one, and when their team plays next.\n\n"
    "For insiders: it holds names, unless the curtain is down. Name the lot with --lot, or another "
    "part with --made-of. Its figures are those of ask recall, in the same scope.",
)
DOCUMENTS = (WEEK_SHEET, PROPOSAL, NOTES, TURNS_LIST, RECALL_SHEET)


@dataclass(frozen=True, slots=True)
class DocumentRequest:
    """A document that is asked for: which, of what, on which day, on `a4` or `letter` paper.

    One that quotes a release takes of the scope the kind of guard alone, where there is one.
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

    def document(self) -> "Document":
        """Make it.

        Raises:
            SeasonboardError: It could not be made.
        """
        asked: tuple[Any, ...] = (self.source, self.scope)
        if self.kind.quotes_release:
            from seasonboard.releases.reading import ReleaseMemory, current_release

            kinds, memory = self.scope.kinds, ReleaseMemory(self.source.releases_path)
            kind = kinds[0] if len(kinds) == 1 else None
            asked = (self.source, current_release(self.source, memory), kind)
        made: Document = self.kind.make(*asked, self.making(), self.options)
        return made


def write_document(
    request: DocumentRequest,
    destination: "Destination",
    *,
    store: Callable[[], Path],
    check: Callable[[], None] = lambda: None,
    agree: Callable[[tuple[str, ...]], None] = lambda _: None,
) -> tuple[str, ...]:
    """Make a document and put it in its place, whole or not at all; return what to say of it.

    One for outsiders is scanned for identifiers of the store, whose file `store` gives. `agree` is
    told what a main part lacks, and `check` is asked, just before it is written; both raise where
    it may not be after all.

    Raises:
        SavingError: It could not be written; what was there is as it was.
        SeasonboardError: It could not be made, or may not go out.
    """
    from seasonboard.documents.destination import document_bytes

    document = request.document()
    if document.hollow:
        agree(document.hollow)
    if request.kind.is_for_outsiders:
        from seasonboard.documents.handout import hand_out

        return hand_out(request, document, destination, store=store(), check=check)
    data, summary = document_bytes(document, destination.path, request.paper)
    check()
    files.save({destination.path: data}, may_replace=destination.may_replace)
    return (summary,) if summary else ()
