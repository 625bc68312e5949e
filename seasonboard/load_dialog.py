"""How a load speaks with the person who wishes for it, on the command line and on the board."""

from dataclasses import dataclass, field
from typing import Protocol

from seasonboard.errors import Problem
from seasonboard.load_options import LoadOptions
from seasonboard.sheet_readings import SheetReading
from seasonboard.store_outcomes import TablePlan

FIRST_ROWS = 8
"""Rows of a table that a summary holds to be looked at."""
MOST_CHANGES = 200
"""Changed cells that a summary holds; the others are only counted."""


@dataclass(frozen=True, slots=True)
class CellChange:
    """One cell that would change; values as text, None when missing."""

    file: str
    file_row: int
    table: str
    row_key: str
    column: str
    old: str | None
    new: str | None


@dataclass(frozen=True, slots=True)
class FirstRows:
    """The first of the rows that a plan writes into a table: cells as text, None when missing.

    `rows` is how many it writes; only columns that hold anything are among `columns`.
    """

    table: str
    rows: int
    columns: tuple[str, ...]
    cells: tuple[tuple[str | None, ...], ...]


@dataclass(frozen=True, slots=True)
class PlanSummary:
    """What a load would do, as a person is shown it.

    Attributes:
        tables: What each file would do to its table.
        changes: The first changed cells, in the order of files and rows.
        changed_cells: How many cells change in all.
        sentences: What a bundle is.
        notes: What is kept but doubtful, then what was cleaned.
        rejected: How many rows are left behind.
        problems: Why.
        is_empty: Whether there is nothing new or changed to write.
        doubts: How many of the notes, which come first, are of doubtful rows.
        first_rows: The first of the new and changed rows, table by table.
        sheets: How the sheets are read that a mapping is proposed for.
    """

    tables: tuple[TablePlan, ...]
    changes: tuple[CellChange, ...]
    changed_cells: int
    sentences: tuple[str, ...]
    notes: tuple[Problem, ...]
    rejected: int
    problems: tuple[Problem, ...]
    is_empty: bool
    doubts: int = 0
    first_rows: tuple[FirstRows, ...] = ()
    sheets: tuple[SheetReading, ...] = ()

    @property
    def is_plain(self) -> bool:
        """Whether nothing stored changes, and nothing read is left behind or doubtful."""
        return not (self.changed_cells or self.rejected or self.doubts)

    @property
    def is_worth_writing(self) -> bool:
        """Whether there is anything to write, were it only files of rejected rows."""
        return bool(self.rejected) or not self.is_empty

    @property
    def why_nothing(self) -> str:
        """Return why there is nothing to write into the store, as the end of a sentence."""
        same = sum(table.same for table in self.tables)
        there = "1 row is" if same == 1 else f"{same:,} rows are"
        left = "1 row was" if self.rejected == 1 else f"{self.rejected:,} rows were"
        parts = [f"{there} there already"] * bool(same)
        parts += [f"{left} left behind"] * bool(self.rejected)
        return f"{' and '.join(parts) or 'the files hold no rows'}."


class LoadDialog(Protocol):
    """A person at the other end of a load, or what answers in their place."""

    @property
    def options(self) -> LoadOptions:
        """Return what is wished of the load."""
        ...

    def progress(self, step: str) -> None:
        """Hear what is being read, checked or written; what this raises stops the load."""
        ...

    def tell(self, sentence: str) -> None:
        """Hear what was met in opening the store, or written beside it."""
        ...

    def accept_mapping(self, proposal: str) -> bool:
        """Look at a proposed mapping without open questions, in words; true takes it."""
        ...

    def confirm(self, plan: PlanSummary) -> bool:
        """Look at the plan; true writes it."""
        ...


@dataclass(frozen=True, slots=True)
class UnattendedLoad:
    """A load with nobody at the other end: what can be taken is taken, and nothing is told."""

    options: LoadOptions = field(default_factory=LoadOptions)

    def progress(self, step: str) -> None:
        """Go on."""

    def tell(self, sentence: str) -> None:
        """Pass it over."""

    def accept_mapping(self, _proposal: str) -> bool:
        """Take it."""
        return True

    def confirm(self, _plan: PlanSummary) -> bool:
        """Write it."""
        return True
