"""A grid with a day in every column or row and a mark in every cell."""

from dataclasses import dataclass

import polars as pl

from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.heading_days import HeadingDay
from seasonboard.store.intake.legends import ATTENDANCE, WEAR

ACROSS, DOWN = "dates across", "dates down"


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
        left_out: Row and what stands there, of rows that are no person and no day; row 0 is a
            column.
    """

    layout: str
    titles: tuple[str, ...]
    labels: tuple[str, ...]
    days: tuple[GridDay, ...]
    people: pl.DataFrame
    cells: pl.DataFrame
    left_out: tuple[tuple[int, str], ...]

    @property
    def marks(self) -> list[str]:
        """Return the different marks, folded, the most frequent first; a blank is none of them."""
        marks = self.cells["mark"].drop_nulls().str.to_lowercase().value_counts(sort=True)
        return marks["mark"].to_list()


def grid_holds(grid: DateGrid, name: str) -> str:
    """Return what a grid is of, `attendance` or `wear`, by its titles, labels and name."""
    words = set(folded(" ".join((*grid.titles, *grid.labels, name))).split())
    return WEAR if words & {"worn", "wear", "wore", "guard", "guards", "brace"} else ATTENDANCE
