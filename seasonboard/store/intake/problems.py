"""What a load found wrong or doubtful: a list a person can work through, however long the file."""

import re
from collections.abc import Collection, Sequence
from dataclasses import replace
from functools import cache

import polars as pl

from seasonboard.errors import Problem
from seasonboard.file_limits import MOST_COMPARED
from seasonboard.store.intake.folding import folded
from seasonboard.terms import nearest

LISTED = 1000
"""So many problems of one kind are listed one by one; all are counted."""

SHOWN_ROWS = 5
"""So many row numbers stand in a note about many rows."""

SHOWN_LETTERS = 80
"""A longer value is cut in a message, never in the data."""

NEAREST_SOUGHT = 20
"""For so many values of one kind the nearest known one is looked for, if few enough are known."""


_REFUSED = {
    "file_no": pl.UInt32,
    "file_row": pl.UInt32,
    "column": pl.String,
    "value": pl.String,
    "reason": pl.String,
}


_DIGITS = re.compile("[0-9]+")


class Findings:
    """Gathers problems (the load is refused) and notes (kept, but worth a look).

    Frames handed in carry `file_no` (a place in `labels`) and `file_row` (as in a spreadsheet);
    `origins` gives the row and the heading in the file where `file_row` is not it.
    """

    def __init__(
        self, labels: Sequence[str], *, totals: Collection[str] = (), keep_rows: bool = False
    ) -> None:
        """Keep the names of the files, in the order of their numbers.

        Args:
            labels: The files.
            totals: How the first cell of a totals line may begin, folded.
            keep_rows: Also keep every refused row, for the file of rejected rows.
        """
        self.labels = list(labels)
        self.rejected = 0
        self.fatal = 0
        self.keep_rows = keep_rows
        self.grouped: set[int] = set()
        self.origins: dict[int, dict[int, tuple[int, str]]] = {}
        self._totals = totals
        self._refused: list[pl.DataFrame] = []
        self._problems: list[Problem] = []
        self._notes: list[Problem] = []

    def refuse(self, problem: Problem) -> None:
        """Add one problem about a whole file or column: no row of it can be taken."""
        self.rejected += 1
        self.fatal += 1
        self._problems.append(problem)

    def reject_rows(self, label: str, refused: Sequence[tuple[int, str, str]]) -> None:
        """Refuse single rows of one file before their cells are read.

        Args:
            label: The file.
            refused: Row, what was expected, and the row as it is written.
        """
        self.rejected += len(refused)
        self._problems += [
            Problem(label, row, None, None, expected) for row, expected, _ in refused[:LISTED]
        ]
        if len(refused) > LISTED:
            more = f"and {len(refused) - LISTED:,} more rows with too many or too few cells."
            self._problems.append(Problem(label, None, None, None, more))
        if refused and self.keep_rows:
            rows, reasons, written = zip(*refused, strict=True)
            number = self.labels.index(label)
            self._refused.append(_refused(number, rows, None, written, reasons))

    def is_total(self, cells: Sequence[str]) -> bool:
        """Say whether a row begins as a totals line does."""
        first = next((cell for cell in cells if cell.strip()), "")
        return folded(_DIGITS.sub("", first)) in self._totals

    def refused_rows(self) -> pl.DataFrame:
        """Return every refused row with `file_no`, `file_row`, `column`, `value` and `reason`."""
        return pl.concat([_refused(0, (), None, (), ()), *self._refused])

    def note(self, problem: Problem) -> None:
        """Add one note about a file or a single row."""
        self._notes.append(problem)

    def forget(self, label: str) -> None:
        """Take back what was noted of a sheet that is read in another way after all."""
        self._notes = [one for one in self._notes if one.file != label]

    def reject(
        self,
        frame: pl.DataFrame,
        wrong: pl.Expr | pl.Series,
        column: str,
        expected: str,
        *,
        choices: Collection[str] = (),
    ) -> None:
        """Refuse every row of `frame` for which `wrong` holds.

        Args:
            frame: Rows with `file_no`, `file_row` and `column`.
            wrong: A boolean expression or column; null counts as false.
            column: Where the value stands.
            expected: What was expected; `{name}` stands for another cell of the same row.
            choices: Values among which a near one is looked for.
        """
        rows = frame.filter(wrong)
        self.rejected += rows.height
        if self.keep_rows and rows.height:
            self._keep(rows, column, expected, choices)
        if rows.height and int(rows["file_no"][0]) in self.grouped:
            self._problems += self._by_value(rows, column, expected, choices)
            return
        self._problems += self._problems_of(rows, column, expected, choices)
        if rows.height > LISTED:
            label = self.labels[rows["file_no"][0]]
            more = f"and {rows.height - LISTED:,} more rows with the same kind of problem."
            self._problems.append(Problem(label, None, column, None, more))

    def doubt(self, frame: pl.DataFrame, odd: pl.Expr | pl.Series, column: str, said: str) -> None:
        """Note the rows of `frame` for which `odd` holds: one note a file, with their count."""
        rows = frame.filter(odd).sort("file_no", "file_row")
        for part in rows.partition_by("file_no", maintain_order=True):
            (first,) = self._problems_of(part.head(1), column, said, ())
            if part.height > 1:
                number = int(part["file_no"][0])
                file_rows = list(
                    dict.fromkeys(self.origin(number, row)[0] for row in part["file_row"])
                )
                shown = ", ".join(map(str, file_rows[:SHOWN_ROWS]))
                more = ", …" if len(file_rows) > SHOWN_ROWS else ""
                counted = f"{first.expected} So are {part.height:,} rows in all: {shown}{more}"
                first = Problem(first.file, first.row, column, first.value, counted)
            self._notes.append(first)

    def _keep(
        self, rows: pl.DataFrame, column: str, expected: str, choices: Collection[str]
    ) -> None:
        """Keep every row; a reason that hangs on the value alone is made once per value."""
        if "{" in expected:
            reasons = [
                _reason(one)
                for one in self._problems_of(rows, column, expected, choices, most=None)
            ]
            kept = rows.with_columns(_reason=pl.Series(reasons, dtype=pl.String))
        else:
            values = rows.unique(column, keep="first", maintain_order=True)
            told = self._problems_of(values, column, expected, choices, most=None)
            reasons = [_reason(one) for one in told]
            by_value = values.select(column, _reason=pl.Series(reasons, dtype=pl.String))
            plain = rows.select("file_no", "file_row", column)
            kept = plain.join(by_value, on=column, how="left", nulls_equal=True)
        value = pl.col(column).cast(pl.String)
        kept = kept.select(
            "file_no", "file_row", column=pl.lit(column), value=value, reason="_reason"
        )
        self._refused.append(kept.cast(pl.Schema(_REFUSED)))

    def _by_value(
        self, rows: pl.DataFrame, column: str, expected: str, choices: Collection[str]
    ) -> list[Problem]:
        """Tell each value once with its count, as a mapping would have to translate it."""
        counted = rows.with_columns(
            _rows=pl.len().over(column, "file_no"), _nth=pl.int_range(pl.len()).over(column)
        ).filter(pl.col("_nth") == 0)
        problems = self._problems_of(counted, column, expected, choices)
        rows_each = counted["_rows"].head(LISTED)
        for place, (one, many) in enumerate(zip(problems, rows_each, strict=True)):
            if many > 1:
                said = f"stands in {many:,} rows, the first of which is told here. It "
                problems[place] = replace(one, expected=said + one.expected)
        return problems

    def problems(self) -> tuple[Problem, ...]:
        """Return the problems, file by file and row by row."""
        return self._in_file_order(self._problems)

    def notes(self) -> tuple[Problem, ...]:
        """Return the notes, file by file and row by row."""
        return self._in_file_order(self._notes)

    def _in_file_order(self, problems: list[Problem]) -> tuple[Problem, ...]:
        order = {label: number for number, label in enumerate(self.labels)}
        last = len(order)
        return tuple(sorted(problems, key=lambda one: (order.get(one.file, last), one.row or 0)))

    def _problems_of(
        self,
        rows: pl.DataFrame,
        column: str,
        expected: str,
        choices: Collection[str],
        *,
        most: int | None = LISTED,
    ) -> list[Problem]:
        names = list(choices)
        most_sought = min(NEAREST_SOUGHT, MOST_COMPARED // max(1, len(names)))
        sought: set[str] = set()

        @cache
        def near(value: str) -> str | None:
            sought.add(value)
            return nearest(value, names) if names and len(sought) <= most_sought else None

        problems = []
        for row in (rows if most is None else rows.head(most)).iter_rows(named=True):
            value = None if row[column] is None else as_shown(row[column])
            label = self.labels[row["file_no"]]
            said = expected.format(**row)
            close = near(value) if value is not None else None
            file_row, cell = self.origin(row["file_no"], row["file_row"])
            named = f"“{cell}” ({column})" if cell else column
            problems.append(Problem(label, file_row, named, value, said, close))
        return problems

    def with_origins(self, rows: pl.DataFrame) -> pl.DataFrame:
        """Return rows whose `file_row` is the row of the file that a person sees."""
        if not self.origins:
            return rows
        pairs = rows.select("file_no", "file_row").iter_rows()
        shown = pl.Series([self.origin(number, row)[0] for number, row in pairs], dtype=pl.UInt32)
        return rows.with_columns(file_row=shown)

    def origin(self, file_no: int, file_row: int) -> tuple[int, str]:
        """Return the row of the file that a row was made of, and the heading of its cell."""
        return self.origins.get(file_no, {}).get(file_row, (file_row, ""))


def as_shown(value: object) -> str:
    """Return a value as a message shows it."""
    shown = str(value)
    return shown if len(shown) <= SHOWN_LETTERS else shown[: SHOWN_LETTERS - 1] + "…"


def _reason(problem: Problem) -> str:
    near = f" Did you mean “{problem.nearest}”?" if problem.nearest else ""
    return problem.expected + near


def _refused(
    number: int, rows: Sequence[int], column: str | None, values: Sequence[str], why: Sequence[str]
) -> pl.DataFrame:
    count = len(rows)
    cells = [[number] * count, rows, [column] * count, values, why]
    return pl.DataFrame(dict(zip(_REFUSED, cells, strict=True)), schema=_REFUSED)
