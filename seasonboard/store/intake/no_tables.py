"""Sheets that hold no records: legends, notes, contacts; they are left out by name."""

from collections.abc import Mapping, Sequence

from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.mapping import LEFT_OUT, SheetMapping
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.stored_tables import TABLES

_NAMES = frozenset(
    {
        *("notes", "note", "contacts", "contact", "legend", "key", "codes", "info", "readme"),
        *("read me", "instructions", "summary", "totals", "to do", "todo", "phone list", "lists"),
        *("emails", "staff", "supplies", "shopping", "template", "blank", "help"),
    }
)
_OF_CONTACTS = frozenset({"phone", "email", "e mail", "cell", "cell phone", "mobile", "role"})
_FEWEST_HEADINGS = 2


def sheet_rows(sheet: OpenSheet) -> list[Sequence[str]]:
    """Return the cells of a sheet of records, the headings as its first row."""
    body = sheet.grid.body.drop("file_row")
    return [sheet.grid.headings, *([cell or "" for cell in row] for row in body.iter_rows())]


def why_no_table(
    sheet: OpenSheet, legend: Mapping[str, Mapping[str, str]], synonyms: Synonyms
) -> str | None:
    """Return why one of the sheets of a workbook holds no records; None when it may.

    Args:
        sheet: The sheet.
        legend: What is known of the marks of grids in its file.
        synonyms: What headings may be called.
    """
    rows = sheet_rows(sheet)
    words = folded(sheet.name)
    marks = {mark for known in legend.values() for mark in known}
    first = [row[0].strip().casefold() for row in rows if len(row) == 2]
    if len(first) == len(rows) and sum(one in marks for one in first) * 2 >= len(rows):
        return "it holds the legend of the marks, no records"
    headings = {folded(one) for one in sheet.grid.headings}
    if {"first", "last"} <= headings or {"first name", "last name"} <= headings:
        return None
    shown = ", ".join(f"“{one}”" for one in sheet.grid.headings[:4])
    if words in _NAMES or len(sheet.grid.headings) == 1 or headings & _OF_CONTACTS:
        return f"it is for people to read, not a table ({shown})"
    known = max(
        len(
            {
                column
                for heading in sheet.grid.headings
                for column in synonyms.columns_called(name, heading)
                if column in own_columns(table)
            }
        )
        for name, table in TABLES.items()
    )
    if known < _FEWEST_HEADINGS:
        return f"none of the tables has columns such as {shown}"
    return None


def left_out_mapping(sheet: OpenSheet) -> SheetMapping:
    """Return the part of a mapping that leaves a sheet out, known again by its name."""
    return SheetMapping(LEFT_OUT, (), {}, sheet.path.name, layout=LEFT_OUT, title=sheet.name)
