"""Writing a plan: one transaction, all of it or nothing."""

from collections.abc import Mapping

import duckdb
import polars as pl

from seasonboard.errors import StoreError
from seasonboard.interruption import no_longer
from seasonboard.store.intake.plan import LoadPlan
from seasonboard.store.store import Store
from seasonboard.store.table_sql import load_sql, write_sql
from seasonboard.stored_tables import TABLES

_VIEW = "incoming"


class ArrowStream:
    """A frame as DuckDB can take it without pyarrow: nothing but its Arrow stream."""

    def __init__(self, frame: pl.DataFrame) -> None:
        """Keep the frame."""
        self._frame = frame

    def __arrow_c_stream__(self, requested_schema: object = None) -> object:
        """Return the stream."""
        return self._frame.__arrow_c_stream__(requested_schema)


def write_load(store: Store, plan: LoadPlan) -> int:
    """Write what a plan holds into the store that it was made for, open for writing.

    Returns:
        The number of the load; 0 when there was nothing new or changed, and nothing was written.

    Raises:
        StoreError: DuckDB refused, or another load was written since the plan was made; nothing
            was written.
    """
    if plan.is_empty:
        return 0
    with store.writing() as cursor:
        last = store.read("store/last_load")["load_no"].item()
        if last != plan.after_load:
            raise StoreError(
                "Another load was written since this one was planned; nothing was changed.",
                "Load the files again.",
            )
        load_no = int(last) + 1
        write_rows(cursor, plan.rows, load_no)
        run(cursor, load_sql("loads"), load_no)
        if plan.bundle is None or plan.bundle.decides:
            run(cursor, load_sql("own_mark"), load_no)
        if plan.bundle is not None:
            run_with_rows(cursor, load_sql("marks"), plan.bundle.marks, load_no)
            run_with_rows(cursor, load_sql("origins"), plan.bundle.origins, load_no)
        if plan.tables:
            run_with_rows(cursor, load_sql("load_tables"), _files(plan), load_no)
            run_with_rows(cursor, load_sql("changes"), plan.changes, load_no)
        no_longer()
    return load_no


def write_rows(
    cursor: duckdb.DuckDBPyConnection, rows: Mapping[str, pl.DataFrame], load_no: int
) -> None:
    """Write complete rows, table by table, and the local days of sessions that follow from them."""
    for name, table in TABLES.items():
        if name in rows and not rows[name].is_empty():
            if name == "roster":
                run_with_rows(cursor, load_sql("athletes"), rows[name], load_no)
            run_with_rows(cursor, write_sql(table), rows[name], load_no)
    run(cursor, load_sql("played_on"), load_no)


def run_with_rows(
    cursor: duckdb.DuckDBPyConnection, sql: str, rows: pl.DataFrame, load_no: int
) -> None:
    """Run statements on rows, which they know as the view `incoming`."""
    cursor.register(_VIEW, ArrowStream(rows))
    run(cursor, sql, load_no)
    cursor.unregister(_VIEW)


def run(cursor: duckdb.DuckDBPyConnection, sql: str, load_no: int) -> None:
    """Run statements; those that name `load_no` are given it."""
    for statement in duckdb.extract_statements(sql):
        named = statement.named_parameters
        cursor.execute(statement, {"load_no": load_no} if named else None)


def _files(plan: LoadPlan) -> pl.DataFrame:
    counts = [
        (one.file, one.sha256, one.table, one.new, one.changed, one.same) for one in plan.tables
    ]
    names = ("file", "sha256", "table_name", "new_rows", "changed_rows", "same_rows")
    return pl.DataFrame(counts, schema=names, orient="row")
