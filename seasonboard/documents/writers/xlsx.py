"""A document as a workbook: a sheet of what it says, and a sheet for each of its tables."""

import re
from collections.abc import Iterator
from datetime import UTC, datetime, time

from seasonboard.answers.fields import Kind
from seasonboard.documents.model import Document, Paragraph, Part, Picture, Points, Table
from seasonboard.saving.text import harmless
from seasonboard.saving.workbook import BOLD, Sheet, Style, Workbook

_NUMBERS: dict[Kind, Style] = {
    Kind.COUNT: {"num_format": "#,##0"},
    Kind.SHARE: {"num_format": "0 %"},
    Kind.WHOLE: {"num_format": "#,##0"},
    Kind.TENTHS: {"num_format": "0.0"},
    Kind.HUNDREDTHS: {"num_format": "0.00"},
    Kind.THOUSANDTHS: {"num_format": "0.000"},
    Kind.RATIO: {"num_format": "0.00"},
}
_HEAD: Style = {"bold": True, "text_wrap": True, "bottom": 1}
_WRAP: Style = {"text_wrap": True, "valign": "top"}
_LABEL: Style = {"bold": True, "valign": "top"}
_TITLE: Style = {"bold": True, "font_size": 14}

_LONGEST_NAME = 31
"""Letters of a sheet's name (Excel specifications and limits)."""


def as_workbook(document: Document) -> bytes:
    """Return a document as a workbook: figures unrounded, text in text cells, nothing hidden.

    Raises:
        SeasonboardError: A table has more rows, or a text is longer, than a workbook takes.
    """
    made_at = datetime.combine(document.facts.made_on, time(), UTC).replace(tzinfo=None)
    hint = "Make it as .html or .pdf, or narrow the scope."
    book = Workbook(f"{document.title} · {document.of}", hint, made_at)
    _about(book, document)
    names = {"about", "history"}  # the second one belongs to Excel
    for table in document.tables():
        name = _name(table.name, names)
        names.add(name.casefold())
        _sheet(book, book.sheet(name), table)
    return book.data()


def _name(wanted: str, names: set[str]) -> str:
    """Return a sheet's name that a workbook takes and no other sheet has."""
    clean = re.sub(r"[\[\]:*?/\\]", " ", harmless(wanted)).strip("' ") or "table"
    name, number = clean[:_LONGEST_NAME].strip(), 2
    while name.casefold() in names:
        ending = f" {number}"
        name = clean[: _LONGEST_NAME - len(ending)].strip() + ending
        number += 1
    return name


def _about(book: Workbook, document: Document) -> None:
    sheet = book.sheet("about")
    sheet.set_column(0, 0, 24)
    sheet.set_column(1, 1, 100)
    book.write_text(sheet, 0, 0, document.title, _TITLE)
    for row, (heading, text) in enumerate(_lines(document), start=1):
        book.write_text(sheet, row, 0, heading, _LABEL)
        book.write_text(sheet, row, 1, text, _WRAP)


def _lines(document: Document) -> Iterator[tuple[str, str]]:
    yield "of", document.of
    yield "answer", document.lead
    yield "for whom", document.notice
    yield from document.facts.lines()
    for section in document.sections:
        texts = [text for part in section.parts for text in _sentences(part)]
        headings = [section.heading] + [""] * (len(texts) - 1)
        yield from zip(headings, texts, strict=False)
    for heading, points in document.ends():
        yield from zip([heading] + [""] * (len(points) - 1), points, strict=True)


def _sentences(part: Part) -> list[str]:
    if isinstance(part, Paragraph):
        return [f"{part.opening} {part.text}".strip()]
    if isinstance(part, Points):
        return list(part.points)
    if isinstance(part, Picture):
        return [f"{part.title}: {part.description}"]
    return []


def _sheet(book: Workbook, sheet: Sheet, table: Table) -> None:
    book.check_rows(len(table.rows) + 1)
    book.write_text(sheet, 0, 0, f"{table.caption} {table.lead}", BOLD)
    sheet.freeze_panes(2, 1)
    for place, column in enumerate(table.columns):
        book.write_text(sheet, 1, place, column.heading, _HEAD)
        cells = [row[place] for row in table.rows]
        book.write_column(sheet, place, cells, first=2, number=_NUMBERS.get(column.form, {}))
        words = [column.heading, *(harmless(c) if isinstance(c, str) else "" for c in cells)]
        sheet.set_column(place, place, min(60, 3 + max(map(len, words))))
    if table.note:
        book.write_text(sheet, len(table.rows) + 3, 0, table.note)
