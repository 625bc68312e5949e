"""Tables as tab-separated text, CSV, workbooks and Parquet: typed, unrounded, and inert."""

import csv
import io
import re
from collections.abc import Callable, Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING

from seasonboard.answers.rows import Cell, Column, Rows
from seasonboard.saving.about import About
from seasonboard.saving.text import guarded, harmless
from seasonboard.saving.workbook import BOLD, Workbook

if TYPE_CHECKING:
    import polars as pl

Typed = str | int | float | date | datetime | None

_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_INSTANT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2} [0-9]{2}:[0-9]{2}")
_WHOLE = re.compile(r"-?(0|[1-9][0-9]{0,14})")


def typed(rows: Rows) -> list[list[Typed]]:
    """Return the columns with dates as dates and figures as figures, as far as all cells are."""
    columns = zip(*rows.rows, strict=True) if rows.rows else ([] for _ in rows.columns)
    pairs = zip(rows.columns, columns, strict=True)
    return [_typed(column, list(cells)) for column, cells in pairs]


def _typed(column: Column, cells: Sequence[Cell]) -> list[Typed]:
    words = [cell for cell in cells if isinstance(cell, str)]
    for form, read in _READ:
        is_one = len(words) > 0 and all(form.fullmatch(word) for word in words)
        if is_one and (read is not int or column.is_number):
            try:
                return [read(cell) if isinstance(cell, str) else cell for cell in cells]
            except ValueError:  # such as 2026-02-30: words after all
                break
    return [harmless(cell) if isinstance(cell, str) else cell for cell in cells]


_READ: tuple[tuple[re.Pattern[str], Callable[[str], Typed]], ...] = (
    (_DAY, date.fromisoformat),
    (_INSTANT, datetime.fromisoformat),
    (_WHOLE, int),
)


def headings(columns: Sequence[Column]) -> list[str]:
    """Return the headings as shown; of two that are the same the later ones are numbered."""
    counts: dict[str, int] = {}
    names = []
    for column in columns:
        heading = harmless(column.heading) or column.name
        counts[heading] = counts.get(heading, 0) + 1
        names.append(heading if counts[heading] == 1 else f"{heading} {counts[heading]}")
    return names


def as_tsv(rows: Rows) -> str:
    """Return a table as tab-separated lines, to be pasted."""
    return _separated(rows, "\t", "\n")


def as_csv(rows: Rows, _: About) -> bytes:
    """Return a table as CSV in UTF-8; with a mark at its start, so that spreadsheets know it."""
    return _separated(rows, ",", "\r\n").encode("utf-8-sig")


def _separated(rows: Rows, delimiter: str, ending: str) -> str:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=delimiter, lineterminator=ending)
    writer.writerow([guarded(heading) for heading in headings(rows.columns)])
    writer.writerows([_inert(cell) for cell in row] for row in zip(*typed(rows), strict=True))
    return out.getvalue()


def _inert(cell: Typed) -> object:
    if isinstance(cell, datetime):
        return f"{cell:%Y-%m-%d %H:%M}"
    return guarded(cell) if isinstance(cell, str) else cell


def as_parquet(rows: Rows, about: About) -> bytes:
    """Return a table as Parquet; what it is stands in the file's metadata."""
    import polars as pl

    out = io.BytesIO()
    metadata = {f"seasonboard {heading}": text for heading, text in about.lines()}
    pairs = zip(headings(rows.columns), rows.columns, typed(rows), strict=True)
    frame = pl.DataFrame([_series(name, column, cells) for name, column, cells in pairs])
    frame.write_parquet(out, metadata=metadata)
    return out.getvalue()


def _series(name: str, column: Column, cells: list[Typed]) -> "pl.Series":
    import polars as pl

    kinds = {type(cell) for cell in cells if cell is not None}
    if not kinds:
        return pl.Series(name, cells, dtype=pl.Float64 if column.is_number else pl.String)
    if kinds <= {int, float, bool} or len(kinds) == 1:
        return pl.Series(name, cells, strict=False)
    words = [None if cell is None else str(cell) for cell in cells]
    return pl.Series(name, words, dtype=pl.String)


def as_xlsx(rows: Rows, about: About) -> bytes:
    """Return a table as a workbook with a second sheet on what it is; text is in text cells.

    Raises:
        SeasonboardError: It has more rows, or longer text, than a workbook takes.
    """
    book = Workbook(about.title, "Save it as CSV or Parquet, or find fewer rows first.")
    book.check_rows(len(rows.rows))
    sheet = book.sheet("table")
    sheet.freeze_panes(1, 0)
    pairs = zip(headings(rows.columns), typed(rows), strict=True)
    for place, (heading, cells) in enumerate(pairs):
        book.write_text(sheet, 0, place, heading, BOLD)
        book.write_column(sheet, place, cells, first=1)
        wide = [len(str(cell)) for cell in (heading, *cells[:200])]
        sheet.set_column(place, place, min(40, 2 + max(wide)))
    sheet = book.sheet("about")
    for row, (heading, text) in enumerate(about.lines()):
        book.write_text(sheet, row, 0, heading, BOLD)
        book.write_text(sheet, row, 1, text)
    sheet.set_column(0, 0, 12)
    return book.data()


def inert_csv(table: "pl.DataFrame") -> bytes:
    """Return a frame as CSV; text that a spreadsheet would run stands behind an apostrophe."""
    import polars as pl

    texts = table.select(pl.col(pl.String))
    safe = {
        text.name: {cell: guarded(cell) for cell in text.drop_nulls().unique()} for text in texts
    }
    inert = [pl.col(name).replace(cells) for name, cells in safe.items() if cells]
    return table.with_columns(inert).write_csv().encode()
