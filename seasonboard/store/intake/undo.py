"""Taking the last load back: its rows go, its changed cells get their old values again."""

from collections.abc import Callable
from pathlib import Path

import duckdb
import polars as pl

from seasonboard.errors import StoreError
from seasonboard.interruption import no_longer
from seasonboard.store.intake.row_keys import as_text, row_key
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.write import run, write_rows
from seasonboard.store.open_errors import missing
from seasonboard.store.store import Store, open_store
from seasonboard.store.table_sql import delete_sql, load_sql, pointing_sql
from seasonboard.store_outcomes import UndoneLoad
from seasonboard.stored_column import CellType, StoredTable
from seasonboard.stored_tables import TABLES


def last_load(store: Store) -> UndoneLoad | None:
    """Return the last load or entry; None where nothing was ever written.

    Raises:
        StoreError: The store could not be read.
    """
    rows = store.read("store/last_entry")
    if rows.is_empty():
        return None
    tables = rows.drop_nulls("file").select("table_name", "file", "new_rows", "changed_rows")
    load_no, loaded_at, cells = rows.select("load_no", "loaded_at", "cells").row(0)
    return UndoneLoad(load_no, loaded_at, tuple(tables.iter_rows()), cells)


def plan_undo(store: Store) -> UndoneLoad:
    """Return what taking the last load back would do; nothing is written.

    Raises:
        StoreError: Nothing was loaded yet, or the store could not be read.
    """
    last = last_load(store)
    if last is None:
        raise StoreError("Nothing was loaded into this store yet.", "There is nothing to undo.")
    return last


def undo_last_load(store: Store, *, expected: int | None = None) -> UndoneLoad:
    """Take the last load back, so that the store, open for writing, is as it was before it.

    A load of another number than `expected` is not taken back.

    Raises:
        StoreError: Nothing was loaded yet; the last load is another one by now; a cell that it
            changed was changed again since, or rows of others point to its rows. Nothing was
            written then.
    """
    with store.writing() as cursor:
        undone = plan_undo(store)
        if expected is not None and undone.load_no != expected:
            raise StoreError(
                "Another load was written meanwhile; nothing was taken back.", "Look again."
            )
        load_no = undone.load_no
        restored = _restored(store, _frame(cursor, load_sql("undo_changes"), load_no))
        write_rows(cursor, restored, load_no)
        _refuse_pointing(_frame(cursor, pointing_sql(), load_no))
        run(cursor, f"{delete_sql()};\n{load_sql('undo_entries')}", load_no)
        run(cursor, load_sql("played_on"), load_no)
        no_longer()
    return undone


def undo_path(
    store_path: Path,
    *,
    confirm: Callable[[UndoneLoad], bool],
    backup: bool = True,
    tell: Callable[[str], object] = lambda _: None,
) -> UndoneLoad | None:
    """Take the last load of the store at `store_path` back; None when it was not confirmed.

    Args:
        store_path: The store's file.
        confirm: Is shown what would be taken back; nothing is written unless it returns true.
        backup: Whether the store is backed up first.
        tell: Is told what was met in opening the store, and where its backup is.

    Raises:
        StoreError: As `undo_last_load`; or there is no such store, or it is in use.
    """
    if not store_path.exists():
        raise missing(store_path)
    with open_store(store_path, read_only=False) as store:
        for note in store.notes:
            tell(note)
        last = plan_undo(store)
        if not confirm(last):
            return None
        file = store.back_up(f"before undo of load {last.load_no}") if backup else None
        if file:
            tell(f"Backed up to {file}.")
        return undo_last_load(store, expected=last.load_no)


def _frame(cursor: duckdb.DuckDBPyConnection, sql: str, load_no: int) -> pl.DataFrame:
    return pl.DataFrame(cursor.sql(sql, params={"load_no": load_no}))


def _restored(store: Store, changes: pl.DataFrame) -> dict[str, pl.DataFrame]:
    """Return the changed rows, complete, with their old cells."""
    season = SeasonRows(store)
    restored = {}
    for (name,), cells in changes.partition_by("table_name", as_dict=True).items():
        table = TABLES[str(name)]
        held = season.stored(table.name)
        held = held.with_columns(row_key=row_key(table, held))
        rows = held.join(cells.select("row_key").unique(), on="row_key", how="semi")
        for (column,), part in cells.partition_by("column_name", as_dict=True).items():
            rows = _with_old_cells(table, rows, str(column), part)
        gone = cells.join(held, on="row_key", how="anti")
        if not gone.is_empty():
            raise _changed_since(table.name, gone["row_key"][0], None)
        restored[table.name] = rows.select(table.names)
    return restored


def _with_old_cells(
    table: StoredTable, rows: pl.DataFrame, column: str, cells: pl.DataFrame
) -> pl.DataFrame:
    old = cells.select("row_key", "old_value", "new_value", _changed=pl.lit(True))
    both = rows.join(old, on="row_key", how="left", maintain_order="left")
    mine = pl.col("_changed").fill_null(False)
    again = both.filter(mine & as_text(both, column).ne_missing(pl.col("new_value")))
    if not again.is_empty():
        raise _changed_since(table.name, again["row_key"][0], column)
    value = _as_value(pl.col("old_value"), table.column(column).holds)
    return both.with_columns(
        pl.when(mine).then(value).otherwise(pl.col(column)).alias(column)
    ).drop("old_value", "new_value", "_changed")


def _as_value(text: pl.Expr, holds: CellType) -> pl.Expr:
    if holds is CellType.DATE:
        return text.str.to_date("%Y-%m-%d")
    if holds is CellType.INSTANT:
        moment = text.str.to_datetime("%Y-%m-%dT%H:%M:%S%.fZ", time_unit="us")
        return moment.dt.replace_time_zone("UTC")
    if holds is CellType.INTEGER:
        return text.cast(pl.Int64)
    return text.cast(pl.Float64) if holds is CellType.NUMBER else text


def _changed_since(table: str, key: str, column: str | None) -> StoreError:
    where = f"{table}, {key}" + (f", {column}" if column else "")
    return StoreError(
        f"The last load cannot be taken back: {where} was changed again after it.",
        "Load a corrected file instead.",
    )


def _refuse_pointing(pointing: pl.DataFrame) -> None:
    if pointing.is_empty():
        return
    parts = [f"{n:,} of {name} point to {target}" for name, target, n in pointing.iter_rows()]
    raise StoreError(
        f"The last load cannot be taken back: rows that came otherwise need its rows "
        f"({'; '.join(parts)}).",
        "Load a corrected file instead.",
    )
