"""A document as a tagged PDF, set by typst with the letters it brings along."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, time
from importlib.resources import files
from typing import Any, Literal

from seasonboard.documents.model import (
    Document,
    Form,
    Paragraph,
    Part,
    Points,
    Room,
    Table,
    written,
)
from seasonboard.errors import SeasonboardError
from seasonboard.saving.text import harmless

PAPERS = {"a4": "a4", "letter": "us-letter"}
"""Papers by the word of the command line, and as typst calls them."""

FACES = ("Libertinus Serif", "DejaVu Sans Mono")
"""The type it is set in, and that of marks: both come with typst, the same everywhere."""

_LONG = 28
"""A column with longer cells shares what room is left."""


_TRIES: tuple[tuple[bool, Literal["ua-1"] | None], ...] = (
    (True, "ua-1"),
    (False, "ua-1"),
    (False, None),
)
"""Whether only those letters are taken, and the standard that is kept: from best to least."""


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF, and what is to be said of it: letters that could not be set."""

    data: bytes
    said: str = ""


def as_pdf(document: Document, paper: str = "a4") -> Printed:
    """Return a document as a PDF that says its structure, title and language.

    It is set with typst's own letters, to the standard for reading aloud (PDF/UA-1). Only where
    they lack a letter those of the machine are added; where it lacks it too, the standard is let
    go and said so.

    Args:
        document: What is in it.
        paper: One of `PAPERS`.

    Raises:
        SeasonboardError: It cannot be set.
    """
    import typst

    source = files("seasonboard.documents").joinpath("print", "document.typ").read_bytes()
    told = json.dumps(_told(document, paper), ensure_ascii=False)
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
        lacking = "" if standard else f"Some of it could not be set as it should: {why}"
        return Printed(data, harmless(lacking))
    raise SeasonboardError(f"The PDF could not be set: {why}", "Make it as .html and print that.")


def _told(document: Document, paper: str) -> dict[str, Any]:
    """Return the document as data for the template: text alone, no markup."""
    return {
        "paper": PAPERS[paper],
        "fonts": list(FACES),
        "marks": FACES[1],
        "title": harmless(document.title),
        "of": harmless(document.of),
        "lead": harmless(document.lead),
        "notice": harmless(document.notice),
        "sections": [
            {"heading": harmless(s.heading), "parts": [_part(p) for p in s.parts]}
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
    return {
        "kind": "table",
        "caption": harmless(table.caption),
        "lead": harmless(table.lead),
        "columns": [
            {"heading": harmless(column.heading), "kind": _kind(table, place, rows)}
            for place, column in enumerate(table.columns)
        ],
        "rows": rows,
        "note": harmless(table.note),
    }


def _kind(table: Table, place: int, rows: Sequence[Sequence[str]]) -> str:
    """Return how a column is set: `m` marks, `n` figures, `w` long text, `t` short text."""
    if place == table.marks:
        return "m"
    if table.columns[place].form is not Form.TEXT:
        return "n"
    is_last_text = not any(
        table.columns[n].form is Form.TEXT and n != table.marks
        for n in range(place + 1, len(table.columns))
    )
    longest = max((len(row[place]) for row in rows), default=0)
    return "w" if longest > _LONG or is_last_text else "t"
