"""The plan of a load: everything read, checked and compared, nothing written."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import polars as pl

from seasonboard.entries import Entry
from seasonboard.errors import IntakeError, Problem
from seasonboard.load_dialog import (
    MOST_CHANGES,
    CellChange,
    FirstRows,
    LoadDialog,
    PlanSummary,
)
from seasonboard.load_options import LoadOptions
from seasonboard.sheet_readings import SheetReading
from seasonboard.store.bundles.loading import BundlePlan
from seasonboard.store.intake.compare import TableChanges, compare
from seasonboard.store.intake.contradictions import check_references, check_sense
from seasonboard.store.intake.doubtful_rows import note_doubts, tell_rows_gone
from seasonboard.store.intake.first_rows import first_rows
from seasonboard.store.intake.load_context import LoadContext, load_context
from seasonboard.store.intake.problems import Findings, counted
from seasonboard.store.intake.read_sources import ReadRows, read_assigned, read_sources
from seasonboard.store.intake.rejects import rejected_rows
from seasonboard.store.intake.row_keys import PLACE
from seasonboard.store.intake.typed_entries import typed_sources
from seasonboard.store.intake.wear_complete import mark_complete
from seasonboard.store.store import Store
from seasonboard.store_outcomes import TablePlan
from seasonboard.stored_tables import TABLES


@dataclass(frozen=True, slots=True)
class LoadPlan:
    """What a load would write.

    `notes` are rows that are kept but doubtful, `doubts` of them, and then cells that were cleaned.
    `changes` has one row per changed cell: `file`, `file_row`, `table_name`, `row_key`,
    `column_name`, `old_value`, `new_value`. `rows` holds the new and changed rows of each table,
    complete. `after_load` is the last load the plan knows of; 0 when there was none. `rejected`
    holds the rows that are left behind, table by table, when only the good ones are wanted, and
    `problems` says why. `bundle` is what a bundle brings beside rows. `sheets` says how those are
    read that a mapping is for, `first_rows` shows what is written.
    """

    tables: tuple[TablePlan, ...]
    notes: tuple[Problem, ...]
    changes: pl.DataFrame
    rows: Mapping[str, pl.DataFrame] = field(repr=False)
    after_load: int = 0
    rejected: Mapping[str, pl.DataFrame] = field(default_factory=dict, repr=False)
    problems: tuple[Problem, ...] = ()
    bundle: BundlePlan | None = None
    doubts: int = 0
    sheets: tuple[SheetReading, ...] = ()
    first_rows: tuple[FirstRows, ...] = ()

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing new or changed to write."""
        return not (self.learns or any(table.new or table.changed for table in self.tables))

    @property
    def learns(self) -> bool:
        """Whether a bundle brings something to be kept beside rows."""
        return self.bundle is not None and self.bundle.learns

    @property
    def summary(self) -> PlanSummary:
        """The plan as a person is shown it."""
        return PlanSummary(
            self.tables,
            tuple(CellChange(*row) for row in self.changes.head(MOST_CHANGES).iter_rows()),
            self.changes.height,
            self.bundle.sentences if self.bundle else (),
            self.notes,
            sum(rows.height for rows in self.rejected.values()),
            self.problems if self.rejected else (),
            self.is_empty,
            self.doubts,
            self.first_rows,
            self.sheets,
        )


def plan_load(
    store: Store,
    paths: Sequence[Path],
    options: LoadOptions | None = None,
    dialog: LoadDialog | None = None,
) -> LoadPlan:
    """Read and check files against a store, which is only read; return what would be written.

    Args:
        store: The store they would go into.
        paths: Folders (every table in them is taken) and files: CSV, XLSX or Parquet, named after
            a table, or of a source with a mapping.
        options: How they are written, and what is done with bad rows; without them, those of
            the dialog.
        dialog: Confirms mappings, and hears what is being done.

    Raises:
        IntakeError: Something cannot be taken; `problems` lists all of it.
        StoreError: The store could not be read.
    """
    context = load_context(store, options, dialog)
    rows = read_sources(paths, context)
    if context.options.wear_complete:
        mark_complete(rows, context)
    return _planned(rows, context)


