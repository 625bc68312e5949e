"""From the bytes of a CSV file to rows of text, every row with the number a spreadsheet shows."""

import csv
import io
from itertools import zip_longest

import numpy as np
import numpy.typing as npt
import polars as pl

from seasonboard.errors import IntakeError, Problem
from seasonboard.store.intake.findings import TOLD, Findings

_Places = npt.NDArray[np.intp]

_COMMA, _QUOTE, _BREAK = b',"\n'
_MAGIC = (b"PK\x03\x04", b"PAR1", b"%PDF", b"\xd0\xcf\x11\xe0", b"\x1f\x8b", b"\x89PNG", b"SQLite")


def read_rows(data: bytes, label: str, found: Findings) -> pl.DataFrame:
    """Return every record of a CSV file as text, the header first.

    Args:
        data: The file's bytes: UTF-8, commas, quotes doubled inside quotes (RFC 4180).
        label: The file, for messages.
        found: Takes a problem for every row with too many or too few cells.

    Returns:
        One text column per cell of the header, and `file_row`; blank rows are still there.

    Raises:
        IntakeError: The file is not text, not UTF-8, empty, or its quotes do not close.
    """
    data = _as_utf8(data, label)
    if not data.strip():
        raise _refused(label, None, "is empty; its first row has to name the columns.")
    shape = _shape(data)
    rows = None if shape is None else _quickly(data, records=len(shape.widths))
    if shape is None or rows is None:
        return _carefully(data, label, found)
    wrong = np.flatnonzero((shape.widths != shape.widths[0]) & (shape.starts != shape.ends))
    filled = [
        (int(record) + 1, int(shape.widths[record]))
        for record in wrong
        if data[shape.starts[record] : shape.ends[record]].strip(b", \t")
    ]
    _tell_ragged(filled, int(shape.widths[0]), label, found)
    return rows


def _as_utf8(data: bytes, label: str) -> bytes:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        said = "is written in UTF-16; save it as CSV (UTF-8)."
        raise _refused(label, None, said)
    data = data.removeprefix(b"\xef\xbb\xbf")
    nuls = data.count(0)
    if data.startswith(_MAGIC) or nuls * 20 > len(data):
        raise _refused(label, None, "is not a CSV file; save the table as CSV (UTF-8).")
    try:
        data.decode("utf-8")
    except UnicodeDecodeError as error:
        if _is_binary(data[:65536]):
            said = "is not a CSV file; save the table as CSV (UTF-8)."
            raise _refused(label, None, said) from error
        before = io.StringIO(data[: error.start].decode("utf-8"), newline=None)
        row = max(1, sum(1 for _ in csv.reader(before)) + data[: error.start].endswith(b"\n"))
        said = f"byte 0x{data[error.start]:02X} is not UTF-8; save the file as CSV (UTF-8)."
        raise _refused(label, row, said) from error
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    return data


def _is_binary(data: bytes) -> bool:
    controls = bytes(set(range(32)) - {9, 10, 13, 27})
    return (len(data) - len(data.translate(None, controls))) * 50 > len(data)


class _Shape:
    """Where each record starts and ends, and how many cells it has."""

    def __init__(self, starts: _Places, ends: _Places, widths: _Places) -> None:
        self.starts, self.ends, self.widths = starts, ends, widths


def _shape(data: bytes) -> _Shape | None:
    """Find the records; None when quotes stand where they need a careful reading."""
    letters = np.frombuffer(data, np.uint8)
    commas = np.flatnonzero(letters == _COMMA)
    breaks = np.flatnonzero(letters == _BREAK)
    if b'"' in data:
        quotes = np.flatnonzero(letters == _QUOTE)
        if not _well_quoted(letters, quotes):
            return None
        commas = commas[np.searchsorted(quotes, commas) % 2 == 0]
        breaks = breaks[np.searchsorted(quotes, breaks) % 2 == 0]
    ends = breaks if data.endswith(b"\n") else np.append(breaks, len(data))
    starts = np.concatenate([[0], ends[:-1] + 1])
    widths = np.diff(np.searchsorted(commas, ends), prepend=0) + 1
    return _Shape(starts, ends, widths)


def _well_quoted(letters: npt.NDArray[np.uint8], quotes: _Places) -> bool:
    if len(quotes) % 2:
        return False
    opening, closing = quotes[::2], quotes[1::2]
    before = letters[np.maximum(opening - 1, 0)]
    after = letters[np.minimum(closing + 1, len(letters) - 1)]
    edges = [_COMMA, _BREAK, _QUOTE]
    starts_cell = np.isin(before, edges) | (opening == 0)
    ends_cell = np.isin(after, edges) | (closing == len(letters) - 1)
    return bool(starts_cell.all() and ends_cell.all())


def _quickly(data: bytes, *, records: int) -> pl.DataFrame | None:
    """Read many rows at once; None when the reader saw other rows than `_shape` did."""
    try:
        rows = pl.read_csv(data, has_header=False, infer_schema=False, truncate_ragged_lines=True)
    except pl.exceptions.PolarsError:
        return None
    return _numbered(rows) if rows.height == records else None


def _carefully(data: bytes, label: str, found: Findings) -> pl.DataFrame:
    rows: list[list[str]] = []
    try:
        for row in csv.reader(io.StringIO(data.decode("utf-8"), newline=""), strict=True):
            rows.append(row)  # noqa: PERF402 - the rows read so far tell where an error stands
    except csv.Error as error:
        said = "a quoted cell begins here and does not end well: close it with one quote before "
        said += "the comma, and write a quote inside it twice."
        raise _refused(label, len(rows) + 1, said) from error
    width = max(1, len(rows[0]))
    wrong = [(row, len(cells)) for row, cells in enumerate(rows, 1) if _is_ragged(cells, width)]
    _tell_ragged(wrong, width, label, found)
    columns = list(zip_longest(*(cells[:width] for cells in rows)))
    return _numbered(
        pl.DataFrame({f"column_{place}": cells for place, cells in enumerate(columns, 1)})
    )


def _is_ragged(cells: list[str], width: int) -> bool:
    return len(cells) != width and any(cell.strip() for cell in cells)


def _tell_ragged(wrong: list[tuple[int, int]], width: int, label: str, found: Findings) -> None:
    for row, cells in wrong[:TOLD]:
        few = "too few" if cells < width else "too many"
        said = f"has {cells} cells, {few}: the header names {width} columns."
        found.refuse(Problem(label, row, None, None, said))
    if len(wrong) > TOLD:
        found.rejected += len(wrong) - TOLD - 1
        said = f"and {len(wrong) - TOLD:,} more rows with too many or too few cells."
        found.refuse(Problem(label, None, None, None, said))


def _numbered(rows: pl.DataFrame) -> pl.DataFrame:
    return rows.cast(pl.String).with_row_index("file_row", offset=1)


def _refused(label: str, row: int | None, said: str) -> IntakeError:
    problem = Problem(label, row, None, None, said)
    return IntakeError(problem.sentence(), [problem])
