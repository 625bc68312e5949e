"""From a workbook or a Parquet file to rows of text, as if it had been saved as CSV."""

import datetime as dt
import io
import zipfile
from dataclasses import dataclass, replace

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.cell_marks import NO_MARKS, BookMarks, book_marks
from seasonboard.store.intake.decoding import refused
from seasonboard.store.intake.layout import CountHeadings, SheetRows, header_place
from seasonboard.store.intake.problems import Findings

Span = tuple[tuple[int, int], tuple[int, int]]
_MOST_BYTES = 2 << 30


@dataclass(frozen=True, slots=True)
class Sheet:
    """One visible sheet: its name, its rows, and whether its day numbers count from 1904."""

    name: str
    sheet_rows: SheetRows
    from_1904: bool = False


def read_workbook(data: bytes, label: str, findings: Findings, look: CountHeadings) -> list[Sheet]:
    """Return the visible sheets of a workbook that hold anything, as text.

    Merged cells of the header are filled in; dates are written ISO 8601, whole numbers without a
    point. Hidden sheets, and formulas whose value was never stored, are noted.

    Raises:
        IntakeError: It cannot be read, is locked with a password, or is too large.
    """
    from python_calamine import CalamineError, CalamineWorkbook, SheetVisibleEnum

    _check_size(data, label)
    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(data))
        hidden = [
            sheet.name
            for sheet in book.sheets_metadata
            if sheet.visible != SheetVisibleEnum.Visible
        ]
        marks = _marks(data)
        sheets = []
        for name in book.sheet_names:
            if name in hidden:
                continue
            sheet = book.get_sheet_by_name(name)
            cells = [
                [_text(cell) for cell in row] for row in sheet.to_python(skip_empty_area=False)
            ]
            of_sheet = marks.sheets.get(name, NO_MARKS)
            _tell_unstored(of_sheet.unstored, f"{label} › {name}", findings)
            if any(any(row) for row in cells):
                sheet_rows = _sheet_rows(cells, list(sheet.merged_cell_ranges or []), look)
                sheet_rows = replace(sheet_rows, marks=of_sheet)
                sheets.append(Sheet(name, sheet_rows, marks.from_1904))
    except CalamineError as error:
        said = "cannot be read as a workbook: it is damaged or locked with a password. Save it "
        said += "again without one, or as CSV (UTF-8)."
        raise refused(label, None, said) from error
    if hidden:
        many = "1 hidden sheet was" if len(hidden) == 1 else f"{len(hidden)} hidden sheets were"
        said = f"{many} left out: {', '.join(hidden)}."
        findings.note(Problem(label, None, None, None, said))
    if not sheets:
        raise refused(label, None, "has no visible sheet with anything in it.")
    return sheets


def read_parquet(data: bytes, label: str) -> SheetRows:
    """Return the columns of a Parquet file as text; the header counts as row 1.

    Raises:
        IntakeError: It cannot be read, or a column holds lists or structures.
    """
    try:
        frame = pl.read_parquet(io.BytesIO(data))
    except (pl.exceptions.PolarsError, OSError) as error:
        raise refused(label, None, "cannot be read as Parquet; it is damaged.") from error
    nested = [name for name, kind in frame.schema.items() if kind.is_nested()]
    if nested:
        said = f"holds lists or structures in {', '.join(nested)}; only plain columns can be read."
        raise refused(label, None, said)
    body = frame.select(_parquet_text(name, kind) for name, kind in frame.schema.items())
    header = pl.DataFrame(
        [frame.columns], schema=dict.fromkeys(body.columns, pl.String), orient="row"
    )
    rows = pl.concat([header, body]).with_row_index("file_row", offset=1)
    names = [f"column_{place}" for place in range(1, len(frame.columns) + 1)]
    return SheetRows([], rows.rename(dict(zip(frame.columns, names, strict=True))))


def _parquet_text(name: str, kind: pl.DataType) -> pl.Expr:
    column = pl.col(name)
    if isinstance(kind, pl.Datetime):
        zone = "%:z" if kind.time_zone else ""
        return column.dt.strftime(f"%Y-%m-%dT%H:%M:%S%.f{zone}").alias(name)
    if kind.is_float():
        return column.cast(pl.String).str.strip_suffix(".0").alias(name)
    if kind == pl.Binary:
        return column.cast(pl.String, strict=False).alias(name)
    return column.cast(pl.String).alias(name)


def _check_size(data: bytes, label: str) -> None:
    if not data.startswith(b"PK"):
        return
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            size = sum(part.file_size for part in package.infolist())
    except zipfile.BadZipFile as error:
        said = "is not a workbook; save the table as XLSX or CSV (UTF-8)."
        raise refused(label, None, said) from error
    if size > _MOST_BYTES:
        raise refused(label, None, "unpacks to more than 2 GB; save its sheets as CSV (UTF-8).")


def _text(cell: object) -> str:
    if isinstance(cell, str):
        return cell
    if isinstance(cell, bool):
        return "TRUE" if cell else "FALSE"
    if isinstance(cell, float):
        return str(int(cell)) if cell.is_integer() and abs(cell) < 2**53 else repr(cell)
    if isinstance(cell, dt.datetime):
        midnight = cell.time() == dt.time()
        return cell.date().isoformat() if midnight else cell.isoformat()
    if isinstance(cell, dt.date | dt.time):
        return cell.isoformat()
    return "" if cell is None else str(cell)


def _sheet_rows(cells: list[list[str]], merged: list[Span], look: CountHeadings) -> SheetRows:
    head = header_place(cells, look)
    for (top, left), (bottom, right) in merged:
        for row in range(top, min(bottom, head) + 1):
            for column in range(left, min(right + 1, len(cells[row]))):
                cells[row][column] = cells[row][column] or cells[top][left]
    columns = list(zip(*cells[head:], strict=True))
    names = [f"column_{place}" for place in range(1, len(columns) + 1)]
    frame = pl.DataFrame(
        dict(zip(names, columns, strict=True)), schema=dict.fromkeys(names, pl.String)
    )
    return SheetRows(cells[:head], frame.with_row_index("file_row", offset=head + 1))


def _marks(data: bytes) -> BookMarks:
    if not data.startswith(b"PK"):
        return BookMarks()
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        return book_marks(package)


def _tell_unstored(cells: tuple[str, ...], label: str, findings: Findings) -> None:
    if cells:
        many = "1 formula has" if len(cells) == 1 else f"{len(cells)} formulas have"
        said = f"{many} no stored value and count as empty, the first in cell {cells[0]}. Open the "
        said += "workbook in a spreadsheet and save it, so that values are stored."
        findings.note(Problem(label, None, None, None, said))
