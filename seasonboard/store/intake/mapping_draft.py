"""One sheet's part of a proposed mapping, while it grows."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import polars as pl

from seasonboard.errors import OpenQuestion, Problem
from seasonboard.store.intake.cleaning import clean_word
from seasonboard.store.intake.draft_knowledge import DraftKnowledge
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.header import own_columns, stands_in
from seasonboard.store.intake.seasons import SeasonYears
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.wording import first_few
from seasonboard.stored_column import StoredTable

SAMPLE = 200
"""Rows that a proposal looks at."""
_EXAMPLES, _LONGEST_EXAMPLE = 3, 24


@dataclass(slots=True)
class MappingDraft:
    """How one sheet is read, as far as it can be told by what is `known`.

    `stages` is heading → stage of dates side by side, `sites` heading → kind and side of ticks,
    `worn` the heading that says whether a guard was worn; columns in `without` have no heading,
    headings in `left_out` no column; `years` are those of dates without one, `proof` says what
    settles their order.
    """

    sheet: OpenSheet
    table: StoredTable
    known: DraftKnowledge
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

    @property
    def synonyms(self) -> Synonyms:
        """Return what headings and values may be called."""
        return self.known.synonyms

    @property
    def own(self) -> list[str]:
        """Return the columns that its table may have in a file."""
        return own_columns(self.table)

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

    def lacks(self, column: str) -> bool:
        """Say whether a column has neither a heading nor a value, and may get one."""
        settled = {*self.columns, *self.constants, *self.without}
        return column not in settled and not stands_in(self.table, column, self.columns)

    def cells(self, heading: str) -> pl.Series:
        """Return the first cells under a heading that hold something."""
        return cells_of(self.sheet.grid, heading).head(SAMPLE)

    def examples(self, heading: str) -> str:
        """Return a few values under a heading, as a proposal shows them."""
        return examples(self.sheet.grid, heading)


def share_of(holds: pl.Series) -> float:
    """Return the share of a boolean column that is true; 0 of none."""
    return int(holds.sum()) / max(1, len(holds))


def cells_of(grid: Grid, heading: str) -> pl.Series:
    """Return the cells of a column that hold something."""
    return grid.body[grid.places[heading]].drop_nulls()


def examples(grid: Grid, heading: str) -> str:
    """Return a few values of a column, as a proposal shows them."""
    return few_of(cells_of(grid, heading)) if heading in grid.places else ""


def few_of(cells: pl.Series) -> str:
    """Return a few values of cells that hold something."""
    most = _LONGEST_EXAMPLE
    words = [clean_word(one) for one in cells.head(SAMPLE).unique(maintain_order=True)]
    shown = [one if len(one) <= most else one[: most - 1] + "…" for one in words]
    return first_few(shown, _EXAMPLES) or "nothing"
