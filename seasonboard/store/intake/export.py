"""The store's tables as they are loaded: as frames under text keys, and as files."""

import shutil
from collections.abc import Callable, Mapping
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


def write_tables(store: Store, folder: Path, how: str = "csv") -> list[Path]:
    """Write every table that holds rows, safe to be opened in a spreadsheet.

    In CSV, text that a spreadsheet would take for a formula stands behind an apostrophe; in a
    workbook all text is in text cells. Loading the files gives all of it back, letter for letter.

    Args:
        store: The store.
        folder: Where to; it is made when there is none.
        how: `csv` or `parquet`, one file a table; `xlsx`, one workbook with a sheet a table.

    Returns:
        The files.

    Raises:
        StoreError: The store could not be read, or a table does not fit into a workbook.
        OSError: The files could not be written.
    """
    tables = {
        name: without_steering(frame)
        for name, frame in export_tables(store).items()
        if not frame.is_empty()
    }
    folder.mkdir(parents=True, exist_ok=True)
    return _WRITERS[how](tables, folder)


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
    place = folder.resolve()
    _check_place(place, folder, force=force)
    with open_store(store_path) as store:
        making = beside(place)
        try:
            files = {file.stem: file for file in write_tables(store, making, how)}
            _move(making, place)
        except OSError as error:
            raise not_written(folder, error) from error
        finally:
            shutil.rmtree(making, ignore_errors=True)
        rows = {name: frame.height for name, frame in export_tables(store).items()}
    return tuple(
        ExportedTable(name, rows[name], folder / files.get(name, Path(WORKBOOK)).name)
        for name in TABLES
        if rows[name]
    )


def _check_place(place: Path, folder: Path, *, force: bool) -> None:
    if place.exists() and not place.is_dir():
        raise StoreError(f"{folder} is a file; nothing was written.", "Name a folder.")
    if not place.parent.is_dir():
        raise StoreError(f"The folder {place.parent} does not exist.", "Make it, or name another.")
    held = sorted(one.name for one in place.iterdir()) if place.exists() else []
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


def _move(making: Path, place: Path) -> None:
    """Put the new folder in its place; an earlier one goes only once the new one is there."""
    old = beside(place)
    if place.exists():
        place.replace(old)
    try:
        making.replace(place)
    except OSError:
        if old.exists():
            old.replace(place)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _write_csv(tables: Mapping[str, pl.DataFrame], folder: Path) -> list[Path]:
    files = []
    for name, frame in tables.items():
        files.append(folder / f"{name}.csv")
        guarded(frame).write_csv(files[-1])
    return files


def _write_parquet(tables: Mapping[str, pl.DataFrame], folder: Path) -> list[Path]:
    files = []
    for name, frame in tables.items():
        files.append(folder / f"{name}.parquet")
        escaped(frame).write_parquet(files[-1])
    return files


def _write_xlsx(tables: Mapping[str, pl.DataFrame], folder: Path) -> list[Path]:
    from seasonboard.store.intake.sheets import write_workbook

    write_workbook({name: escaped(frame) for name, frame in tables.items()}, folder / WORKBOOK)
    return [folder / WORKBOOK]


_WRITERS: Mapping[str, Callable[[Mapping[str, pl.DataFrame], Path], list[Path]]] = {
    "csv": _write_csv,
    "xlsx": _write_xlsx,
    "parquet": _write_parquet,
}
