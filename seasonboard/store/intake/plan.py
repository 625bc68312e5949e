"""The plan of a load: everything read, checked and compared, nothing written."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import polars as pl

from seasonboard.errors import IntakeError, Problem
from seasonboard.store.intake.compare import Compared, compare
from seasonboard.store.intake.doubts import note_doubts
from seasonboard.store.intake.findings import Findings
from seasonboard.store.intake.header import read_text
from seasonboard.store.intake.instants import settle_instants
from seasonboard.store.intake.known import Known
from seasonboard.store.intake.references import check_references
from seasonboard.store.intake.rows import completed, without_doubles
from seasonboard.store.intake.sense import check_sense
from seasonboard.store.intake.sources import Source, find_sources
from seasonboard.store.intake.tables import TABLES
from seasonboard.store.intake.values import read_values
from seasonboard.store.store import Store


@dataclass(frozen=True, slots=True)
class TablePlan:
    """What one file would do to its table, in rows; `sha256` is the hash of the file."""

    table: str
    file: str
    new: int
    changed: int
    same: int
    sha256: str = ""


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
class LoadPlan:
    """What a load would write.

    `notes` are cells that were cleaned and rows that are kept but doubtful. `changes` has one row
    per changed cell: `file`, `file_row`, `table_name`, `row_key`, `column_name`, `old_value`,
    `new_value`. `rows` holds the new and changed rows of each table, complete. `after_load` is
    the last load the plan knows of; 0 when there was none.
    """

    tables: tuple[TablePlan, ...]
    notes: tuple[Problem, ...]
    changes: pl.DataFrame
    rows: Mapping[str, pl.DataFrame] = field(repr=False)
    after_load: int = 0

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing new or changed to write."""
        return not any(table.new or table.changed for table in self.tables)

    def first_changes(self, count: int) -> tuple[CellChange, ...]:
        """Return the first changed cells, in the order of files and rows."""
        return tuple(CellChange(*row) for row in self.changes.head(count).iter_rows())


def plan_load(store: Store, paths: Sequence[Path]) -> LoadPlan:
    """Read and check files against a store.

    Args:
        store: The store they would go into; it is only read.
        paths: Folders (every table in them is taken) and CSV files named after a table.

    Returns:
        What would be written.

    Raises:
        IntakeError: Something cannot be taken; `problems` lists all of it.
        StoreError: The store could not be read.
    """
    found = Findings([])
    sources = find_sources(paths, found)
    found.labels[:] = [source.label for source in sources]
    known = Known(store)
    for name in TABLES:
        _take_in([source for source in sources if source.table == name], known, found)
    for name, rows in known.incoming.items():
        check_references(TABLES[name], rows, known, found)
        check_sense(name, rows, known, found)
    _stop_at_problems(found)
    for name, rows in known.incoming.items():
        note_doubts(name, rows, known, found)
    compared = {
        name: compare(TABLES[name], rows, known.stored(name))
        for name, rows in known.incoming.items()
    }
    last = store.read("store/last_load")["load_no"].item()
    return _plan(sources, compared, found, last)


def _take_in(sources: list[Source], known: Known, found: Findings) -> None:
    """Read the files of one table and lay their rows over the stored ones."""
    parts = []
    for source in sources:
        table = TABLES[source.table]
        try:
            text = read_text(source, found)
        except IntakeError as error:
            for problem in error.problems:
                found.refuse(problem)
            text = None
        if text is None:
            known.unread.add(table.name)
            continue
        rows = settle_instants(table, read_values(table, text, found), known, found)
        parts.append(completed(table, rows, known.stored(table.name)))
    if parts:
        table = TABLES[sources[0].table]
        known.take(table.name, without_doubles(table, pl.concat(parts), found))


def _stop_at_problems(found: Findings) -> None:
    if not found.rejected:
        return
    problems = found.problems()
    many = "1 problem was" if found.rejected == 1 else f"{found.rejected:,} problems were"
    what = f"Nothing was loaded: {many} found."
    if found.rejected == 1:
        what += f" {problems[0].sentence()}"
    raise IntakeError(what, problems, "Correct the files and load them again.")


def _plan(
    sources: list[Source], compared: Mapping[str, Compared], found: Findings, last: int
) -> LoadPlan:
    tables = tuple(
        TablePlan(
            source.table,
            source.label,
            compared[source.table].new.get(number, 0),
            compared[source.table].changed.get(number, 0),
            compared[source.table].same.get(number, 0),
            source.sha256,
        )
        for number, source in enumerate(sources)
    )
    files = pl.DataFrame(
        {"file_no": range(len(sources)), "file": [source.label for source in sources]},
        schema={"file_no": pl.UInt32, "file": pl.String},
    )
    cells = pl.concat(one.cells for one in compared.values()) if compared else None
    changes = (
        pl.DataFrame()
        if cells is None
        else (files.join(cells, on="file_no", maintain_order="left_right").drop("file_no"))
    )
    rows = {name: one.to_write for name, one in compared.items()}
    return LoadPlan(tables, found.notes(), changes, rows, last)
