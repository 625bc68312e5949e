"""From the text of a CSV file to rows of cells, every row with the number a spreadsheet shows."""

import csv
import io
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice, zip_longest

import numpy as np
import numpy.typing as npt
import polars as pl

from seasonboard.store.gate.csv_measures import check_cells, check_lines, check_width
from seasonboard.store.intake.cell_marks import NO_MARKS, CellMarks
from seasonboard.store.intake.decoding import refused
from seasonboard.store.intake.problems import Findings

_Places = npt.NDArray[np.intp]
CountHeadings = Callable[[list[str]], int]
"""Says how many cells of a row are headings that some table may have."""

_QUOTE, _BREAK = b'"\n'
_MARKS = ",;\t|"
_SAMPLE_BYTES = 1 << 18
_SAMPLE_ROWS = 40
_WIDE = 4
SOUGHT_ROWS = 30
"""The header is sought in so many rows."""


@dataclass(frozen=True, slots=True)
class SheetRows:
    """The rows of a table as text: `above` the header, and from the header on.

    `rows` has `file_row` and one text column per cell of the header, which is its first row;
    `marks` are what a workbook says of its cells.
    """

    above: list[list[str]]
    rows: pl.DataFrame
    marks: CellMarks = NO_MARKS


def all_rows(sheet_rows: SheetRows) -> list[list[str]]:
    """Return the cells of a sheet from its first row on, all rows of one length."""
    below = [[cell or "" for cell in row] for row in sheet_rows.rows.drop("file_row").iter_rows()]
    first = int(sheet_rows.rows["file_row"][0]) if sheet_rows.rows.height else 1
    above = sheet_rows.above[: first - 1]
    above += [[""]] * (first - 1 - len(above))
    width = max((len(row) for row in (*above, *below)), default=0)
    return [[*row, *[""] * (width - len(row))] for row in (*above, *below)]


def read_rows(data: bytes, label: str, findings: Findings, look: CountHeadings) -> SheetRows:
    r"""Return every record of a CSV file as text, from the header on.

    The file is UTF-8 with `\n` line ends, quotes doubled inside quotes (RFC 4180); its separator
    (comma, semicolon, tab or bar) is the one that makes most headings known. Rows with too many or
    too few cells are problems.

    Raises:
        IntakeError: Its quotes do not close, or it is larger than any table.
    """
    check_lines(data, label)
    mark, sample = _separated(data, look)
    check_cells(data, mark, label)
    head = header_place(sample, look)
    above = sample[:head]
    check_width(len(sample[head]) if sample else 1, head + 1, label)
    shape = _shape(data, ord(mark))
    if shape is None:
        return _carefully(data, label, findings, mark=mark, head=head)
    starts, ends, widths = shape
    rows = None
    if head < len(starts):
        rows = _quickly(data[starts[head] :], mark, records=len(widths) - head)
    if rows is None:
        return _carefully(data, label, findings, mark=mark, head=head)
    width = int(widths[head])
    wrong = np.flatnonzero((widths != width) & (starts != ends))
    texts = {
        int(record) + 1: data[starts[record] : ends[record]].decode("utf-8")
        for record in wrong[wrong > head]
    }
    ragged = {row: next(_reader(text, mark), []) for row, text in texts.items()}
    _tell_ragged(ragged, width, label, findings)
    return SheetRows(above, _numbered(rows, head))


def header_place(rows: list[list[str]], look: CountHeadings) -> int:
    """Return which of the first rows is the header: most known headings, else the first filled."""
    widths = [sum(bool(cell.strip()) for cell in cells) for cells in rows[:SOUGHT_ROWS]]
    filled = [row for row, width in enumerate(widths) if width]
    if not filled:
        return 0
    counts = {row: look(rows[row]) for row in filled}
    best = max(filled, key=lambda row: (counts[row], -row))
    if counts[best] > max(1, counts[filled[0]]):
        return best
    if widths[filled[0]] == 1 and max(widths) >= _WIDE:  # a title stands above something else
        return next(row for row in filled if widths[row] * 2 >= max(widths))
    return filled[0]


def _separated(data: bytes, look: CountHeadings) -> tuple[str, list[list[str]]]:
    text = data[:_SAMPLE_BYTES].decode("utf-8", errors="ignore")
    best = (",", _sample(text, ","))
    weight = (-1, -1.0)
    for mark in _MARKS:
        rows = _sample(text, mark)
        headings = max((look(cells) for cells in rows[:SOUGHT_ROWS]), default=0)
        widths = Counter(len(cells) for cells in rows if any(map(str.strip, cells)))
        wide, times = max(widths.items(), key=lambda one: one[1], default=(1, 0))
        even = times / max(1, widths.total()) if wide > 1 else 0.0
        if (headings, even) > weight and (headings > 1 or even > weight[1]):
            best, weight = (mark, rows), (headings, even)
    return best


