"""The store's tables as they are loaded: one frame each, under text keys."""

import polars as pl

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
