"""One column of one file as text, and what is known of how its cells are written."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import polars as pl

from seasonboard.errors import OpenQuestion, Problem
from seasonboard.store.intake.problems import Findings, counted
from seasonboard.store.intake.seasons import SeasonYears
from seasonboard.store.intake.synonyms import Synonyms, shipped_synonyms
from seasonboard.stored_column import StoredColumn


@dataclass(frozen=True, slots=True)
class WrittenAs:
    """What is known of the writing of one file.

    Attributes:
        synonyms: Spellings, units, sizes, marks for missing values.
        dates: `dmy`, `mdy`, `ymd` or None: settled from each column.
        decimal: `comma`, `point` or None: settled from each column.
        units: Column → unit of numbers written without one.
        time: The time of instants written without one, `HH:MM`.
        from_1904: Whether day numbers count from 1904.
        years: The year of dates without one.
    """

    synonyms: Synonyms = field(default_factory=shipped_synonyms)
    dates: str | None = None
    decimal: str | None = None
    units: Mapping[str, str] = field(default_factory=dict)
    time: str | None = None
    from_1904: bool = False
    years: SeasonYears | None = None


@dataclass(frozen=True, slots=True)
class ColumnText:
    """One column of one file, to be read as values: its rows as text, and what its cells hold."""

    column: StoredColumn
    text: pl.DataFrame
    findings: Findings
    written: WrittenAs

    @property
    def name(self) -> str:
        """Return the column's name."""
        return self.column.name

    @property
    def cells(self) -> pl.Series:
        """Return its cells."""
        return self.text[self.name]

    def of(self, text: pl.DataFrame) -> "ColumnText":
        """Return the same column with other rows."""
        return replace(self, text=text)

    def by_value(self) -> pl.DataFrame:
        """Return its rows with the cell as `value`, those without one left out."""
        rows = self.text.select("file_no", "file_row", value=pl.col(self.name))
        return rows.drop_nulls("value")

    def joined(self, by_value: pl.DataFrame) -> pl.DataFrame:
        """Return, for every row, what was read of its value."""
        values = self.text.select(value=pl.col(self.name))
        return values.join(by_value, on="value", how="left", maintain_order="left")

    def reject(
        self, wrong: pl.Expr | pl.Series, expected: str, choices: Collection[str] = ()
    ) -> None:
        """Refuse the rows for which `wrong` holds; a near one of `choices` is offered."""
        self.findings.reject(self.text, wrong, self.name, expected, choices=choices)

    def reject_unread(self, read: pl.DataFrame, expected: str) -> None:
        """Refuse the rows that hold something and could not be read."""
        self.reject(read[self.name].is_null() & self.cells.is_not_null(), expected)

    def refuse(
        self, row: Mapping[str, Any], said: str, wish: str = "", choices: tuple[str, ...] = ()
    ) -> None:
        """Refuse the column as a whole, as one of its rows shows; `choices` may answer `wish`."""
        cell = self._cell_at(row)
        asks = OpenQuestion(*cell, said, wish=wish, choices=choices)
        self.findings.refuse(asks if choices else Problem(*cell, said))

    def note_first(self, rows: pl.DataFrame, said: str, *, is_counted: bool = True) -> None:
        """Note what was made of rows, by the first of them; `{name}` in it is one of its cells."""
        if rows.is_empty():
            return
        row = rows.row(0, named=True)
        many = counted(rows.height, "cell", "cells")
        text = f"{said.format(**row)} ({many})." if is_counted else said
        self.findings.note(Problem(*self._cell_at(row), text))

    def _cell_at(self, row: Mapping[str, Any]) -> tuple[str, int, str, str]:
        number = row["file_no"]
        file_row, _ = self.findings.origin(number, row["file_row"])
        return (self.findings.labels[number], file_row, self.name, row["value"])
