"""One sheet as it is meant: its headings, and the rows that are records."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.cell_marks import CellMarks
from seasonboard.store.intake.cleaning import clean_word, trimmed
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.layout import SheetRows
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import Synonyms

_MOSTLY_EMPTY = 0.35
"""A column that more rows leave empty does not tell records from remarks."""
_FEW_COLUMNS, _REMARK_CELLS = 3, 2
_MOST_SOUGHT = 50_000
"""Subtotals are sought in sheets of so many rows; longer ones come from programs."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Headings, and below them the records.

    `headings` and `columns` (of `body`) go together, empty columns left out; a heading that stands
    more than once is numbered, “date”, “date (2)”. `header_row` is the row a spreadsheet shows.
    `body` has `file_row` and text, trimmed, missing cells null, blank rows left out. Where its rows
    are not those of the file, `origins` says of each `file_row` its `row` and `cell` there.
    `titles` stand above the headings; `struck` are rows that are struck out.
    """

    headings: tuple[str, ...]
    columns: tuple[str, ...]
    header_row: int
    body: pl.DataFrame
    from_1904: bool = False
    origins: pl.DataFrame | None = None
    titles: tuple[str, ...] = ()
    struck: tuple[int, ...] = ()

    @property
    def places(self) -> dict[str, str]:
        """Return heading → column of `body`."""
        return dict(zip(self.headings, self.columns, strict=True))

    def row_shown(self, file_row: int) -> int:
        """Return the row of the file that a person sees."""
        if self.origins is None:
            return file_row
        return int(self.origins.filter(pl.col("file_row") == file_row)["row"][0])


def numbered_by_cell(rows: pl.DataFrame) -> tuple[pl.DataFrame, pl.DataFrame]:
    """Give rows that were made of cells numbers of their own.

    Args:
        rows: With `row` and `cell`, what each was made of.

    Returns:
        The rows with `file_row` in place of those, and the origins of a `Grid`.
    """
    numbered = rows.with_row_index("file_row", 1)
    return numbered.drop("row", "cell"), numbered.select("file_row", "row", "cell")


def as_grid(
    sheet_rows: SheetRows,
    label: str,
    findings: Findings,
    synonyms: Synonyms,
    needed: Sequence[str] = (),
) -> Grid:
    """Find the headings and the records of a sheet.

    Left out and noted: title lines above the header, the heading repeated further down, a totals
    line at the end. Trimmed cells are counted in a note.

    Args:
        sheet_rows: The rows, the header first; hidden ones are told.
        label: The file, for notes.
        findings: Takes the notes.
        synonyms: Tells headings and totals lines.
        needed: Headings under which every record has a value; a last row that has all of them is
            a record, whatever its first cell says.
    """
    marks = sheet_rows.marks
    cells = sheet_rows.rows.drop("file_row")
    header = [clean_word(cell or "") for cell in cells.row(0)]
    above = _second_header(sheet_rows.above, header)
    whole = [_heading(one, over, synonyms) for one, over in zip(header, above, strict=True)]
    raw = cells.slice(1)
    body = trimmed(raw)
    _tell_trimmed(raw, body, label, findings)
    kept = [
        place
        for place, name in enumerate(body.columns)
        if whole[place] or body[name].null_count() < body.height
    ]  # spreadsheets leave empty columns behind
    columns = [body.columns[place] for place in kept]
    rows = pl.concat(
        [sheet_rows.rows.slice(1).select("file_row"), body.select(columns)], how="horizontal"
    )
    if columns:
        rows = rows.filter(~pl.all_horizontal(pl.col(columns).is_null()))
    rows = _without_repeated_heading(rows, columns, [header[p] for p in kept], label, findings)
    full = _columns_of(needed, dict(zip((header[p] for p in kept), columns, strict=True)))
    rows = _without_totals(rows, columns, label, findings, full)
    if not needed:
        rows = _without_subtotals(rows, columns, label, findings)
        rows = _without_remarks(rows, columns, label, findings)
    titles = _titles(sheet_rows.above, above)
    _tell_titles(titles, label, findings)
    _tell_hidden(rows, marks, label, findings)
    headings = _numbered([whole[place] for place in kept])
    row = int(sheet_rows.rows["file_row"][0])
    struck = tuple(one for one in rows["file_row"] if marks.struck_row(one, len(columns) // 2))
    return Grid(tuple(headings), tuple(columns), row, rows, titles=titles, struck=struck)


def _second_header(above: list[list[str]], header: list[str]) -> list[str]:
    """Return the row just above the header where it names groups of columns, else blanks."""
    blank = [""] * len(header)
    if not above:
        return blank
    cells = [clean_word(cell) for cell in above[-1]][: len(header)]
    if len({cell for cell in cells if cell}) < 2:
        return blank
    return cells + blank[len(cells) :]


def _heading(own: str, over: str, synonyms: Synonyms) -> str:
    both = f"{over} {own}".strip()
    if not over or over == own or (own and synonyms.is_heading(own)):
        return own
    return both


def _numbered(headings: list[str]) -> list[str]:
    seen: dict[str, int] = {}
    numbered = []
    for heading in headings:
        key = folded(heading)
        seen[key] = seen.get(key, 0) + 1
        numbered.append(heading if seen[key] == 1 else f"{heading} ({seen[key]})".strip())
    return numbered


def _tell_trimmed(raw: pl.DataFrame, body: pl.DataFrame, label: str, findings: Findings) -> None:
    cut = sum(int((raw[name] != body[name]).sum()) for name in raw.columns if body[name].len())
    if cut:
        many = "1 cell" if cut == 1 else f"{cut:,} cells"
        said = f"{many} had blanks around the value, seen or unseen; they were trimmed."
        findings.note(Problem(label, None, None, None, said))


def _without_repeated_heading(
    rows: pl.DataFrame, columns: list[str], header: list[str], label: str, findings: Findings
) -> pl.DataFrame:
    named = [(name, text) for name, text in zip(columns, header, strict=True) if text]
    if not named:
        return rows
    again = pl.all_horizontal((pl.col(name) == text).fill_null(False) for name, text in named)
    repeats = rows.filter(again)
    if repeats.is_empty():
        return rows
    shown = ", ".join(str(row) for row in repeats["file_row"].head(5))
    said = f"the heading stands again in row {shown}; it is no record and was left out."
    findings.note(Problem(label, int(repeats["file_row"][0]), None, None, said))
    return rows.filter(~again)


def _columns_of(needed: Sequence[str], places: Mapping[str, str]) -> list[str]:
    """Return the columns of the needed headings; none when a heading is missing."""
    by_name = {heading.casefold(): column for heading, column in places.items()}
    return [by_name[one] for one in needed] if set(needed) <= by_name.keys() else []


def _without_totals(
    rows: pl.DataFrame, columns: list[str], label: str, findings: Findings, full: list[str]
) -> pl.DataFrame:
    """Leave out the last rows that begin as totals lines and have fewer cells than records."""
    last = rows.height
    while last > 0:
        cells = rows.row(last - 1)[1:]
        if not findings.is_total([cell or "" for cell in cells]) or None not in cells:
            break
        if full and rows.select(full).row(last - 1).count(None) == 0:
            break
        before = rows.head(last - 1)
        said = f"is a totals line, not a record, and was left out.{_agrees(before, columns, cells)}"
        first = next(cell for cell in cells if cell)
        findings.note(Problem(label, rows.row(last - 1)[0], None, first, said))
        last -= 1
    return rows.head(last)


def _without_subtotals(
    rows: pl.DataFrame, columns: list[str], label: str, findings: Findings
) -> pl.DataFrame:
    """Leave out rows between the records that begin as totals lines and lack cells."""
    if rows.height > _MOST_SOUGHT or not columns:
        return rows
    totals = [
        row[0]
        for row in rows.iter_rows()
        if None in row[1:] and findings.is_total([cell or "" for cell in row[1:]])
    ]
    for row in totals:
        said = "is a subtotal, not a record, and was left out."
        findings.note(Problem(label, row, None, None, said))
    return rows.filter(~pl.col("file_row").is_in(totals)) if totals else rows


def _agrees(rows: pl.DataFrame, columns: list[str], cells: Sequence[str | None]) -> str:
    """Say whether the numbers of a totals line are the sums or counts of the rows above."""
    off, right = [], 0
    for name, cell in zip(columns, cells, strict=True):
        total = _number(cell)
        if total is None:
            continue
        numbers = rows[name].str.replace(",", ".", literal=True).cast(pl.Float64, strict=False)
        if total in (rows[name].len() - rows[name].null_count(), round(numbers.sum(), 6)):
            right += 1
        else:
            off.append(str(cell))
    if off:
        return f" Its {', '.join(off)} is not the sum of the rows above: are all of them here?"
    return " It agrees with the rows above." if right else ""


def _number(cell: str | None) -> float | None:
    try:
        return float((cell or "").replace(",", "."))
    except ValueError:
        return None


def _titles(above: list[list[str]], second: list[str]) -> tuple[str, ...]:
    rows = above[:-1] if any(second) else above
    cells = (clean_word(cell) for cells in rows for cell in cells if cell.strip())
    return tuple(dict.fromkeys(cells))


def _tell_titles(titles: tuple[str, ...], label: str, findings: Findings) -> None:
    if titles:
        said = "stands above the headings; it is a title, no record, and was left out."
        findings.note(Problem(label, None, None, titles[0][:80], said))


def _tell_hidden(rows: pl.DataFrame, marks: CellMarks, label: str, findings: Findings) -> None:
    hidden = [row for row in rows["file_row"] if row in marks.hidden_rows]
    if hidden:
        many = "1 row is" if len(hidden) == 1 else f"{len(hidden):,} rows are"
        said = f"{many} hidden in the sheet; read all the same."
        findings.note(Problem(label, hidden[0], None, None, said))
    struck = sorted({row for row, _ in marks.struck} & set(rows["file_row"]))
    if struck:
        shown = ", ".join(map(str, struck[:5])) + (", …" if len(struck) > 5 else "")
        said = f"has struck-out cells in row {shown}; what they say was read all the same."
        findings.note(Problem(label, struck[0], None, None, said))


def _without_remarks(
    rows: pl.DataFrame, columns: list[str], label: str, findings: Findings
) -> pl.DataFrame:
    """Leave out last rows that fill hardly any of the columns that records fill."""
    filled = [name for name in columns if rows[name].null_count() < rows.height * _MOSTLY_EMPTY]
    last = rows.height
    left: list[tuple[int, str]] = []
    numbers = rows["file_row"].to_list()
    while last > 1 and len(filled) >= _FEW_COLUMNS:
        cells = rows.row(last - 1, named=True)
        texts = [cells[name] for name in columns if cells[name]]
        usual = sum(cells[name] is not None for name in filled)
        apart = numbers[last - 1] - numbers[last - 2] > 1 or bool(left)
        if len(texts) > _REMARK_CELLS or not (usual <= 1 or (apart and usual * 3 <= len(filled))):
            break
        left.append((numbers[last - 1], texts[0] if texts else ""))
        last -= 1
    if left and not _ends_apart(numbers, last) and len(left) > _REMARK_CELLS:
        return rows  # a table that thins out, not remarks below it
    for row, text in reversed(left):
        said = "is a remark below the table, not a record, and was left out."
        findings.note(Problem(label, row, None, text[:80], said))
    return rows.head(last)


def _ends_apart(numbers: list[int], last: int) -> bool:
    return last < len(numbers) and numbers[last] - numbers[last - 1] > 1
