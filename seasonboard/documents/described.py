"""Tables of documents made from the described tables of answers."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from seasonboard.answers import fields
from seasonboard.answers.field_output import csv_columns
from seasonboard.answers.fields import Field, Kind, joined, read_value
from seasonboard.documents.model import Cell, Column, Table

Take = Callable[[Field, Any], Cell]
"""What gives the cell of a field and a row."""


def as_read(field: Field, row: Any) -> Cell:  # noqa: ANN401 - whatever the table has as rows
    """Return a cell in the words of the description where it has some, else as it is held."""
    return field.show(row) if field.show is not None else as_held(field, row)


def as_held(field: Field, row: Any) -> Cell:  # noqa: ANN401 - whatever the table has as rows
    """Return a cell typed and unrounded; several words as one text."""
    value = field.get(row)
    if value is None or isinstance(value, (str, int, float, date)):
        return value
    return joined(value) or None


def as_rounded(field: Field, row: Any) -> Cell:  # noqa: ANN401 - whatever the table has as rows
    """Return a cell as it is read, with no digit more: a workbook for outsiders has no other."""
    value = as_read(field, row)
    if not isinstance(value, float):
        return value
    if field.kind in {Kind.RATIO, Kind.DURATION}:
        return float(read_value(value, field.kind).replace("−", "-"))
    return round(value, _DIGITS[field.kind]) if field.kind in _DIGITS else round(value)


_DIGITS = {Kind.SHARE: 2, Kind.TENTHS: 1, Kind.HUNDREDTHS: 2, Kind.THOUSANDTHS: 3}


def document_table(  # noqa: PLR0913 - all but the first four by name
    table: fields.Table,
    answer: object,
    name: str,
    caption: str,
    *,
    only: Sequence[str] = (),
    headings: Mapping[str, str] | None = None,
    rows: Iterable[object] | None = None,
    cell: Take = as_read,
    lead: str = "",
    note: str = "",
    marks: str = "",
) -> Table:
    """Return a described table as people read it in a document; words as of a `Table`.

    `only` names fields in the order of the document (empty: as the description reads), `headings`
    are those it has room for, by the names of the fields, `rows` those to show, where they are
    not all. `cell` gives each cell, a field in a group under its whole name. The cells of the
    field `marks` are marks in a row of equal steps.
    """
    headed = [table.field(name) for name in only] or list(table.read_fields(answer))
    described = [replace(table.field(name), name=name) for name in only] or headed
    names = [one.name for one in described]
    others = headings or {}
    return Table(
        name=name,
        caption=caption,
        columns=tuple(
            Column(others.get(name) or one.heading_of(answer), one.kind)
            for name, one in zip(names, headed, strict=True)
        ),
        rows=tuple(
            tuple(cell(one, row) for one in described)
            for row in ((table.rows(answer) or ()) if rows is None else rows)
        ),
        lead=lead,
        note=note,
        marks=names.index(marks) if marks else None,
    )


def workbook_table(
    table: fields.Table, answer: object, name: str, caption: str, *, lead: str = ""
) -> Table:
    """Return every row and column of a described table, unrounded, for a workbook's sheet.

    Its columns are those of the CSV, under the same names with blanks between the words.
    """
    columns = csv_columns(table.elements)
    return Table(
        name=name,
        caption=caption,
        columns=tuple(Column(name.replace("_", " "), one.kind) for name, one in columns),
        rows=tuple(
            tuple(as_held(one, row) for _, one in columns) for row in table.rows(answer) or ()
        ),
        lead=lead,
    )
