"""The plan of a load: everything read, checked and compared, nothing written."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

import polars as pl

from seasonboard.entries import Entry
from seasonboard.errors import IntakeError, Problem
from seasonboard.store.intake.compare import Compared, compare
from seasonboard.store.intake.contradictions import check_sense
from seasonboard.store.intake.doubtful_rows import note_doubts
from seasonboard.store.intake.existing_rows import Known
from seasonboard.store.intake.load_options import LoadOptions
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.read_sources import Gathered, gather, gather_sources
from seasonboard.store.intake.references import check_references
from seasonboard.store.intake.rejects import rejected_rows
from seasonboard.store.intake.row_keys import PLACE
from seasonboard.store.intake.synonyms import synonyms_beside
from seasonboard.store.intake.typed_entries import typed_sources
from seasonboard.store.store import Store
from seasonboard.store_outcomes import TablePlan
from seasonboard.stored_tables import TABLES

if TYPE_CHECKING:
    from seasonboard.store.bundles.loading import Taken


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
    the last load the plan knows of; 0 when there was none. `rejected` holds the rows that are left
    behind, table by table, when only the good ones are wanted, and `problems` says why. `bundle` is
    what a bundle brings beside rows.
    """

    tables: tuple[TablePlan, ...]
    notes: tuple[Problem, ...]
    changes: pl.DataFrame
    rows: Mapping[str, pl.DataFrame] = field(repr=False)
    after_load: int = 0
    rejected: Mapping[str, pl.DataFrame] = field(default_factory=dict, repr=False)
    problems: tuple[Problem, ...] = ()
    bundle: "Taken | None" = None

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing new or changed to write."""
        return not (self.learns or any(table.new or table.changed for table in self.tables))

    @property
    def learns(self) -> bool:
        """Whether a bundle brings something to be kept beside rows."""
        return self.bundle is not None and self.bundle.learns

    @property
    def told(self) -> tuple[str, ...]:
        """What a bundle is, in sentences."""
        return self.bundle.told if self.bundle else ()

    @property
    def rejected_count(self) -> int:
        """How many rows are left behind."""
        return sum(rows.height for rows in self.rejected.values())

    def first_changes(self, count: int) -> tuple[CellChange, ...]:
        """Return the first changed cells, in the order of files and rows."""
        return tuple(CellChange(*row) for row in self.changes.head(count).iter_rows())


def plan_load(store: Store, paths: Sequence[Path], options: LoadOptions | None = None) -> LoadPlan:
    """Read and check files against a store.

    Args:
        store: The store they would go into; it is only read.
        paths: Folders (every table in them is taken) and files: CSV, XLSX or Parquet, named after
            a table, or of a source with a mapping.
        options: How they are written, and what is done with bad rows.

    Returns:
        What would be written.

    Raises:
        IntakeError: Something cannot be taken; `problems` lists all of it.
        StoreError: The store could not be read.
    """
    options = options or LoadOptions(store=store.path)
    synonyms = synonyms_beside(options.store)
    found = Findings([], totals=synonyms.totals, keep_rows=options.keep_good)
    known = Known(store)
    return _planned(gather(paths, options, synonyms, known, found), known, found, options)


def plan_entry(store: Store, entry: Entry) -> LoadPlan:
    """Check rows typed in against a store, as those of a file are.

    Args:
        store: The store they would go into; it is only read.
        entry: The rows.

    Returns:
        What would be written.

    Raises:
        IntakeError: A cell is wrong; `problems` lists all of it, by the entry's label.
        StoreError: The store could not be read.
    """
    options = LoadOptions(store=store.path)
    synonyms = synonyms_beside(options.store)
    found = Findings([], totals=synonyms.totals)
    known = Known(store)
    sources = typed_sources(entry, known, found)
    gathered = gather_sources(sources, options, synonyms, known, found)
    return _planned(gathered, known, found, options)


def _planned(gathered: Gathered, known: Known, found: Findings, options: LoadOptions) -> LoadPlan:
    """Check what was gathered as a whole, and compare it with what is there."""
    for name, rows in known.incoming.items():
        options.progress(f"checking {name}")
        check_references(TABLES[name], rows, known, found)
        check_sense(name, rows, known, found)
    if found.rejected and (found.fatal or not options.keep_good):
        _stop(found)
    rejected = _left_behind(gathered, known, found) if found.rejected else {}
    for name, rows in known.incoming.items():
        note_doubts(name, rows, known, found)
    options.progress("comparing with what is there")
    compared = {
        name: compare(TABLES[name], rows, known.stored(name))
        for name, rows in known.incoming.items()
    }
    last = known.store.read("store/last_load")["load_no"].item()
    files = [(source.table, source.label, source.sha256) for source in gathered.sources]
    if gathered.bundle is not None:
        files = list(gathered.bundle.files)
    plan = _plan(files, compared, found, last, rejected)
    return replace(plan, bundle=gathered.bundle)


def _stop(found: Findings) -> None:
    problems = found.problems()
    many = "1 problem was" if found.rejected == 1 else f"{found.rejected:,} problems were"
    what = f"Nothing was loaded: {many} found."
    if found.rejected == 1:
        what += f" {problems[0].sentence()}"
    hint = "Correct the files and load them again"
    hint += "." if found.fatal else ", or load only the good rows with --keep-good."
    raise IntakeError(what, problems, hint)


def _left_behind(gathered: Gathered, known: Known, found: Findings) -> dict[str, pl.DataFrame]:
    """Take the rejected rows out, and those that point to them, until all that stays is good."""
    taken_out = -1
    while taken_out < (bad := found.refused_rows().select(PLACE).unique()).height:
        taken_out = bad.height
        for name, rows in list(known.incoming.items()):
            known.take(name, rows.join(bad, on=PLACE, how="anti", maintain_order="left"))
        for name, rows in known.incoming.items():
            check_references(TABLES[name], rows, known, found)
            check_sense(name, rows, known, found)
    tables = {
        name: rejected_rows(name, gathered.texts[name], gathered.read[name], found)
        for name in gathered.texts
    }
    return {name: rows for name, rows in tables.items() if rows.height}


def _plan(
    files: Sequence[tuple[str, str, str]],
    compared: Mapping[str, Compared],
    found: Findings,
    last: int,
    rejected: Mapping[str, pl.DataFrame],
) -> LoadPlan:
    numbers = {label: found.labels.index(label) for _, label, _ in files}
    tables = tuple(
        TablePlan(
            table,
            label,
            compared[table].new.get(numbers[label], 0),
            compared[table].changed.get(numbers[label], 0),
            compared[table].same.get(numbers[label], 0),
            sha256,
        )
        for table, label, sha256 in files
    )
    named = pl.DataFrame(
        {"file_no": range(len(found.labels)), "file": found.labels},
        schema={"file_no": pl.UInt32, "file": pl.String},
    )
    cells = pl.concat(one.cells for one in compared.values()) if compared else None
    changes = (
        pl.DataFrame()
        if cells is None
        else (named.join(cells, on="file_no", maintain_order="left_right").drop("file_no"))
    )
    rows = {name: one.to_write for name, one in compared.items()}
    problems = found.problems()
    return LoadPlan(tables, found.notes(), changes, rows, last, rejected, problems)
