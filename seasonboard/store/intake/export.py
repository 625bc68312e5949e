"""The store's tables as they are loaded: as frames under text keys, and as files."""

import shutil
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import polars as pl

from seasonboard.errors import StoreError
from seasonboard.store.intake.cleaning import escaped, guarded, without_steering
from seasonboard.store.intake.row_keys import as_text
from seasonboard.store.intake.saving import beside, not_written
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.store import Store, open_store
from seasonboard.store_outcomes import ExportedTable
from seasonboard.stored_tables import TABLES

WORKBOOK = "season.xlsx"
MOST_ROWS = 1_048_575
"""Rows of a sheet below its header (Excel specifications and limits)."""

MOST_LETTERS = 32_767
"""Letters of a cell (the same)."""


def export_tables(store: Store) -> dict[str, pl.DataFrame]:
    """Return every table of a store, typed; written as CSV and loaded back, they change nothing.

    Raises:
        StoreError: The store could not be read.
    """
    season = SeasonRows(store)
    return {name: season.stored(name) for name in TABLES}


def write_tables(store: Store, folder: Path, how: str = "csv") -> tuple[ExportedTable, ...]:
    """Write every table that holds rows into a folder, safe to be opened in a spreadsheet.

    `how` is `csv` or `parquet`, one file a table, or `xlsx`, one workbook with a sheet a table. In
    CSV, text that a spreadsheet would take for a formula stands behind an apostrophe; in a workbook
    all text is in text cells. Loading the files gives all of it back, letter for letter.

    Raises:
        StoreError: The store could not be read, or a table does not fit into a workbook.
        OSError: The files could not be written.
    """
    frames = {
        name: without_steering(frame)
        for name, frame in export_tables(store).items()
        if not frame.is_empty()
    }
    folder.mkdir(parents=True, exist_ok=True)
    if how == "xlsx":
        write_workbook({name: escaped(one) for name, one in frames.items()}, folder / WORKBOOK)
    tables = []
    for name, frame in frames.items():
        file = folder / (WORKBOOK if how == "xlsx" else f"{name}.{how}")
        if how == "csv":
            guarded(frame).write_csv(file)
        elif how == "parquet":
            escaped(frame).write_parquet(file)
        tables.append(ExportedTable(name, frame.height, file))
    return tuple(tables)


def export_path(
    store_path: Path, folder: Path, how: str = "csv", *, force: bool = False
) -> tuple[ExportedTable, ...]:
    """Write every table of the store at `store_path` into a folder: all of them or nothing.

    `how` is as for `write_tables`. The folder is made when there is none; with `force`, an earlier
    export and nothing else in it is replaced.

    Raises:
        StoreError: The store cannot be read; the folder holds something, or cannot be written.
    """
    target = folder.resolve()
    _check_target(target, folder, force=force)
    making = beside(target)
    with open_store(store_path) as store:
        try:
            tables = write_tables(store, making, how)
            _move(making, target)
        except OSError as error:
            raise not_written(folder, error) from error
        finally:
            shutil.rmtree(making, ignore_errors=True)
    return tuple(replace(one, file=folder / one.file.name) for one in tables)


def _check_target(target: Path, folder: Path, *, force: bool) -> None:
    if target.exists() and not target.is_dir():
        raise StoreError(f"{folder} is a file; nothing was written.", "Name a folder.")
    if not target.parent.is_dir():
        raise StoreError(f"The folder {target.parent} does not exist.", "Make it, or name another.")
    names = sorted(one.name for one in target.iterdir()) if target.exists() else []
    own = {WORKBOOK, *(f"{name}{kind}" for name in TABLES for kind in (".csv", ".parquet"))}
    if others := [name for name in names if name not in own]:
        raise StoreError(
            f"The folder {folder} holds {others[0]}, which is no table; nothing was written.",
            "Name a new or an empty folder.",
        )
    if names and not force:
        raise StoreError(
            f"The folder {folder} already holds tables; nothing was written.",
            "Name a new folder, or replace them with --force.",
        )


def _move(making: Path, target: Path) -> None:
    """Put the new folder in its place; an earlier one goes only once the new one is there."""
    old = beside(target)
    if target.exists():
        target.replace(old)
    try:
        making.replace(target)
    except OSError:
        if old.exists():
            old.replace(target)
        raise
    shutil.rmtree(old, ignore_errors=True)


def write_workbook(tables: Mapping[str, pl.DataFrame], path: Path) -> None:
    """Write tables as the sheets of a workbook in which nothing runs.

    Keys, words, text, dates and instants stand in text cells, numbers in number cells; a number
    that a workbook would round (to 16 digits) stands as text.

    Raises:
        StoreError: A table has too many rows, or a cell too much text, for a workbook.
        OSError: The file could not be written.
    """
    import xlsxwriter
    from xlsxwriter.exceptions import FileCreateError

    for name, frame in tables.items():
        _check_fits(name, frame)
    literal = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    book = xlsxwriter.Workbook(str(path), literal)
    head = book.add_format({"bold": True})
    for name, frame in tables.items():
        sheet = book.add_worksheet(name)
        sheet.write_row(0, 0, frame.columns, head)
        sheet.freeze_panes(1, 0)
        for nth, column in enumerate(frame.columns):
            sheet.write_column(1, nth, _column(frame, column))
    try:
        book.close()
    except FileCreateError as error:
        raise OSError(str(error)) from error


def _column(frame: pl.DataFrame, name: str) -> list[object]:
    """Return the cells of one column; numbers that a workbook would round are text."""
    cells = frame[name]
    if cells.dtype == pl.Float64:
        rounded = {one for one in cells.drop_nulls().unique() if float(f"{one:.16G}") != one}
        values = cells.to_list()
        return [repr(one) if one in rounded else one for one in values] if rounded else values
    if cells.dtype.is_integer():
        return cells.to_list()
    return frame.select(as_text(frame, name)).to_series().to_list()


def _check_fits(name: str, frame: pl.DataFrame) -> None:
    said = "a workbook takes; nothing was written."
    hint = "Export with --format csv or parquet."
    if frame.height > MOST_ROWS:
        raise StoreError(f"{name} has {frame.height:,} rows, more than {said}", hint)
    texts = [column for column, kind in frame.schema.items() if kind == pl.String]
    sizes = frame.select(  # as the workbook counts: rare letters count as two
        pl.col(texts).str.len_chars() + pl.col(texts).str.count_matches(r"[^\x{0000}-\x{FFFF}]")
    )
    for column in texts:
        if sizes.select((pl.col(column) > MOST_LETTERS).any()).item():
            raise StoreError(f"{name}, {column} has a longer text than {said}", hint)
