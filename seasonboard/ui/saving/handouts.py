"""Documents that a screen gives away: how they are offered, and what makes them.

A document is the same as `seasonboard handout` makes: one more of them is one more `Handout`, named
in `HANDOUTS` of its screen.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from seasonboard.saving import files
from seasonboard.scope import Scope
from seasonboard.ui.saving.offers import Further, Putting, Way

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.documents.handout import Handed, Terms
    from seasonboard.documents.model import Document
    from seasonboard.documents.origin import Making

FORMS = (
    ("html", "as a page", "HTML, opens anywhere", ".html", "a4"),
    ("pdf", "to print", "PDF, A4", ".pdf", "a4"),
    ("letter", "to print", "PDF, letter paper", ".pdf", "letter"),
    ("xlsx", "as a workbook", "XLSX, every row", ".xlsx", "a4"),
)
"""Of each form a word, how it is called, what it is, its ending, and its paper."""


@dataclass(frozen=True, slots=True)
class At:
    """Where a document is asked for: the answers, the scope and the options of a screen.

    `store_path` gives the file of the store by its place; None where the board knows of none.
    """

    answer_source: "AnswerSource"
    scope: Scope
    options: Any
    store_path: Callable[[str], Path] | None = None


def _nothing(_: object) -> tuple[str, ...]:
    return ()


@dataclass(frozen=True, slots=True)
class Handout:
    """A document that is offered. What makes it is called in a thread, and imports what it takes.

    Attributes:
        kind: As on the command line.
        name: What it is, in words.
        make: Makes it for insiders.
        hand: Makes it for outsiders, on terms, with what the ledger keeps of it: the one or the
            other.
        typed: The options of its screen as they are typed on the command line.
    """

    kind: str
    name: str
    make: Callable[[At, "Making"], "Document"] | None = None
    hand: Callable[[At, "Making", "Terms"], "Handed"] | None = None
    typed: Callable[[Any], tuple[str, ...]] = _nothing


def offered_as(handout: Handout, at: At) -> tuple[Further, ...]:
    """Return a document in each of its forms; nothing where it could not be kept account of."""
    if handout.hand is not None and at.store_path is None:
        return ()
    return tuple(
        Further(
            Way(f"{handout.kind} {word}", f"save {handout.name} {called}", beside, "document", end),
            handout.name.removeprefix("the "),
            partial(_path, end),
            partial(_put, handout, at, paper),
            names_whom=handout.hand is None,
        )
        for word, called, beside, end, paper in FORMS
    )


def _path(ending: str, text: str) -> Path:
    from seasonboard.documents.destination import read_place

    return read_place(files.read_path(text, ending), "", may_replace=True).path


def _put(handout: Handout, at: At, paper: str, to: Putting) -> str:
    from seasonboard.documents.destination import made
    from seasonboard.documents.origin import Making

    own = handout.typed(at.options) + (("--paper letter",) if paper == "letter" else ())
    making = Making(handout.kind, to.about.saved_on, own)
    if handout.hand is not None:
        return _hand_out(partial(handout.hand, at, making), at, paper, to)
    assert handout.make is not None  # noqa: S101 - a document is for the ones or for the others
    data, summary = made(handout.make(at, making), to.path, paper)
    to.look()
    files.save({to.path: data}, may_replace=to.may_replace)
    return summary


def _hand_out(hand: Callable[["Terms"], "Handed"], at: At, paper: str, to: Putting) -> str:
    """Make a document for outsiders, look it over, put it in its place and keep account of it."""
    from seasonboard.documents.destination import Place
    from seasonboard.documents.handout import Terms, hand_out

    assert at.store_path is not None  # noqa: S101 - not offered without
    summary = hand_out(
        lambda earlier: hand(Terms(earlier=earlier)),
        store=at.store_path(at.answer_source.store_location),
        identities=at.answer_source.identities,
        place=Place(to.path, to.may_replace),
        paper=paper,
        look=to.look,
    )
    return " ".join(summary)


def _week_sheet(at: At, making: "Making") -> "Document":
    from seasonboard.documents.week.document import week_sheet

    return week_sheet(at.answer_source, at.scope, making, at.options)


def _pitch_handout(at: At, making: "Making", terms: "Terms") -> "Handed":
    from seasonboard.documents.pitch.document import pitch_handout

    return pitch_handout(at.answer_source, at.scope, making, terms, at.options)


def _typed_plan(options: Any) -> tuple[str, ...]:  # noqa: ANN401 - those of the Pitch screen
    from seasonboard.ui.forms.plan_form import typed_options

    return typed_options(options)


WEEK_SHEET = Handout("week", "the weekly sheet", make=_week_sheet)
"""The sheet for the weekly meeting."""
PITCH_HANDOUT = Handout("pitch", "the handout", hand=_pitch_handout, typed=_typed_plan)
"""The page that is left with a new department."""
