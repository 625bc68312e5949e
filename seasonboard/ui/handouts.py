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
from seasonboard.ui.offers import Further, Putting, Way

if TYPE_CHECKING:
    from seasonboard.answers.asker import Asker
    from seasonboard.documents.model import Document
    from seasonboard.documents.origin import Making

Make = Callable[["Asker", Scope, "Making", Any], "Document"]
"""Makes a document of answers, a scope, how it is made, and the options of its screen."""

FORMS = (
    ("html", "as a page", "HTML, opens anywhere", ".html", "a4"),
    ("pdf", "to print", "PDF, A4", ".pdf", "a4"),
    ("letter", "to print", "PDF, letter paper", ".pdf", "letter"),
    ("xlsx", "as a workbook", "XLSX, every row", ".xlsx", "a4"),
)
"""Of each form a word, how it is called, what it is, its ending, and its paper."""


def _nothing(_: object) -> tuple[str, ...]:
    return ()


@dataclass(frozen=True, slots=True)
class Handout:
    """A document that is offered.

    Attributes:
        kind: As on the command line.
        name: What it is, in words.
        make: Makes it; imports what it takes when it is called, in a thread.
        typed: The options of its screen as they are typed on the command line.
    """

    kind: str
    name: str
    make: Make
    typed: Callable[[Any], tuple[str, ...]] = _nothing


def offered_as(
    handout: Handout, asker: "Asker", scope: Scope, options: object
) -> tuple[Further, ...]:
    """Return a document in each of its forms, as the screen is now."""
    return tuple(
        Further(
            Way(f"{handout.kind} {word}", f"save {handout.name} {called}", beside, "document", end),
            handout.name.removeprefix("the "),
            partial(_path, end),
            partial(_put, handout, asker, scope, options, paper),
        )
        for word, called, beside, end, paper in FORMS
    )


def _path(ending: str, text: str) -> Path:
    from seasonboard.documents.making import read_place

    return read_place(files.read_path(text, ending), "", may_replace=True).path


def _put(  # noqa: PLR0913, PLR0917 - bound to a document, as the screen was
    handout: Handout, asker: "Asker", scope: Scope, options: object, paper: str, to: Putting
) -> str:
    from seasonboard.documents.making import made
    from seasonboard.documents.origin import Making

    own = handout.typed(options) + (("--paper letter",) if paper == "letter" else ())
    making = Making(handout.kind, to.about.saved_on, own)
    data, said = made(handout.make(asker, scope, making, options), to.path, paper)
    to.look()
    files.save({to.path: data}, may_replace=to.may_replace)
    return said


def _week_sheet(asker: "Asker", scope: Scope, making: "Making", options: Any) -> "Document":  # noqa: ANN401
    from seasonboard.documents.week import week_sheet

    return week_sheet(asker, scope, making, options)


WEEK_SHEET = Handout("week", "the weekly sheet", _week_sheet)
"""The sheet for the weekly meeting."""
