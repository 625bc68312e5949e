"""Tables as the sheets of a workbook in which nothing runs: text is text, numbers are numbers."""

from collections.abc import Mapping
from pathlib import Path

import polars as pl

from seasonboard.errors import StoreError
from seasonboard.store.intake.row_keys import as_text

MOST_ROWS = 1_048_575
"""Rows of a sheet below its header (Excel specifications and limits)."""

MOST_LETTERS = 32_767
"""Letters of a cell (the same)."""


def write_workbook(tables: Mapping[str, pl.DataFrame], path: Path) -> None:
    """Write one sheet a table.

    Keys, words, text, dates and instants stand in text cells, numbers in number cells; a number
    that a workbook would round (to 16 digits) stands as text.

    Raises:
        StoreError: A table has too many rows, or a cell too much text, for a workbook.
        OSError: The file could not be written.
    """
    import xlsxwriter
    from xlsxwriter.exceptions import FileCreateError

    for name, frame in tables.items():
        _check_fits(name, frame)
    plain = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    book = xlsxwriter.Workbook(str(path), plain)
    head = book.add_format({"bold": True})
    for name, frame in tables.items():
        sheet = book.add_worksheet(name)
        sheet.write_row(0, 0, frame.columns, head)
        sheet.freeze_panes(1, 0)
        for place, column in enumerate(frame.columns):
            sheet.write_column(1, place, _column(frame, column))
    try:
        book.close()
    except FileCreateError as error:
        raise OSError(str(error)) from error


def _column(frame: pl.DataFrame, name: str) -> list[object]:
    """Return the cells of one column; numbers that a workbook would round are text."""
    cells = frame[name]
    if cells.dtype == pl.Float64:
        rounded = {one for one in cells.drop_nulls().unique() if float(f"{one:.16G}") != one}
        values = cells.to_list()
        return [repr(one) if one in rounded else one for one in values] if rounded else values
    if cells.dtype.is_integer():
        return cells.to_list()
    return frame.select(as_text(frame, name)).to_series().to_list()


def _check_fits(name: str, frame: pl.DataFrame) -> None:
    said = "a workbook takes; nothing was written."
    hint = "Export with --format csv or parquet."
    if frame.height > MOST_ROWS:
        raise StoreError(f"{name} has {frame.height:,} rows, more than {said}", hint)
    texts = [column for column, kind in frame.schema.items() if kind == pl.String]
    sizes = frame.select(  # as the workbook counts: rare letters count as two
        pl.col(texts).str.len_chars() + pl.col(texts).str.count_matches(r"[^\x{0000}-\x{FFFF}]")
    )
    for column in texts:
        if sizes.select((pl.col(column) > MOST_LETTERS).any()).item():
            raise StoreError(f"{name}, {column} has a longer text than {said}", hint)
