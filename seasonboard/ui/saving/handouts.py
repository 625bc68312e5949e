"""Documents that a screen gives away, offered in each of their forms.

A document is the same as `seasonboard handout` makes: one more of them is one more `DocumentKind`,
named in `DOCUMENTS` of its screen.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from seasonboard.documents.kinds import DocumentKind, DocumentRequest, write_document
from seasonboard.saving import files
from seasonboard.scope import Scope
from seasonboard.ui.saving.offers import ExtraFile, SaveChoice, SaveTarget

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource

FORMS = (
    ("html", "as a page", "HTML, opens anywhere", ".html", "a4"),
    ("pdf", "to print", "PDF, A4", ".pdf", "a4"),
    ("letter", "to print", "PDF, letter paper", ".pdf", "letter"),
    ("xlsx", "as a workbook", "XLSX, every row", ".xlsx", "a4"),
)
"""Of each form a word, how it is called, what it is, its ending, and its paper."""


@dataclass(frozen=True, slots=True)
class DocumentContext:
    """Where a document is asked for: the answers, the scope and the options of a screen.

    `store_path` gives the file of the store by its place; None where the board knows of none.
    `agree` is told what a document lacks, and raises where it is not to be saved so.
    """

    answer_source: "AnswerSource"
    scope: Scope
    options: Any
    store_path: Callable[[str], Path] | None = None
    agree: Callable[[tuple[str, ...]], None] = lambda _: None


def document_files(kind: DocumentKind, context: DocumentContext) -> tuple[ExtraFile, ...]:
    """Return a document in each of its forms; nothing where the store's place is not known."""
    if kind.is_for_outsiders and context.store_path is None:
        return ()
    return tuple(
        ExtraFile(
            SaveChoice(f"{kind.kind} {word}", f"save {kind.name} {form}", detail, "document", end),
            kind.name.removeprefix("the "),
            partial(_path, end),
            partial(_write, kind, context, paper),
            names_whom=not kind.quotes_release,
        )
        for word, form, detail, end, paper in FORMS
    )


def _path(ending: str, text: str) -> Path:
    from seasonboard.documents.destination import read_destination

    return read_destination(files.read_path(text, ending), "", may_replace=True).path


def _write(kind: DocumentKind, context: DocumentContext, paper: str, target: SaveTarget) -> str:
    from seasonboard.documents.destination import Destination

    source, store_path = context.answer_source, context.store_path

    def store() -> Path:
        assert store_path is not None  # noqa: S101 - not offered without
        return store_path(source.store_location)

    made_on = target.about.saved_on
    lines = write_document(
        DocumentRequest(kind, source, context.scope, context.options, made_on, paper),
        Destination(target.path, target.may_replace),
        store=store,
        check=target.check,
        agree=context.agree,
    )
    return " ".join(lines)
