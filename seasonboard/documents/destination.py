"""From a document to its file: which kind of file it is, where it goes, whole or not at all."""

from dataclasses import dataclass
from pathlib import Path

from seasonboard.documents.model import Document
from seasonboard.documents.writers.html import as_html
from seasonboard.documents.writers.pdf import as_pdf
from seasonboard.documents.writers.xlsx import as_workbook
from seasonboard.saving import files
from seasonboard.terms import nearest


@dataclass(frozen=True, slots=True)
class Destination:
    """Where a document goes; `may_replace` a file that is there."""

    path: Path
    may_replace: bool = False


ENDINGS = (".html", ".pdf", ".xlsx")
"""Of a file's name, which say what is made of a document."""


def read_destination(typed: Path | None, proposed: str, *, may_replace: bool) -> Destination:
    """Return where a document goes, before anything is asked of the store.

    None typed is the file `proposed` in the folder one is in.

    Raises:
        SavingError: The ending is none of `ENDINGS`, the folder is not there, or the file is.
    """
    path = Path(proposed) if typed is None else files.read_path(str(typed), "")
    ending, endings = path.suffix, ", ".join(ENDINGS)
    if not ending:
        raise files.SavingError(
            f"{path}: the name has no ending, so what to make of it is not known.",
            f"End it with one of {endings}.",
        )
    if ending.casefold() not in ENDINGS:
        near = nearest(ending, list(ENDINGS))
        meant = f"Did you mean “{path.with_suffix(near).name}”? " if near else ""
        raise files.SavingError(
            f"{path}: a document cannot be written as “{ending}”.",
            f"{meant}Expected one of {endings}.",
        )
    if path.exists() and not may_replace:
        raise files.SavingError(
            f"{path} is there already; nothing was written.",
            "Replace it with --force, or name another file with --out.",
        )
    return Destination(path, may_replace)


def document_bytes(document: Document, path: Path, paper: str) -> tuple[bytes, str]:
    """Return a document as its file's ending says, and what is to be said of it, mostly nothing.

    Raises:
        SeasonboardError: It could not be made.
    """
    ending = path.suffix.casefold()
    if ending == ".pdf":
        return as_pdf(document, paper)
    return (as_workbook(document) if ending == ".xlsx" else as_html(document, paper)), ""
