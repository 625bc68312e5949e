"""The store's tables as they are loaded: one frame each, under text keys."""

from pathlib import Path

import polars as pl

from seasonboard.store.intake.cleaning import guarded
from seasonboard.store.intake.known import Known
from seasonboard.store.intake.tables import TABLES
from seasonboard.store.store import Store


def export_tables(store: Store) -> dict[str, pl.DataFrame]:
    """Return every table of a store; written as CSV and loaded back, they change nothing.

    Returns:
        Table name → its columns in their written order, one row per key. Instants are in UTC,
        whole numbers, numbers and dates typed, missing cells null.

    Raises:
        StoreError: The store could not be read.
    """
    known = Known(store)
    return {name: known.stored(name) for name in TABLES}


def write_tables(store: Store, folder: Path) -> list[Path]:
    """Write every table that holds rows as CSV, safe to be opened in a spreadsheet.

    Text that a spreadsheet would take for a formula stands behind an apostrophe; loading the files
    takes it away again, so that they change nothing.

    Args:
        store: The store.
        folder: Where to; it is made when there is none.

    Returns:
        The files.

    Raises:
        StoreError: The store could not be read.
        OSError: The files could not be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for name, frame in export_tables(store).items():
        if not frame.is_empty():
            guarded(frame).write_csv(folder / f"{name}.csv")
            written.append(folder / f"{name}.csv")
    return written
