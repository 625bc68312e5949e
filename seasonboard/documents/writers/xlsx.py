"""A document as a workbook: a sheet of what it says, and a sheet for each of its tables."""

import io
import re
from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, time
from typing import Any

from seasonboard.answers.fields import Kind
from seasonboard.documents.model import (
    Document,
    Paragraph,
    Part,
    Picture,
    Points,
    Table,
    written,
)
from seasonboard.errors import SeasonboardError
from seasonboard.saving.tables import MOST_LETTERS, MOST_ROWS
from seasonboard.saving.text import harmless

_FORMATS = {
    Kind.COUNT: "#,##0",
    Kind.SHARE: "0 %",
    Kind.WHOLE: "#,##0",
    Kind.TENTHS: "0.0",
    Kind.HUNDREDTHS: "0.00",
    Kind.THOUSANDTHS: "0.000",
    Kind.RATIO: "0.00",
}

_FIRST_YEAR = 1900
_LONGEST_NAME = 31
"""Letters of a sheet's name (Excel specifications and limits)."""


def as_workbook(document: Document) -> bytes:
    """Return a document as a workbook: figures unrounded, text in text cells, nothing hidden.

    Raises:
        SeasonboardError: A table has more rows, or a text is longer, than a workbook takes.
    """
    import xlsxwriter

    out = io.BytesIO()
    plain = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    book = xlsxwriter.Workbook(out, plain | {"strings_to_numbers": False})
    made_at = datetime.combine(document.facts.made_on, time(), UTC).replace(tzinfo=None)
    title = harmless(f"{document.title} · {document.of}")
    book.set_properties({"title": title, "created": made_at})
    styles = _Styles(book)
    _about(book.add_worksheet("about"), document, styles)
    taken = {"about", "history"}  # the second one belongs to Excel
    for table in document.tables():
        name = _name(table.name, taken)
        taken.add(name.casefold())
        _sheet(book.add_worksheet(name), table, styles)
    book.close()
    return out.getvalue()


class _Styles:
    """The formats of a workbook."""

    def __init__(self, book: Any) -> None:  # noqa: ANN401 - xlsxwriter has no types
        """Make them."""
        self.bold = book.add_format({"bold": True})
        self.head = book.add_format({"bold": True, "text_wrap": True, "bottom": 1})
        self.wrap = book.add_format({"text_wrap": True, "valign": "top"})
        self.label = book.add_format({"bold": True, "valign": "top"})
        self.title = book.add_format({"bold": True, "font_size": 14})
        self.day = book.add_format({"num_format": "yyyy-mm-dd"})
        self.instant = book.add_format({"num_format": "yyyy-mm-dd hh:mm"})
        self.forms = {form: book.add_format({"num_format": how}) for form, how in _FORMATS.items()}


def _name(wanted: str, taken: set[str]) -> str:
    """Return a sheet's name that a workbook takes and no other sheet has."""
    clean = re.sub(r"[\[\]:*?/\\]", " ", harmless(wanted)).strip("' ") or "table"
    name, number = clean[:_LONGEST_NAME].strip(), 2
    while name.casefold() in taken:
        ending = f" {number}"
        name = clean[: _LONGEST_NAME - len(ending)].strip() + ending
        number += 1
    return name


def _about(sheet: Any, document: Document, styles: _Styles) -> None:  # noqa: ANN401
    sheet.set_column(0, 0, 24)
    sheet.set_column(1, 1, 100)
    _write_text(sheet, 0, 0, harmless(document.title), styles.title)
    for row, (heading, text) in enumerate(_lines(document), start=1):
        _write_text(sheet, row, 0, harmless(heading), styles.label)
        _write_text(sheet, row, 1, harmless(text), styles.wrap)


def _lines(document: Document) -> Iterator[tuple[str, str]]:
    """Give all that is said outside tables, each with its heading."""
    yield "of", document.of
    yield "answer", document.lead
    yield "for whom", document.notice
    yield from document.facts.lines()
    for section in document.sections:
        told = [text for part in section.parts for text in _sentences(part)]
        headings = [section.heading] + [""] * (len(told) - 1)
        yield from zip(headings, told, strict=False)
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


def _sheet(sheet: Any, table: Table, styles: _Styles) -> None:  # noqa: ANN401
    if len(table.rows) > MOST_ROWS - 2:
        raise _too_large(f"{len(table.rows):,} rows are")
    caption = harmless(f"{table.caption} {table.lead}")
    _write_text(sheet, 0, 0, caption, styles.bold)
    sheet.freeze_panes(2, 1)
    for place, column in enumerate(table.columns):
        _write_text(sheet, 1, place, harmless(column.heading), styles.head)
        cells = [row[place] for row in table.rows]
        _write_cells(sheet, place, cells, column.form, styles)
        words = [column.heading, *(harmless(c) if isinstance(c, str) else "" for c in cells)]
        sheet.set_column(place, place, min(60, 3 + max(map(len, words))))
    if table.note:
        _write_text(sheet, len(table.rows) + 3, 0, harmless(table.note), None)


def _write_cells(
    sheet: Any,  # noqa: ANN401
    place: int,
    cells: Sequence[object],
    form: Kind,
    styles: _Styles,
) -> None:
    for row, cell in enumerate(cells, start=2):
        if isinstance(cell, str):
            _write_text(sheet, row, place, harmless(cell), None)
        elif isinstance(cell, bool):
            _write_text(sheet, row, place, written(cell, form), None)
        elif isinstance(cell, date) and cell.year < _FIRST_YEAR:
            _write_text(sheet, row, place, cell.isoformat(), None)
        elif isinstance(cell, datetime):
            sheet.write_datetime(row, place, cell.replace(tzinfo=None), styles.instant)
        elif isinstance(cell, date):
            sheet.write_datetime(row, place, cell, styles.day)
        elif cell is not None:
            sheet.write_number(row, place, cell, styles.forms.get(form))


def _write_text(sheet: Any, row: int, place: int, text: str, style: Any) -> None:  # noqa: ANN401
    if len(text.encode("utf-16-le")) // 2 > MOST_LETTERS:
        raise _too_large("a text is")
    if text:
        sheet.write_string(row, place, text, style)


def _too_large(what: str) -> SeasonboardError:
    return SeasonboardError(
        f"{what} more than a workbook takes; nothing was written.",
        "Make it as .html or .pdf, or narrow the scope.",
    )
