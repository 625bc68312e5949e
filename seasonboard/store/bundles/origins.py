"""Which load first brought each row and cell of a store: what tells who changed what last.

A load is known by its mark. A cell is stamped with the mark of the load that gave it its value;
where a store knows the mark of another store's cell, it has seen that value and decided.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.store.intake.row_keys import row_key
from seasonboard.store.store import Store
from seasonboard.stored_tables import TABLES

SHIPPED = "shipped"
"""The stamp of rows that came with the program; every store knows it."""

ROW = ("table_name", "row_key")
CELL = (*ROW, "column_name")
MOMENT = pl.Datetime("us", "UTC")


@dataclass(frozen=True, slots=True)
class Stamps:
    """Stamps of whole rows (`table_name`, `row_key`, `load_no`, `mark`) and of single cells.

    `cells` also has `column_name`, and has only cells that changed since their row came.
    """

    rows: pl.DataFrame
    cells: pl.DataFrame


def marks_of(store: Store) -> pl.DataFrame:
    """Return the loads a store has taken in: `mark`, `load_no`, `made_at`, `is_own`."""
    return store.read("bundle/marks").cast({"made_at": MOMENT})


def stamps_of(store: Store, tables: Sequence[str], marks: pl.DataFrame) -> Stamps:
    """Return the stamps of all rows and cells of some tables; `marks` are from `marks_of`."""
    origins = store.read("bundle/origins").filter(pl.col("table_name").is_in(list(tables)))
    own = marks.filter("is_own").select("load_no", "mark")
    rows = _brought(store, tables).join(own, on="load_no", how="left")
    whole = origins.filter(pl.col("column_name").is_null())
    whole = whole.unique(ROW, keep="last", maintain_order=True).select(*ROW, origin="mark")
    rows = rows.join(whole, on=list(ROW), how="left")
    rows = rows.select(*ROW, "load_no", mark=pl.coalesce("origin", "mark", pl.lit(SHIPPED)))
    changed = store.read("bundle/changes").drop_nulls("mark").select(*CELL, "load_no", "mark")
    came = origins.drop_nulls("column_name").select(*CELL, "load_no", "mark")
    cells = pl.concat([changed.filter(pl.col("table_name").is_in(list(tables))), came])
    cells = cells.sort("load_no", maintain_order=True)  # of one load, the origin speaks last
    return Stamps(rows, cells.unique(CELL, keep="last", maintain_order=True))


def _brought(store: Store, tables: Sequence[str]) -> pl.DataFrame:
    """Return `table_name`, `row_key`, `load_no` of every row, keyed as the change log is."""
    read = store.read_each([(f"brought/{name}", {}) for name in tables])
    parts = [
        rows.select(table_name=pl.lit(name), load_no="load_no", row_key=row_key(TABLES[name], rows))
        for name, rows in zip(tables, read, strict=True)
    ]
    none = pl.DataFrame(schema={"table_name": pl.String, "load_no": pl.Int32, "row_key": pl.String})
    return pl.concat([none, *parts]).unique(ROW, maintain_order=True)
