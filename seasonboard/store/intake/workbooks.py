"""From a workbook or a Parquet file to rows of text, as if it had been saved as CSV."""

import io
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

import polars as pl

from seasonboard.store.gate.reader_process import FileReader
from seasonboard.store.intake.cell_marks import CellMarks
from seasonboard.store.intake.decoding import refused
from seasonboard.store.intake.layout import SOUGHT_ROWS, CountHeadings, SheetRows, header_place
from seasonboard.store.intake.problems import Findings, counted

Span = tuple[tuple[int, int], tuple[int, int]]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One visible sheet: its name, its rows, and whether its day numbers count from 1904."""

    name: str
    sheet_rows: SheetRows
    from_1904: bool = False


def read_workbook(
    reader: FileReader, data: bytes, label: str, findings: Findings, look: CountHeadings
) -> list[Sheet]:
    """Return the visible sheets of a workbook that hold anything, as text.

    Merged cells of the header are filled in; dates are written ISO 8601, whole numbers without a
    point. Hidden sheets, and formulas whose value was never stored, are noted.

    Raises:
        IntakeError: It cannot be read, is locked with a password, or is too large.
    """
    parts = reader.read("workbook", data, label)
    book = json.loads(next(parts))
    sheets = []
    for block in parts:
        about = json.loads(block)
        marks = _marks(about["marks"])
        if marks.unstored:
            many = counted(len(marks.unstored), "formula has", "formulas have")
            said = f"{many} no stored value and count as empty, the first in cell "
            said += f"{marks.unstored[0]}. Open the workbook in a spreadsheet and save it, so that "
            findings.tell(f"{label} › {about['name']}", said + "values are stored.")
        cells = _cells(parts)
        if any((column != "").any() for column in cells):
            sheet_rows = replace(_sheet_rows(cells, about["merged"], look), marks=marks)
            sheets.append(Sheet(about["name"], sheet_rows, book["from_1904"]))
    if hidden := book["hidden"]:
        many = counted(len(hidden), "hidden sheet was", "hidden sheets were")
        findings.tell(label, f"{many} left out: {', '.join(hidden)}.")
    if not sheets:
        raise refused(label, None, "has no visible sheet with anything in it.")
    return sheets


def read_parquet(reader: FileReader, data: bytes, label: str) -> SheetRows:
    """Return the columns of a Parquet file as text; the header counts as row 1.

    Raises:
        IntakeError: It cannot be read, is too large, or a column holds lists or structures.
    """
    parts = reader.read("parquet", data, label)
    headings = json.loads(next(parts))
    body = pl.read_ipc(io.BytesIO(next(parts)))
    if not headings:
        raise refused(label, None, "has no columns.")
    return SheetRows([], _below(headings, body, 1))


def _below(header: list[str], body: pl.DataFrame, row: int) -> pl.DataFrame:
    """Put a header, which stands in a row of the file, on top of the rows below it."""
    first = pl.DataFrame([header], schema=body.schema, orient="row")
    return pl.concat([first, body]).with_row_index("file_row", offset=row)


def _cells(parts: Iterator[bytes]) -> pl.DataFrame:
    """Return the rows of one sheet, block by block, as columns of text."""
    frames = []
    while (rows := json.loads(next(parts))) is not None:
        schema = {f"column_{nth}": pl.String for nth in range(1, len(rows[0]) + 1)}
        frames.append(pl.DataFrame(rows, schema=schema, orient="row"))
    return pl.concat(frames) if frames else pl.DataFrame()


def _sheet_rows(cells: pl.DataFrame, merged: list[Span], look: CountHeadings) -> SheetRows:
    first = [list(row) for row in cells.head(SOUGHT_ROWS).iter_rows()]
    head = header_place(first, look)
    for (top, start), (bottom, end) in merged:
        for row in range(top, min(bottom, head) + 1):
            for column in range(start, min(end + 1, len(first[row]))):
                first[row][column] = first[row][column] or first[top][start]
    return SheetRows(first[:head], _below(first[head], cells.slice(head + 1), head + 1))


def _marks(stored: Mapping[str, Any]) -> CellMarks:
    return CellMarks(
        frozenset(stored["hidden_rows"]),
        frozenset(stored["hidden_columns"]),
        frozenset((row, column) for row, column in stored["struck"]),
        frozenset((row, column) for row, column in stored["formulas"]),
        tuple(stored["unstored"]),
    )
