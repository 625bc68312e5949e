"""A season of plain rows made ready for the store without reading files.

`test_straight.py` shows that the store then holds what loading the files gives.
"""

from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.store.intake.plan import LoadPlan
from seasonboard.store_outcomes import TablePlan
from seasonboard.stored_column import CellType, StoredColumn, StoredTable
from seasonboard.stored_tables import TABLES
from seasonboard.terms import KINDS

Row = Mapping[str, Any]
Rows = Mapping[str, Sequence[Row]]

_TYPES: Mapping[CellType, tuple[type, ...]] = {
    CellType.INTEGER: (int,),
    CellType.NUMBER: (int, float),
    CellType.DATE: (date,),
    CellType.INSTANT: (datetime,),
}
_CHANGES = ("file", "file_row", "table_name", "row_key", "column_name", "old_value", "new_value")


def straight_plan(tables: Rows) -> LoadPlan | None:
    """Return a plan that writes these rows to a new store; None where a load must look at them."""
    if not all(_is_plain(TABLES[name], rows) for name, rows in tables.items()):
        return None
    there = {(kind, area) for kind, area, _ in KINDS}
    kinds = [r for r in tables.get("kinds", ()) if (r["kind"], r["area"]) not in there]
    own = {**tables, "kinds": kinds}
    frames = {name: _frame(TABLES[name], rows, _zones(name, tables)) for name, rows in own.items()}
    told = tuple(TablePlan(name, f"{name}.csv", len(own[name]), 0, 0) for name in tables)
    return LoadPlan(told, (), pl.DataFrame(schema=dict.fromkeys(_CHANGES, pl.String)), frames)


def _is_plain(table: StoredTable, rows: Sequence[Row]) -> bool:
    """Say whether every cell is what its column holds, and no two rows are of one key."""
    columns = {column.name: column for column in table.columns}
    keys = {tuple(row.get(name) for name in table.key) for row in rows}
    return len(keys) == len(rows) and all(
        row.keys() <= columns.keys()
        and all(_holds(column, row.get(name)) for name, column in columns.items())
        for row in rows
    )


def _holds(column: StoredColumn, value: object) -> bool:
    if value is None:
        return not column.required
    if isinstance(value, str):
        is_tidy = value.isascii() and value.isprintable() and value == value.strip() != ""
        is_known = not column.words or value in column.words
        return is_tidy and is_known and str in _TYPES.get(column.holds, (str,))
    is_day = not (column.holds is CellType.DATE and isinstance(value, datetime))
    is_large = isinstance(value, int | float) and not 0 <= value <= (column.high or 1e9)
    return isinstance(value, _TYPES.get(column.holds, (str,))) and is_day and not is_large


def _frame(table: StoredTable, rows: Sequence[Row], zones: Mapping[str, ZoneInfo]) -> pl.DataFrame:
    """Return the rows as a load hands them to the store: instants in UTC."""
    columns = {}
    for column in table.columns:
        values = [row.get(column.name) for row in rows]
        if column.holds is CellType.INSTANT:
            owner = table.columns[1].name if table.name == "sessions" else table.columns[0].name
            values = [
                (at if at.tzinfo else at.replace(tzinfo=zones[row[owner]])).astimezone(UTC)
                for at, row in zip(values, rows, strict=True)
            ]
        columns[column.name] = pl.Series(values, dtype=column.frame_type, strict=False)
    return pl.DataFrame(columns)


def _zones(name: str, tables: Rows) -> Mapping[str, ZoneInfo]:
    """Return the time zone by team for sessions, by guard for stages."""
    homes = {d["department"]: ZoneInfo(d["time_zone"]) for d in tables.get("departments", ())}
    teams = {t["team"]: homes[t["department"]] for t in tables.get("teams", ())}
    if name != "stages":
        return teams
    athletes = {r["athlete"]: teams[r["team"]] for r in reversed(tables.get("roster", ()))}
    return {g["guard"]: athletes[g["athlete"]] for g in tables.get("guards", ())}