def plan_entry(store: Store, entry: Entry) -> LoadPlan:
    """Check rows typed in against a store, as those of a file are; return what would be written.

    Raises:
        IntakeError: A cell is wrong; `problems` lists all of it, by the entry's label.
        StoreError: The store could not be read.
    """
    context = load_context(store)
    return _planned(read_assigned(typed_sources(entry, context), context), context)


def _planned(rows_read: ReadRows, context: LoadContext) -> LoadPlan:
    """Check what was read as a whole, and compare it with what is there."""
    season, findings, dialog = context.season, context.findings, context.dialog
    _check(context)
    if findings.rejected and (findings.fatal or not context.options.keep_good):
        _stop(findings, rows_read.sheets)
    rejected = _left_behind(rows_read, context) if findings.rejected else {}
    read_as = findings.notes()
    for name, rows in season.incoming.items():
        note_doubts(name, rows, context)
    gone = tell_rows_gone(rows_read.sources, context)
    doubts = tuple(one for one in findings.notes() if one not in read_as)
    dialog.progress("comparing with what is there")
    changes = {
        name: compare(TABLES[name], rows, season.stored(name))
        for name, rows in season.incoming.items()
    }
    return LoadPlan(
        _table_plans(rows_read, changes, findings),
        (*doubts, *read_as),
        _changed_cells(changes, findings),
        {name: one.to_write for name, one in changes.items()},
        season.store.read("store/last_load")["load_no"].item(),
        rejected,
        findings.problems(),
        rows_read.bundle,
        len(doubts) + gone,
        rows_read.sheets,
        tuple(
            first_rows(name, one.to_write, season)
            for name, one in changes.items()
            if one.to_write.height
        ),
    )


def _check(context: LoadContext) -> None:
    for name, rows in context.season.incoming.items():
        context.dialog.progress(f"checking {name}")
        check_references(TABLES[name], rows, context)
        check_sense(name, rows, context)


def _stop(findings: Findings, sheets: tuple[SheetReading, ...]) -> None:
    problems = findings.problems()
    many = counted(findings.rejected, "problem was", "problems were")
    what = f"Nothing was loaded: {many} found."
    if findings.rejected == 1:
        what += f" {problems[0].sentence()}"
    hint = "Correct the files and load them again"
    hint += "." if findings.fatal else ", or load only the good rows with --keep-good."
    raise IntakeError(what, problems, hint, sheets)


def _left_behind(rows_read: ReadRows, context: LoadContext) -> dict[str, pl.DataFrame]:
    """Take the rejected rows out, and those that point to them, until all that stays is good."""
    taken_out = -1
    while taken_out < (bad := context.findings.refused_rows().select(PLACE).unique()).height:
        taken_out = bad.height
        for name, rows in list(context.season.incoming.items()):
            context.season.take(name, rows.join(bad, on=PLACE, how="anti", maintain_order="left"))
        _check(context)
    tables = {
        name: rejected_rows(name, rows_read.texts[name], rows_read.read[name], context.findings)
        for name in rows_read.texts
    }
    return {name: rows for name, rows in tables.items() if rows.height}


def _table_plans(
    rows_read: ReadRows, changes: Mapping[str, TableChanges], findings: Findings
) -> tuple[TablePlan, ...]:
    files = [(source.table, source.label, source.sha256) for source in rows_read.sources]
    if rows_read.bundle is not None:
        files = list(rows_read.bundle.files)
    return tuple(
        TablePlan(table, label, *changes[table].counts(findings.labels.index(label)), sha256)
        for table, label, sha256 in files
    )


def _changed_cells(changes: Mapping[str, TableChanges], findings: Findings) -> pl.DataFrame:
    if not changes:
        return pl.DataFrame()
    files = pl.DataFrame(
        {"file_no": range(len(findings.labels)), "file": findings.labels},
        schema={"file_no": pl.UInt32, "file": pl.String},
    )
    cells = findings.with_origins(pl.concat(one.cells for one in changes.values()))
    return files.join(cells, on="file_no", maintain_order="left_right").drop("file_no")
