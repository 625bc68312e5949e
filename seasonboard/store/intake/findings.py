"""What a load found wrong or doubtful: a list a person can work through, however long the file."""

from collections.abc import Sequence
from functools import cache

import polars as pl

from seasonboard.errors import Problem
from seasonboard.terms import nearest

TOLD = 1000
"""So many problems of one kind are told one by one; all are counted."""

SHOWN_ROWS = 5
"""So many row numbers stand in a note about many rows."""

SHOWN_LETTERS = 80
"""A longer value is cut in a message, never in the data."""

NEAREST_SOUGHT = 20
"""For so many values of one kind the nearest known one is looked for."""


class Findings:
    """Gathers problems (the load is refused) and notes (kept, but worth a look).

    Frames handed in carry `file_no` (a place in `labels`) and `file_row` (as in a spreadsheet).
    """

    def __init__(self, labels: Sequence[str]) -> None:
        """Keep the names of the files, in the order of their numbers."""
        self.labels = list(labels)
        self.rejected = 0
        self._problems: list[Problem] = []
        self._notes: list[Problem] = []

    def refuse(self, problem: Problem) -> None:
        """Add one problem about a file or a single row."""
        self.rejected += 1
        self._problems.append(problem)

    def note(self, problem: Problem) -> None:
        """Add one note about a file or a single row."""
        self._notes.append(problem)

    def reject(
        self,
        frame: pl.DataFrame,
        wrong: pl.Expr | pl.Series,
        column: str,
        expected: str,
        *,
        known: Sequence[str] = (),
    ) -> None:
        """Refuse every row of `frame` for which `wrong` holds.

        Args:
            frame: Rows with `file_no`, `file_row` and `column`.
            wrong: A boolean expression or column; null counts as false.
            column: Where the value stands.
            expected: What was expected; `{name}` stands for another cell of the same row.
            known: Values among which a near one is looked for.
        """
        rows = frame.filter(wrong)
        self.rejected += rows.height
        self._problems += self._told(rows, column, expected, known)
        if rows.height > TOLD:
            label = self.labels[rows["file_no"][0]]
            more = f"and {rows.height - TOLD:,} more rows with the same kind of problem."
            self._problems.append(Problem(label, None, column, None, more))

    def doubt(self, frame: pl.DataFrame, odd: pl.Expr, column: str, said: str) -> None:
        """Note the rows of `frame` for which `odd` holds: one note a file, with their count."""
        rows = frame.filter(odd).sort("file_no", "file_row")
        for part in rows.partition_by("file_no", maintain_order=True):
            (first,) = self._told(part.head(1), column, said, ())
            if part.height > 1:
                shown = ", ".join(str(row) for row in part["file_row"].head(SHOWN_ROWS))
                more = ", …" if part.height > SHOWN_ROWS else ""
                counted = f"{first.expected} So are {part.height:,} rows in all: {shown}{more}"
                first = Problem(first.file, first.row, column, first.value, counted)
            self._notes.append(first)

    def problems(self) -> tuple[Problem, ...]:
        """Return the problems, file by file and row by row."""
        return self._in_file_order(self._problems)

    def notes(self) -> tuple[Problem, ...]:
        """Return the notes, file by file and row by row."""
        return self._in_file_order(self._notes)

    def _in_file_order(self, told: list[Problem]) -> tuple[Problem, ...]:
        place = {label: number for number, label in enumerate(self.labels)}
        last = len(place)
        return tuple(sorted(told, key=lambda one: (place.get(one.file, last), one.row or 0)))

    def _told(
        self, rows: pl.DataFrame, column: str, expected: str, known: Sequence[str]
    ) -> list[Problem]:
        names = list(known)
        sought: set[str] = set()

        @cache
        def near(value: str) -> str | None:
            sought.add(value)
            return nearest(value, names) if names and len(sought) <= NEAREST_SOUGHT else None

        told = []
        for row in rows.head(TOLD).iter_rows(named=True):
            value = None if row[column] is None else as_shown(row[column])
            label = self.labels[row["file_no"]]
            said = expected.format(**row)
            close = near(value) if value is not None else None
            told.append(Problem(label, row["file_row"], column, value, said, close))
        return told


def as_shown(value: object) -> str:
    """Return a value as a message shows it."""
    shown = str(value)
    return shown if len(shown) <= SHOWN_LETTERS else shown[: SHOWN_LETTERS - 1] + "…"
