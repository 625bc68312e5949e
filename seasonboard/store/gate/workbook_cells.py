"""The cells of a workbook as text, sheet by sheet, once each sheet's area was measured."""

import datetime as dt
import io
import re
import zipfile
from collections.abc import Iterator
from dataclasses import asdict
from itertools import chain
from typing import TYPE_CHECKING, Any, BinaryIO

from seasonboard.file_limits import (
    MIB,
    MOST_CELLS,
    MOST_COLUMNS,
    MOST_MEMBERS,
    MOST_TEXT,
    MOST_UNPACKED,
)
from seasonboard.store.gate.reply import RefusedFileError, write_words
from seasonboard.store.intake.cell_marks import (
    NO_MARKS,
    BookMarks,
    CellMarks,
    book_marks,
    cell_place,
    sheet_paths,
)

if TYPE_CHECKING:
    from python_calamine import CalamineSheet

ROWS_A_BLOCK = 4_000
_VALUED = re.compile(rb'<c\b[^>]*?\br="([A-Z]{1,3})([0-9]{1,7})"[^>]*(?<!/)>(?!\s*</c>)')
_CHUNK = 4 * MIB
_STRAY = "Delete what stands far from the table, or save the sheet as CSV (UTF-8)."
_DAMAGED = "cannot be read as a workbook: it is damaged or locked with a password. Save it "
_DAMAGED += "again without one, or as CSV (UTF-8)."


def write_cells(data: bytes, out: BinaryIO) -> None:
    """Write the visible sheets: a block about each, then blocks of rows, then null.

    Raises:
        RefusedFileError: It is damaged, locked, or more than is read.
    """
    from python_calamine import CalamineError, CalamineWorkbook, SheetVisibleEnum

    marks = _measured_marks(data)
    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(data))
        visible = {
            sheet.name: sheet.visible == SheetVisibleEnum.Visible for sheet in book.sheets_metadata
        }
        hidden = [name for name, is_visible in visible.items() if not is_visible]
        write_words(out, {})
        write_words(out, {"hidden": hidden, "from_1904": marks.from_1904})
        letters = 0
        for name in book.sheet_names:
            if name in hidden:
                continue
            sheet = book.get_sheet_by_name(name)
            _check_area(name, sheet.end)
            write_words(out, _about(sheet, marks.sheets.get(name, NO_MARKS)))
            for rows in _blocks(sheet):
                letters += sum(map(len, chain.from_iterable(rows)))
                if letters > MOST_TEXT:
                    said = f"holds more than {MOST_TEXT // MIB} MB of text in its cells, more than "
                    raise RefusedFileError(f"{said}tables do. Save its sheets as CSV (UTF-8).")
                write_words(out, rows)
            write_words(out, None)
    except CalamineError as error:
        raise RefusedFileError(_DAMAGED) from error


def _about(sheet: "CalamineSheet", marks: CellMarks) -> dict[str, Any]:
    fields = {
        name: list(value) if isinstance(value, frozenset) else value
        for name, value in asdict(marks).items()
    }
    return {"name": sheet.name, "merged": list(sheet.merged_cell_ranges or []), "marks": fields}


def _blocks(sheet: "CalamineSheet") -> Iterator[list[list[str]]]:
    """Return the rows from the sheet's first cell on, a few thousand at a time."""
    start = sheet.start
    if start is None:
        return
    before = [""] * start[1]
    rows: list[list[str]] = []
    for row in sheet.iter_rows():
        rows.append(before + [_text(cell) for cell in row])
        if len(rows) == ROWS_A_BLOCK:
            yield rows
            rows = []
    if rows:
        yield rows


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


def _measured_marks(data: bytes) -> BookMarks:
    """Return the marks of an XLSX file, once all that is in it was measured."""
    if not data.startswith(b"PK"):
        return BookMarks()
    try:
        package = zipfile.ZipFile(io.BytesIO(data))
    except zipfile.BadZipFile as error:
        raise RefusedFileError(
            "is not a workbook, or is damaged; save the table as XLSX or CSV (UTF-8)."
        ) from error
    with package:
        parts = package.infolist()
        if len(parts) > MOST_MEMBERS:
            said = f"holds {len(parts):,} files, more than a workbook does. Save its sheets as CSV."
            raise RefusedFileError(said)
        if sum(part.file_size for part in parts) > MOST_UNPACKED:
            said = f"unpacks to more than {MOST_UNPACKED // MIB // 1024} GB; save its sheets as "
            raise RefusedFileError(f"{said}CSV (UTF-8).")
        names = set(package.namelist())
        for name, path in sheet_paths(package):
            if path in names:
                _check_area(name, _last_cell(package, path))
        return book_marks(package)


def _last_cell(package: zipfile.ZipFile, path: str) -> tuple[int, int] | None:
    """Return the row and column, from 0, that the cells with a value reach to."""
    letters: set[bytes] = set()
    last_row = 0
    tail = b""
    with package.open(path) as xml:
        while chunk := xml.read(_CHUNK):
            text = tail + chunk
            end = text.rfind(b"</c>") + 4
            pairs = _VALUED.findall(text, 0, end) if end > 3 else []
            letters.update({name for name, _ in pairs})
            last_row = max([last_row, *map(int, {row for _, row in pairs})])
            tail = text[max(end if end > 3 else 0, len(text) - _CHUNK) :]
    if not letters:
        return None
    return last_row - 1, max(cell_place(f"{name.decode()}1")[1] for name in letters) - 1


def _check_area(name: str, last: tuple[int, int] | None) -> None:
    if last is None:
        return
    rows, columns = last[0] + 1, last[1] + 1
    cell = f"{_letters(columns)}{rows}"
    if columns > MOST_COLUMNS:
        said = f"has {columns:,} columns in sheet “{name}”, to cell {cell}; at most "
        raise RefusedFileError(f"{said}{MOST_COLUMNS:,} are read. {_STRAY}")
    if rows * columns > MOST_CELLS:
        said = f"has {rows * columns:,} cells in sheet “{name}”, to cell {cell}; at most "
        raise RefusedFileError(f"{said}{MOST_CELLS:,} are read. {_STRAY}")


def _letters(column: int) -> str:
    name = ""
    while column:
        column, rest = divmod(column - 1, 26)
        name = chr(65 + rest) + name
    return name
