"""A document as a tagged PDF, set by typst with the letters it brings along."""

import json
import math
import re
from collections.abc import Sequence
from datetime import UTC, datetime, time
from importlib.resources import files
from typing import Any, Literal, NamedTuple

from seasonboard.documents.model import Document, Paragraph, Part, Points, Room, Table, written
from seasonboard.documents.writers.html import is_narrow
from seasonboard.documents.writers.row_headers import with_row_headers
from seasonboard.errors import SeasonboardError
from seasonboard.saving.text import harmless

PAPERS = {"a4": "a4", "letter": "us-letter"}
"""Papers by the word of the command line, and as typst calls them."""

FACES = ("Libertinus Serif", "DejaVu Sans Mono")
"""The type it is set in, and that of marks: both come with typst, the same everywhere."""

_LONG, _LONGEST = 12, 90
"""Letters of a cell from which a column's width is shared, and beyond which it grows no more."""

_TRIES: tuple[tuple[bool, Literal["ua-1"] | None], ...] = (
    (True, "ua-1"),
    (False, "ua-1"),
    (False, None),
)
"""Whether only those letters are taken, and the standard that is kept: from best to least."""


class Printed(NamedTuple):
    """A PDF, and what is to be said of it: letters that could not be set."""

    data: bytes
    summary: str = ""


def as_pdf(document: Document, paper: str = "a4") -> Printed:
    """Return a document as a PDF that says its structure, title and language, on one of `PAPERS`.

    It is set with typst's own letters, to the standard for reading aloud (PDF/UA-1). Only where
    they lack a letter those of the machine are added; where it lacks it too, the standard is let
    go and said so.

    Raises:
        SeasonboardError: It cannot be set.
    """
    import typst

    source = files("seasonboard.documents.writers").joinpath("document.typ").read_bytes()
    told = json.dumps(_typst_text(document, paper), ensure_ascii=False)
    made_at = datetime.combine(document.facts.made_on, time(), UTC)
    common: dict[str, Any] = {
        "format": "pdf",
        "sys_inputs": {"document": told},
        "timestamp": int(made_at.timestamp()),
        "pdf_tags": True,
    }
    why = ""
    for own_letters_only, standard in _TRIES:
        try:
            data: Any = typst.compile(
                source, ignore_system_fonts=own_letters_only, pdf_standards=standard, **common
            )
        except typst.TypstError as error:
            why = str(error)
            continue
        return Printed(with_row_headers(data), "" if standard else _lacking(why))
    raise SeasonboardError(f"The PDF could not be set: {why}", "Make it as .html and print that.")


def _lacking(why: str) -> str:
    found = re.search(r"the text `\"(.+?)\"` could not be displayed", why)
    if not found:
        return harmless(f"The PDF does not keep to PDF/UA-1: {why}")
    letters = harmless(found[1])
    return (
        f"No type on this machine has “{letters}”: it stands as an empty box in the PDF. Install "
        "one that has it, or make the document as .html."
    )


def _typst_text(document: Document, paper: str) -> dict[str, Any]:
    """Return the document as data for the template: text alone, no markup."""
    return {
        "paper": PAPERS[paper],
        "tight": document.is_tight,
        "fonts": list(FACES),
        "marks": FACES[1],
        "title": harmless(document.title),
        "of": harmless(document.of),
        "lead": harmless(document.lead),
        "notice": harmless(document.notice),
        "sections": [
            {
                "heading": harmless(s.heading),
                "starts": s.starts_page,
                "parts": [_part(p) for p in s.parts],
            }
            for s in document.sections
        ],
        "ends": [
            {"heading": heading, "points": _lines(points)} for heading, points in document.ends()
        ],
        "facts": [[heading, harmless(text)] for heading, text in document.facts.lines()],
    }


def _lines(points: Sequence[str]) -> list[str]:
    return [harmless(point) for point in points]


def _part(part: Part) -> dict[str, Any]:
    if isinstance(part, Paragraph):
        opening, text = harmless(part.opening), harmless(part.text)
        return {"kind": "paragraph", "opening": opening, "text": text}
    if isinstance(part, Points):
        return {"kind": "points", "points": _lines(part.points)}
    if isinstance(part, Room):
        return {"kind": "room", "heading": harmless(part.heading), "lines": part.lines}
    if isinstance(part, Table):
        return _table(part)
    return {
        "kind": "picture",
        "title": harmless(part.title),
        "description": harmless(part.description),
        "svg": part.svg,
        "table": _table(part.table),
    }


def _table(table: Table) -> dict[str, Any]:
    forms = [column.form for column in table.columns]
    rows = [[written(c, f) for c, f in zip(row, forms, strict=True)] for row in table.rows]
    kinds = ["n" if column.is_number else "t" for column in table.columns]
    if table.marks is not None:
        kinds[table.marks] = "m"
    shares = [0.0] * len(kinds) if is_narrow(table) else _shares(kinds, rows)
    return {
        "kind": "table",
        "narrow": is_narrow(table),
        "caption": harmless(table.caption),
        "lead": harmless(table.lead),
        "columns": [
            {"heading": harmless(column.heading), "kind": kind, "share": share}
            for column, kind, share in zip(table.columns, kinds, shares, strict=True)
        ],
        "rows": rows,
        "note": harmless(table.note),
    }


def _shares(kinds: Sequence[str], rows: Sequence[Sequence[str]]) -> list[float]:
    """Return the share of the paper's width that each column takes.

    One of short cells, of figures or marks is as wide as they are (share 0); the others part what
    is left, and the first one takes it where there are none.
    """
    widest = [max((len(row[n]) for row in rows), default=0) for n in range(len(kinds))]
    long = [n for n, kind in enumerate(kinds) if kind == "t" and widest[n] > _LONG] or [0]
    letters = [min(max(wide, 1), _LONGEST) for wide in widest]
    return [
        round(math.sqrt(letters[n]) * (1.25 if n == 0 else 1.0), 2) if n in long else 0.0
        for n in range(len(kinds))
    ]
