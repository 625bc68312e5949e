"""What a load found wrong or doubtful: a list a person can work through, however long the file."""

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from functools import cache
from itertools import islice

import polars as pl

from seasonboard.errors import Problem
from seasonboard.file_limits import MOST_COMPARED
from seasonboard.store.intake.text_columns import folded
from seasonboard.terms import nearest

LISTED = 1000
"""So many problems of one kind are listed one by one; all are counted."""

SHOWN_LETTERS = 80
"""A longer value is cut in a message, never in the data."""

NEAREST_SOUGHT = 20
"""For so many values of one kind the nearest known one is looked for, if few enough are known."""

_REFUSED = {"file_no": pl.UInt32, "file_row": pl.UInt32} | dict.fromkeys(
    ("column", "value", "reason"), pl.String
)
_DIGITS = re.compile("[0-9]+")


class Findings:
    """Gathers problems (the load is refused) and notes (kept, but worth a look).

    Frames handed in carry `file_no` (a place in `labels`) and `file_row` (as in a spreadsheet);
    `origins` gives the row and the heading in the file where `file_row` is not it. Of files in
    `grouped` each wrong value is told once, with its count.
    """

    def __init__(
        self, labels: Sequence[str], *, totals: Collection[str] = (), keep_rows: bool = False
    ) -> None:
        """Keep the names of the files, in the order of their numbers.

        `totals` is how the first cell of a totals line may begin, folded; `keep_rows` also keeps
        every refused row, for the file of rejected rows.
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
        """Refuse single rows of a file before their cells are read: row, expected, as written."""
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

    def is_total(self, cells: Sequence[str | None]) -> bool:
        """Say whether a row begins as a totals line does: “Total”, or “Subtotal WSOC”."""
        first = next((cell for cell in cells if cell and cell.strip()), "")
        words = folded(_DIGITS.sub("", first))
        return words in self._totals or any(
            words.startswith(f"{one} ") for one in self._totals if one.endswith("total")
        )

    def refused_rows(self) -> pl.DataFrame:
        """Return every refused row with `file_no`, `file_row`, `column`, `value` and `reason`."""
        return pl.concat([_refused(0, (), None, (), ()), *self._refused])

    def note(self, problem: Problem) -> None:
        """Add one note about a file or a single row."""
        self._notes.append(problem)

    def tell(
        self,
        label: str,
        said: str,
        row: int | None = None,
        column: str | None = None,
        value: str | None = None,
    ) -> None:
        """Add a note in the words `said`: about a sheet, or a row or cell of it."""
        self._notes.append(Problem(label, row, column, value, said))

    def forget(self, label: str) -> None:
        """Take back what was noted of a sheet that is read in another way after all."""
        self._notes = [note for note in self._notes if note.file != label]

    def reject(
        self,
        frame: pl.DataFrame,
        wrong: pl.Expr | pl.Series,
        column: str,
        expected: str,
        *,
        choices: Collection[str] = (),
    ) -> None:
        """Refuse every row of `frame` for which `wrong` holds; null counts as false.

        `{name}` in `expected` stands for another cell of the row. Among `choices` the value nearest
        to that of `column` is looked for.
        """
        rows = frame.filter(wrong)
        if rows.is_empty():
            return
        self.rejected += rows.height
        if self.keep_rows:
            self._keep(rows, column, expected, choices)
        if int(rows["file_no"][0]) in self.grouped:
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
            (note,) = self._problems_of(part.head(1), column, said, ())
            if part.height > 1:
                number = int(part["file_no"][0])
                rows_shown = dict.fromkeys(self.origin(number, row)[0] for row in part["file_row"])
                more = f" So are {part.height:,} rows in all: {first_few(rows_shown)}"
                note = Problem(note.file, note.row, column, note.value, note.expected + more)
            self._notes.append(note)

    def _keep(
        self, rows: pl.DataFrame, column: str, expected: str, choices: Collection[str]
    ) -> None:
        """Keep every row; a reason that hangs on the value alone is made once per value."""
        own = "{" in expected
        values = rows if own else rows.unique(column, keep="first", maintain_order=True)
        problems = self._problems_of(values, column, expected, choices, most=None)
        reasons = pl.Series("_reason", [problem.advice for problem in problems], dtype=pl.String)
        if own:
            refused = rows.select("file_no", "file_row", column, reasons)
        else:
            refused = rows.select("file_no", "file_row", column).join(
                values.select(column, reasons), on=column, how="left", nulls_equal=True
            )
        row_no = ("file_no", "file_row")
        refused = refused.select(
            *row_no, column=pl.lit(column), value=pl.col(column), reason="_reason"
        )
        self._refused.append(refused.cast(pl.Schema(_REFUSED)))

    def _by_value(
        self, rows: pl.DataFrame, column: str, expected: str, choices: Collection[str]
    ) -> list[Problem]:
        """Tell each value once with its count, as a mapping would have to translate it."""
        many = rows.with_columns(_rows=pl.len().over(column, "file_no"))
        first = many.unique(column, keep="first", maintain_order=True)
        problems = self._problems_of(first, column, expected, choices)
        said = "stands in {:,} rows, the first of which is told here. It "
        return [
            replace(one, expected=said.format(count) + one.expected) if count > 1 else one
            for one, count in zip(problems, first["_rows"].head(LISTED), strict=True)
        ]

    def problems(self) -> tuple[Problem, ...]:
        """Return the problems, file by file and row by row."""
        return self._in_file_order(self._problems)

    def notes(self) -> tuple[Problem, ...]:
        """Return the notes, file by file and row by row."""
        return self._in_file_order(self._notes)

    def _in_file_order(self, problems: list[Problem]) -> tuple[Problem, ...]:
        order = {label: number for number, label in enumerate(self.labels)}
        last = len(order)
        rest = max((one.row or 0 for one in problems), default=0) + 1  # “and 99 more rows”

        def file_order(one: Problem) -> tuple[int, int]:
            is_rest = one.row is None and one.expected.startswith("and ")
            return order.get(one.file, last), rest if is_rest else one.row or 0

        return tuple(sorted(problems, key=file_order))

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
            close = near(value) if value is not None else None
            file_row, cell = self.origin(row["file_no"], row["file_row"])
            heading = f"“{cell}” ({column})" if cell else column
            label = self.labels[row["file_no"]]
            said = expected.format(**row)
            problems.append(Problem(label, file_row, heading, value, said, close))
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


def _refused(
    number: int, rows: Sequence[int], column: str | None, values: Sequence[str], why: Sequence[str]
) -> pl.DataFrame:
    count = len(rows)
    cells = [[number] * count, rows, [column] * count, values, why]
    return pl.DataFrame(dict(zip(_REFUSED, cells, strict=True)), schema=_REFUSED)


SHOWN = 5
"""So many row numbers stand in a note about many rows."""


def counted(many: int, one: str, more: str) -> str:
    """Return a count with its words: `1 row is`, `1,200 rows are`."""
    return f"{many:,} {one if many == 1 else more}"


def quoted(words: Iterable[object]) -> str:
    """Return words in quotation marks, commas between them."""
    return ", ".join(f"“{word}”" for word in words)


def first_few(items: Iterable[object], most: int = SHOWN) -> str:
    """Return the first items, and dots where there are more."""
    shown = [str(item) for item in islice(items, most + 1)]
    return ", ".join(shown[:most]) + (", …" if len(shown) > most else "")
