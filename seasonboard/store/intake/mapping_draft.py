"""One sheet's part of a proposed mapping, while it grows."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import polars as pl

from seasonboard.errors import OpenQuestion, Problem
from seasonboard.store.intake.cleaning import clean_word
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.season_years import SeasonYears
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.stored_column import StoredTable

SAMPLE = 200
"""Rows that a proposal looks at."""
_EXAMPLES = 3


@dataclass(slots=True)
class MappingDraft:
    """How one sheet is read, as far as it can be told.

    `stages` is heading → stage of dates side by side, `sites` heading → kind and side of ticks;
    `years` are those of dates without one.
    """

    sheet: OpenSheet
    table: StoredTable
    columns: dict[str, tuple[str, ...]] = field(default_factory=dict)
    constants: dict[str, str] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    dates: str | None = None
    proof: str = ""
    without: set[str] = field(default_factory=set)
    left_out: set[str] = field(default_factory=set)
    stages: dict[str, str] = field(default_factory=dict)
    sites: dict[str, str] = field(default_factory=dict)
    worn: str = ""
    years: SeasonYears | None = None
    questions: list[Problem] = field(default_factory=list)

    def ask(
        self,
        column: str | None,
        said: str,
        value: str | None = None,
        choices: Sequence[str] | None = None,
        *,
        wish: str = "column",
    ) -> None:
        """Add an open question; without choices, any heading that has no column may answer it."""
        row, label = self.sheet.grid.header_row, self.sheet.label
        is_column = wish in {"column", "time"} and column is not None
        is_needed = column in self.table.required or not is_column
        question = OpenQuestion(label, row, column, value, said, None, wish, self.table.name,
                            tuple(self.free() if choices is None else choices),
                            may_skip=not is_needed, may_fill=is_column)  # fmt: skip
        self.questions.append(question)

    def free(self) -> list[str]:
        """Return the headings that no column has yet."""
        used = {heading for many in self.columns.values() for heading in many}
        used |= self.left_out | self.stages.keys() | self.sites.keys() | {self.worn}
        return [one for one in self.sheet.grid.headings if one not in used]


def share_of(holds: pl.Series) -> float:
    """Return the share of a boolean column that is true; 0 of none."""
    return int(holds.sum()) / max(1, len(holds))


def cells_of(grid: Grid, heading: str) -> pl.Series:
    """Return the cells of a column that hold something."""
    return grid.body[grid.places[heading]].drop_nulls()


def examples(grid: Grid, heading: str) -> str:
    """Return a few values of a column, as a proposal shows them."""
    if heading not in grid.places:
        return ""
    return few_of(cells_of(grid, heading))


def few_of(cells: pl.Series) -> str:
    """Return a few values of cells that hold something."""
    cells = cells.head(SAMPLE).unique(maintain_order=True)
    cells = pl.Series(clean_word(one) for one in cells)
    shown = [one if len(one) <= 24 else one[:23] + "…" for one in cells.head(_EXAMPLES)]
    return ", ".join(shown) + (", …" if len(cells) > _EXAMPLES else "") or "nothing"
