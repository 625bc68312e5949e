"""A grid with a day in every column or row, a mark in every cell, and its look in a sheet."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.store.intake.cell_marks import CellMarks
from seasonboard.store.intake.grid import numbered_labels
from seasonboard.store.intake.legends import ATTENDANCE, WEAR
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import folded
from seasonboard.store.intake.written_times import HeadingDay

ACROSS, DOWN = "dates across", "dates down"
FEWEST, LONGEST_MARK = 3, 14
"""Days or people that make a grid, and letters of a mark."""
GAME = re.compile(r"^(?:vs?\.?\s|@|at\s)", re.IGNORECASE)
LeftOut = tuple[int, str]
"""Row and what stands there, of a row that is no person and no day; row 0 is a column."""


@dataclass(frozen=True, slots=True)
class GridDay:
    """One session of a grid: its day, and what stands beside it of half day, time and setting.

    `place` is its column (days across) or row (days down), counted from 1.
    """

    place: int
    heading: str
    day: HeadingDay
    half: str = ""
    time: str = ""
    setting: str = ""
    label: str = ""


@dataclass(frozen=True, slots=True)
class DateGrid:
    """A grid found in a sheet.

    Attributes:
        layout: `dates across` or `dates down`.
        titles: What stands above it, line by line.
        labels: The headings of the columns beside the days, such as “#” and “Player”.
        days: Its sessions.
        people: `place`, and the text under each of the labels.
        cells: `person` (a place of `people`), `day` (a place of `days`), `mark` (null: blank).
        left_out: Rows and columns that are no person and no day.
    """

    layout: str
    titles: tuple[str, ...]
    labels: tuple[str, ...]
    days: tuple[GridDay, ...]
    people: pl.DataFrame
    cells: pl.DataFrame
    left_out: tuple[LeftOut, ...]

    @property
    def marks(self) -> dict[str, int]:
        """Return how often each mark stands, folded, the most frequent first; blanks are none."""
        marks = self.cells["mark"].drop_nulls().str.to_lowercase().value_counts(sort=True)
        return dict(marks.iter_rows())


def grid_holds(grid: DateGrid, name: str) -> str:
    """Return what a grid is of, `attendance` or `wear`, by its titles, labels and name."""
    words = set(folded(" ".join((*grid.titles, *grid.labels, name))).split())
    return WEAR if words & {"worn", "wear", "wore", "guard", "guards", "brace"} else ATTENDANCE


@dataclass(frozen=True, slots=True)
class SheetLook:
    """What both layouts look at in the rows of one sheet, trimmed and of one length."""

    rows: Sequence[Sequence[str]]
    synonyms: Synonyms
    marks: CellMarks

    def setting(self, text: str) -> str:
        """Return `game` or `practice` of a cell that says so; else nothing."""
        word = folded(text)
        if GAME.match(text):
            return "game"
        known = self.synonyms.words.get("setting", {})
        return word if word in {"game", "practice"} else known.get(word, "")

    def is_total(
        self, row: int, own: Sequence[str], marks: Sequence[str], columns: Sequence[int]
    ) -> bool:
        """Say whether a row of a grid is its totals: by its first words, formulas or numbers."""
        if not self.synonyms.totals.isdisjoint((folded(own[-1]).split(" ")[0], folded(own[0]))):
            return True
        formulas = sum((row + 1, column + 1) in self.marks.formulas for column in columns)
        numbers = all(map(is_number, marks)) and any(float(mark) > 1 for mark in marks)
        return bool(marks) and (formulas * 2 >= len(marks) or numbers)

    def date_grid(
        self,
        layout: str,
        labels: Sequence[str],
        days: Sequence[GridDay],
        people: Mapping[int, Sequence[str]],
        others: Sequence[LeftOut],
    ) -> DateGrid:
        """Return a grid; `people` is the place of each → what stands under the labels."""
        labels = numbered_labels(labels, "column {}")
        if layout == ACROSS:
            cells = [
                (one, day.place, self.rows[one - 1][day.place - 1] or None)
                for one in people
                for day in days
            ]
        else:
            cells = [
                (one, day.place, self.rows[day.place - 1][one - 1] or None)
                for day in days
                for one in people
            ]
        texts = [(at, *(text or None for text in own)) for at, own in people.items()]
        schema = {"place": pl.UInt32, **dict.fromkeys(labels, pl.String)}
        marked = {"person": pl.UInt32, "day": pl.UInt32, "mark": pl.String}
        return DateGrid(
            layout, (), labels, tuple(days),
            pl.DataFrame(texts, schema, orient="row"), pl.DataFrame(cells, marked, orient="row"),
            tuple(others),
        )  # fmt: skip

    def titles(self, top: int) -> tuple[str, ...]:
        """Return what stands in the rows above row `top`, each text once."""
        return tuple(dict.fromkeys(cell for row in self.rows[:top] for cell in row if cell))


def is_number(text: str) -> bool:
    """Say whether a cell is a plain number."""
    return re.fullmatch(r"\d+(?:\.\d+)?", text) is not None
