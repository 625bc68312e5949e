"""One sheet as it is meant: its headings, and the rows that are records."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.store.intake.cell_marks import CellMarks
from seasonboard.store.intake.cleaning import clean_word, trimmed
from seasonboard.store.intake.layout import SheetRows
from seasonboard.store.intake.problems import Findings, counted, first_few
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import folded

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

    @property
    def folded_places(self) -> dict[str, str]:
        """Return folded heading → column of `body`."""
        return {folded(heading): column for heading, column in self.places.items()}

    def row_shown(self, file_row: int) -> int:
        """Return the row of the file that a person sees."""
        if self.origins is None:
            return file_row
        return int(self.origins.filter(pl.col("file_row") == file_row)["row"][0])


def numbered_by_cell(rows: pl.DataFrame) -> tuple[pl.DataFrame, pl.DataFrame]:
    """Give rows that were made of cells, named by `row` and `cell`, numbers of their own.

    Returns:
        The rows with `file_row` in place of those, and the origins of a `Grid`.
    """
    numbered = rows.with_row_index("file_row", 1)
    return numbered.drop("row", "cell"), numbered.select("file_row", "row", "cell")


def numbered_labels(labels: Sequence[str], blank: str = "") -> tuple[str, ...]:
    """Return headings so that none stands twice; `blank` names a blank one after its place."""
    seen: dict[str, int] = {}
    numbered = []
    for nth, label in enumerate(labels, 1):
        own = label or blank.format(nth)
        times = seen[folded(own)] = seen.get(folded(own), 0) + 1
        numbered.append(own if times == 1 else f"{own} ({times})".strip())
    return tuple(numbered)


def as_grid(
    sheet_rows: SheetRows,
    label: str,
    findings: Findings,
    synonyms: Synonyms,
    needed: Sequence[str] = (),
) -> Grid:
    """Find the headings and the records of a sheet, whose rows begin with the header.

    Left out and noted: title lines above the header, the heading repeated further down, totals,
    remarks below. Trimmed cells and hidden rows are noted. Under the headings `needed` every record
    has a value; a last row that has all of them is a record, whatever its first cell says.
    """
    marks = sheet_rows.marks
    cells = sheet_rows.rows.drop("file_row")
    header = [clean_word(cell or "") for cell in cells.row(0)]
    above = _second_header(sheet_rows.above, header)
    whole = [_heading(one, over, synonyms) for one, over in zip(header, above, strict=True)]
    raw = cells.slice(1)
    body = trimmed(raw)
    _tell_trimmed(raw, body, label, findings)
    filled = [  # spreadsheets leave empty columns behind
        nth for nth, cells in enumerate(body) if whole[nth] or cells.null_count() < body.height
    ]
    columns = [body.columns[nth] for nth in filled]
    own = [header[nth] for nth in filled]
    file_rows = sheet_rows.rows.slice(1).select("file_row")
    rows = pl.concat([file_rows, body.select(columns)], how="horizontal")
    if columns:
        rows = rows.filter(~pl.all_horizontal(pl.col(columns).is_null()))
    records = _Records(rows, columns, label, findings)
    records.leave_out_headings(own)
    by_name = {text.casefold(): column for text, column in zip(own, columns, strict=True)}
    full = [by_name[name] for name in needed] if set(needed) <= by_name.keys() else []
    records.leave_out_totals(full)
    if not full:
        records.leave_out_subtotals()
        records.leave_out_remarks()
    titles = _titles(sheet_rows.above[:-1] if any(above) else sheet_rows.above)
    if titles:
        said = "stands above the headings; it is a title, no record, and was left out."
        findings.tell(label, said, value=titles[0][:80])
    rows = records.rows
    _tell_marks(rows, marks, label, findings)
    struck = _among(rows, marks.struck_rows(len(columns) // 2))
    headings = numbered_labels([whole[nth] for nth in filled])
    first = int(sheet_rows.rows["file_row"][0])
    return Grid(headings, tuple(columns), first, rows, titles=titles, struck=struck)


def _second_header(above: list[list[str]], header: list[str]) -> list[str]:
    """Return the row just above the header where it names groups of columns, else blanks."""
    cells = [clean_word(cell) for cell in above[-1]][: len(header)] if above else []
    if len(set(filter(None, cells))) < 2:
        cells = []
    return cells + [""] * (len(header) - len(cells))


def _heading(own: str, over: str, synonyms: Synonyms) -> str:
    if not over or over == own or (own and synonyms.is_heading(own)):
        return own
    return f"{over} {own}".strip()


def _tell_trimmed(raw: pl.DataFrame, body: pl.DataFrame, label: str, findings: Findings) -> None:
    cut = sum(int((before != after).sum()) for before, after in zip(raw, body, strict=True))
    if cut:
        said = " had blanks around the value, seen or unseen; they were trimmed."
        findings.tell(label, counted(cut, "cell", "cells") + said)


def _titles(above: list[list[str]]) -> tuple[str, ...]:
    cells = (clean_word(cell) for cells in above for cell in cells if cell.strip())
    return tuple(dict.fromkeys(cells))


def _among(rows: pl.DataFrame, numbers: Collection[int]) -> tuple[int, ...]:
    """Return those of the numbers that are of rows, in their order."""
    own = rows["file_row"]
    return tuple(own.filter(own.is_in(list(numbers)))) if numbers else ()


def _tell_marks(rows: pl.DataFrame, marks: CellMarks, label: str, findings: Findings) -> None:
    """Tell hidden rows and struck-out cells, which are read all the same."""
    hidden = _among(rows, marks.hidden_rows)
    if hidden:
        many = counted(len(hidden), "row is", "rows are")
        findings.tell(label, f"{many} hidden in the sheet; read all the same.", hidden[0])
    struck = _among(rows, {row for row, _ in marks.struck})
    if struck:
        said = f"has struck-out cells in row {first_few(struck)}; what they say was read all the "
        findings.tell(label, said + "same.", struck[0])


@dataclass(slots=True)
class _Records:
    """The rows below a header, from which those that are no records are taken out and told."""

    rows: pl.DataFrame
    columns: list[str]
    label: str
    findings: Findings

    def leave_out_headings(self, header: list[str]) -> None:
        """Leave out rows that repeat the header."""
        if not any(header):
            return
        cells = [pl.col(n) == text for n, text in zip(self.columns, header, strict=True) if text]
        again = pl.all_horizontal(one.fill_null(False) for one in cells)
        repeats = self.rows.filter(again)["file_row"].to_list()
        if repeats:
            shown = first_few(repeats)
            said = f"the heading stands again in row {shown}; it is no record and was left out."
            self.findings.tell(self.label, said, repeats[0])
            self.rows = self.rows.filter(~again)

    def leave_out_totals(self, full: list[str]) -> None:
        """Leave out the last rows that begin as totals and lack cells, but not of `full`."""
        while self.rows.height:
            row, *cells = self.rows.row(-1)
            if not self.findings.is_total(cells) or None not in cells:
                break
            if full and None not in self.rows.select(full).row(-1):
                break
            self.rows = self.rows.head(-1)
            said = "is a totals line, not a record, and was left out." + self._agreement(cells)
            self.findings.tell(self.label, said, row, value=next(filter(None, cells)))

    def _agreement(self, cells: Sequence[str | None]) -> str:
        """Say whether the numbers of a totals line are the sums or counts of the rows above."""
        sums = dict[str, bool]()
        for name, cell in zip(self.columns, cells, strict=True):
            total = _number(cell)
            if cell and total is not None:
                column = self.rows[name]
                plain = column.str.replace(",", ".", literal=True).cast(pl.Float64, strict=False)
                right = total in (len(column) - column.null_count(), round(plain.sum(), 6))
                sums[cell] = right and sums.get(cell, True)
        if off := [cell for cell, right in sums.items() if not right]:
            return f" Its {', '.join(off)} is not the sum of the rows above: are all of them here?"
        return " It agrees with the rows above." if sums else ""

    def leave_out_subtotals(self) -> None:
        """Leave out rows between the records that begin as totals lines and lack cells."""
        if self.rows.height > _MOST_SOUGHT or not self.columns:
            return
        totals = [
            row
            for row, *cells in self.rows.iter_rows()
            if None in cells and self.findings.is_total(cells)
        ]
        for row in totals:
            self.findings.tell(self.label, "is a subtotal, not a record, and was left out.", row)
        self.rows = self.rows.filter(~pl.col("file_row").is_in(totals)) if totals else self.rows

    def leave_out_remarks(self) -> None:
        """Leave out last rows that fill hardly any of the columns that records fill."""
        rows, numbers = self.rows, self.rows["file_row"].to_list()
        most = rows.height * _MOSTLY_EMPTY
        filled = [name for name in self.columns if rows[name].null_count() < most]
        last = rows.height
        remarks: list[tuple[int, str]] = []
        while last > 1 and len(filled) >= _FEW_COLUMNS:
            cells = rows.row(last - 1, named=True)
            texts = [cells[name] for name in self.columns if cells[name]]
            usual = sum(cells[name] is not None for name in filled)
            apart = numbers[last - 1] - numbers[last - 2] > 1 or bool(remarks)
            is_bare = usual <= 1 or (apart and usual * 3 <= len(filled))
            if len(texts) > _REMARK_CELLS or not is_bare:
                break
            remarks.append((numbers[last - 1], texts[0] if texts else ""))
            last -= 1
        ends_apart = last < len(numbers) and numbers[last] - numbers[last - 1] > 1
        if len(remarks) > _REMARK_CELLS and not ends_apart:
            return  # a table that thins out, not remarks below it
        for row, text in reversed(remarks):
            said = "is a remark below the table, not a record, and was left out."
            self.findings.tell(self.label, said, row, value=text[:80])
        self.rows = rows.head(last)


def _number(cell: str | None) -> float | None:
    try:
        return float((cell or "").replace(",", "."))
    except ValueError:
        return None
