"""Writing a plan: one transaction, all of it or nothing."""

from functools import cache

import duckdb
import polars as pl

from seasonboard.errors import StoreError
from seasonboard.interruption import no_longer
from seasonboard.store.intake.plan import LoadPlan
from seasonboard.store.shipped_files import shipped
from seasonboard.store.store import Store
from seasonboard.stored_tables import TABLES

_VIEW = "incoming"


class Arrow:
    """A frame as DuckDB can take it without pyarrow: nothing but its Arrow stream."""

    def __init__(self, frame: pl.DataFrame) -> None:
        """Keep the frame."""
        self._frame = frame

    def __arrow_c_stream__(self, requested_schema: object = None) -> object:
        """Return the stream."""
        return self._frame.__arrow_c_stream__(requested_schema)


def write_load(store: Store, plan: LoadPlan) -> int:
    """Write what a plan holds.

    Args:
        store: The store the plan was made for, open for writing.
        plan: From `plan_load`.

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
        for name in TABLES:
            if name in plan.rows and not plan.rows[name].is_empty():
                _write_table(cursor, name, plan.rows[name], load_no)
        run(cursor, "played_on", load_no)
        run(cursor, "loads", load_no)
        if plan.bundle is None or plan.bundle.decides:
            run(cursor, "own_mark", load_no)
        if plan.bundle is not None:
            put(cursor, "marks", plan.bundle.marks, load_no)
            put(cursor, "origins", plan.bundle.origins, load_no)
        if plan.tables:
            put(cursor, "load_tables", _files(plan), load_no)
            put(cursor, "changes", plan.changes, load_no)
        no_longer()
    return load_no


def _write_table(
    cursor: duckdb.DuckDBPyConnection, name: str, rows: pl.DataFrame, load_no: int
) -> None:
    if name == "roster":
        put(cursor, "athletes", rows, load_no)
    put(cursor, name, rows, load_no)


def put(cursor: duckdb.DuckDBPyConnection, name: str, rows: pl.DataFrame, load_no: int) -> None:
    """Hand rows to the statements of one file of queries/load, as the view `incoming`."""
    cursor.register(_VIEW, Arrow(rows))
    run(cursor, name, load_no)
    cursor.unregister(_VIEW)


def run(cursor: duckdb.DuckDBPyConnection, name: str, load_no: int) -> None:
    """Run the statements of one file of queries/load."""
    for statement in statements(name):
        wanted = statement.named_parameters
        cursor.execute(statement, {"load_no": load_no} if wanted else None)


def statements(name: str) -> list[duckdb.Statement]:
    """Return the statements of one file of queries/load."""
    return duckdb.extract_statements(_sql(name))


def _files(plan: LoadPlan) -> pl.DataFrame:
    counts = [
        (one.file, one.sha256, one.table, one.new, one.changed, one.same) for one in plan.tables
    ]
    names = ("file", "sha256", "table_name", "new_rows", "changed_rows", "same_rows")
    return pl.DataFrame(counts, schema=names, orient="row")


@cache
def _sql(name: str) -> str:
    return (shipped("queries") / "load" / f"{name}.sql").read_text("utf-8")
