"""Which load first brought each row and cell of a store: what tells who changed what last.

A load is known by its mark. A cell is stamped with the mark of the load that gave it its value;
where a store knows the mark of another store's cell, it has seen that value and decided.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.store.intake.row_keys import as_text, joined_key
from seasonboard.store.store import Store

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
    """Return the stamps of all rows and cells of some tables.

    Args:
        store: The store.
        tables: The tables.
        marks: From `marks_of`.
    """
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
    rows = store.read("bundle/rows", tables=list(tables))
    instants = rows.select(moment=pl.col("key_3").cast(pl.Int64, strict=False).cast(MOMENT))
    timed = pl.when(rows["table_name"] == "stages").then(
        instants.select(as_text(instants, "moment")).to_series()
    )
    third = timed.otherwise(pl.col("key_3"))
    joined = joined_key([pl.col("key_1"), pl.col("key_2"), third])
    key = pl.when(pl.col("key_2").is_null()).then("key_1").otherwise(joined)
    return rows.select("table_name", "load_no", row_key=key).unique(ROW, maintain_order=True)
