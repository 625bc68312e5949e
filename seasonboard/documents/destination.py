"""From a document to its file: which kind of file it is, where it goes, whole or not at all."""

from collections.abc import Callable, Mapping
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


def _page(document: Document, paper: str) -> tuple[bytes, str]:
    return as_html(document, paper), ""


def _print(document: Document, paper: str) -> tuple[bytes, str]:
    printed = as_pdf(document, paper)
    return printed.data, printed.summary


def _workbook(document: Document, _: str) -> tuple[bytes, str]:
    return as_workbook(document), ""


ENDINGS: Mapping[str, Callable[[Document, str], tuple[bytes, str]]] = {
    ".html": _page,
    ".pdf": _print,
    ".xlsx": _workbook,
}
"""What a file's ending makes of a document: its bytes, and what is to be said of them."""


def read_destination(typed: Path | None, proposed: str, *, may_replace: bool) -> Destination:
    """Return where a document goes, before anything is asked of the store.

    Args:
        typed: The path as it was typed; None: `proposed` in the folder one is in.
        proposed: A file's name.
        may_replace: Whether a file that is there gives way.

    Raises:
        SavingError: The ending is none of `ENDINGS`, the folder is not there, or the file is.
    """
    path = Path(proposed) if typed is None else files.read_path(str(typed), "")
    if path.suffix.casefold() not in ENDINGS:
        raise _unknown(path)
    if path.exists() and not may_replace:
        raise files.SavingError(
            f"{path} is there already; nothing was written.",
            "Replace it with --force, or name another file with --out.",
        )
    return Destination(path, may_replace)


def _unknown(path: Path) -> files.SavingError:
    endings = ", ".join(ENDINGS)
    if not path.suffix:
        return files.SavingError(
            f"{path}: the name has no ending, so what to make of it is not known.",
            f"End it with one of {endings}.",
        )
    near = nearest(path.suffix.casefold(), list(ENDINGS))
    meant = f"Did you mean “{path.with_suffix(near).name}”? " if near else ""
    return files.SavingError(
        f"{path}: a document cannot be written as “{path.suffix}”.",
        f"{meant}Expected one of {endings}.",
    )


def document_bytes(document: Document, path: Path, paper: str) -> tuple[bytes, str]:
    """Return a document as its file's ending says, and what is to be said of it, mostly nothing.

    Raises:
        SeasonboardError: It could not be made.
    """
    return ENDINGS[path.suffix.casefold()](document, paper)
