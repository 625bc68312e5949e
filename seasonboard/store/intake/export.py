"""The store's tables as they are loaded: as frames under text keys, and as files."""

import shutil
from dataclasses import replace
from pathlib import Path

import polars as pl

from seasonboard.errors import StoreError
from seasonboard.store.intake.cleaning import escaped, guarded, without_steering
from seasonboard.store.intake.saving import beside, not_written
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.store import Store, open_store
from seasonboard.store_outcomes import ExportedTable
from seasonboard.stored_tables import TABLES

WORKBOOK = "season.xlsx"


def export_tables(store: Store) -> dict[str, pl.DataFrame]:
    """Return every table of a store; written as CSV and loaded back, they change nothing.

    Returns:
        Table name → its columns in their written order, one row per key. Instants are in UTC,
        whole numbers, numbers and dates typed, missing cells null.

    Raises:
        StoreError: The store could not be read.
    """
    season = SeasonRows(store)
    return {name: season.stored(name) for name in TABLES}


def write_tables(store: Store, folder: Path, how: str = "csv") -> tuple[ExportedTable, ...]:
    """Write every table that holds rows, safe to be opened in a spreadsheet.

    In CSV, text that a spreadsheet would take for a formula stands behind an apostrophe; in a
    workbook all text is in text cells. Loading the files gives all of it back, letter for letter.

    Args:
        store: The store.
        folder: Where to; it is made when there is none.
        how: `csv` or `parquet`, one file a table; `xlsx`, one workbook with a sheet a table.

    Returns:
        What was written.

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
        from seasonboard.store.intake.sheets import write_workbook

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

    Args:
        store_path: The store; it is only read.
        folder: Made when there is none. What is in it is only replaced when it is wished, and
            only when it is an earlier export and nothing else.
        how: As for `write_tables`.
        force: Replace an earlier export.

    Returns:
        The tables that were written.

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
    held = sorted(one.name for one in target.iterdir()) if target.exists() else []
    own = {WORKBOOK, *(f"{name}{kind}" for name in TABLES for kind in (".csv", ".parquet"))}
    if others := [name for name in held if name not in own]:
        raise StoreError(
            f"The folder {folder} holds {others[0]}, which is no table; nothing was written.",
            "Name a new or an empty folder.",
        )
    if held and not force:
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