def _sample(text: str, mark: str) -> list[list[str]]:
    try:
        return list(islice(_reader(text, mark), _SAMPLE_ROWS))
    except csv.Error:
        return []


def _reader(text: str, mark: str, *, strict: bool = False) -> Iterator[list[str]]:
    return csv.reader(io.StringIO(text, newline=""), strict=strict, delimiter=mark)


def _shape(data: bytes, mark: int) -> tuple[_Places, _Places, _Places] | None:
    """Return where each record starts and ends, and how many cells it has.

    None when quotes stand where they need a careful reading.
    """
    letters = np.frombuffer(data, np.uint8)
    marks = np.flatnonzero(letters == mark)
    breaks = np.flatnonzero(letters == _BREAK)
    if b'"' in data:
        quotes = np.flatnonzero(letters == _QUOTE)
        if not _well_quoted(letters, quotes, mark):
            return None
        marks = marks[np.searchsorted(quotes, marks) % 2 == 0]
        breaks = breaks[np.searchsorted(quotes, breaks) % 2 == 0]
    ends = breaks if data.endswith(b"\n") else np.append(breaks, len(data))
    starts = np.concatenate([[0], ends[:-1] + 1])
    widths = np.diff(np.searchsorted(marks, ends), prepend=0) + 1
    return starts, ends, widths


def _well_quoted(letters: npt.NDArray[np.uint8], quotes: _Places, mark: int) -> bool:
    if len(quotes) % 2:
        return False
    opening, closing = quotes[::2], quotes[1::2]
    before = letters[np.maximum(opening - 1, 0)]
    after = letters[np.minimum(closing + 1, len(letters) - 1)]
    edges = [mark, _BREAK, _QUOTE]
    starts_cell = np.isin(before, edges) | (opening == 0)
    ends_cell = np.isin(after, edges) | (closing == len(letters) - 1)
    return bool(starts_cell.all() and ends_cell.all())


def _quickly(data: bytes, mark: str, *, records: int) -> pl.DataFrame | None:
    """Read many rows at once; None when the reader saw other rows than `_shape` did."""
    try:
        rows = pl.read_csv(
            data, has_header=False, infer_schema=False, truncate_ragged_lines=True, separator=mark
        )
    except pl.exceptions.PolarsError:
        return None
    names = {name: f"column_{nth}" for nth, name in enumerate(rows.columns, 1)}
    return rows.rename(names) if rows.height == records else None


def _carefully(data: bytes, label: str, findings: Findings, *, mark: str, head: int) -> SheetRows:
    rows: list[list[str]] = []
    try:
        for row in _reader(data.decode("utf-8"), mark, strict=True):
            rows.append(row)  # noqa: PERF402 - the rows read so far tell where an error stands
    except csv.Error as error:
        said = "a quoted cell begins here and does not end well: close it with one quote before "
        said += "the separator, and write a quote inside it twice."
        raise refused(label, len(rows) + 1, said) from error
    head = min(head, len(rows) - 1)
    width = max(1, len(rows[head]))
    below = enumerate(rows[head + 1 :], head + 2)
    wrong = {row: cells for row, cells in below if len(cells) != width}
    _tell_ragged(wrong, width, label, findings)
    columns = list(zip_longest(*(cells[:width] for cells in rows[head:])))
    frame = pl.DataFrame({f"column_{nth}": cells for nth, cells in enumerate(columns, 1)})
    return SheetRows(rows[:head], _numbered(frame, head))


def _tell_ragged(wrong: dict[int, list[str]], width: int, label: str, findings: Findings) -> None:
    """Refuse rows with another number of cells, but not for empty ones at their end."""
    ragged = []
    for row, cells in wrong.items():
        filled = max((nth for nth, cell in enumerate(cells, 1) if cell.strip()), default=0)
        if filled > width or (filled and len(cells) < width and not findings.is_total(cells)):
            few = "too few" if len(cells) < width else "too many"
            said = f"has {len(cells)} cells, {few}: the header names {width} columns."
            ragged.append((row, said, " | ".join(cells)))
    findings.reject_rows(label, ragged)


def _numbered(rows: pl.DataFrame, above: int) -> pl.DataFrame:
    return rows.cast(pl.String).with_row_index("file_row", offset=above + 1)
