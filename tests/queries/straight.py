"""A season of plain rows put straight into a new store, without reading files.

`test_straight.py` shows that the store then holds what loading the files gives.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from seasonboard.store.store import Store
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
_LOAD = (
    "INSERT INTO store.loads VALUES (1, now())",
    "INSERT INTO store.marks VALUES (CAST(uuid() AS VARCHAR), 1, now(), true)",
)


def put_straight(store: Store, tables: Rows) -> bool:
    """Write these rows to a new store; False, and nothing written, where a load must see them."""
    if not all(_is_plain(TABLES[name], rows) for name, rows in tables.items()):
        return False
    there = {(kind, area) for kind, area, _ in KINDS}
    kinds = [r for r in tables.get("kinds", ()) if (r["kind"], r["area"]) not in there]
    stored = _stored({**tables, "kinds": kinds})
    for name in tables:
        file = {"file": f"{name}.csv", "sha256": "", "table_name": name, "load_no": 1}
        counts = {"new_rows": len(stored[name]), "changed_rows": 0, "same_rows": 0}
        stored.setdefault("load_tables", []).append(file | counts)
    with store.writing() as cursor:
        cursor.execute(";".join([*map(_insert, stored, stored.values()), *_LOAD]))
    return True


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


def _stored(tables: Rows) -> dict[str, list[dict[str, Any]]]:
    """Return the rows of every table as the store holds them: numbers for keys, instants in UTC."""
    homes = {d["department"]: ZoneInfo(d["time_zone"]) for d in tables.get("departments", ())}
    departments = {t["team"]: t["department"] for t in tables.get("teams", ())}
    zones = {team: homes[home] for team, home in departments.items()}
    teams = {r["athlete"]: r["team"] for r in reversed(tables.get("roster", ()))}
    players = {g["guard"]: g["athlete"] for g in tables.get("guards", ())}
    stored = {name: [dict(row) for row in rows] for name, rows in tables.items()}
    for row in stored.get("sessions", ()):
        row["starts_at"] = _utc(row["starts_at"], zones[row["team"]])
        row["played_on"] = row["starts_at"].astimezone(zones[row["team"]]).date()
    for row in stored.get("stages", ()):
        row["reached_at"] = _utc(row["reached_at"], zones[teams[players[row["guard"]]]])
    starts = [
        (r["season"], departments[r["team"]], r["starts_at"], r["session"])
        for r in stored.get("sessions", ())
    ]
    owners = [(athlete, guard) for guard, athlete in players.items()]
    numbers = {
        "athlete": _numbers((athlete,) for athlete in teams),
        "session": _numbers(starts),
        "guard": _numbers(owners),
    }
    stored["athletes"] = [{"athlete": athlete} for athlete in teams]
    return {
        name: sorted((_numbered(name, row, numbers) for row in rows), key=_place)
        for name, rows in stored.items()
    }


def _utc(at: datetime, zone: ZoneInfo) -> datetime:
    return (at if at.tzinfo else at.replace(tzinfo=zone)).astimezone(UTC)


def _numbers(keys: Iterable[tuple[Any, ...]]) -> dict[str, int]:
    """Number keys from 1 in the order of what stands before them."""
    return {key[-1]: number for number, key in enumerate(sorted(keys), 1)}


def _numbered(name: str, row: Row, numbers: Mapping[str, Mapping[str, int]]) -> dict[str, Any]:
    """Return a row with numbers for its keys; a key stays where it is given."""
    given = {f"{key}_no": numbers[key][row[key]] for key in numbers if row.get(key) is not None}
    kept = {key: cell for key, cell in row.items() if key not in numbers or name == f"{key}s"}
    return given | kept | ({} if name == "athletes" else {"load_no": 1})


def _place(row: Row) -> tuple[Any, ...]:
    """Return what rows are sorted by: their numbers, and stages in time."""
    numbers = (row.get(f"{key}_no") or 0 for key in ("session", "guard", "athlete"))
    return (*numbers, str(row.get("reached_at")), str(row.get("stage")))


def _insert(name: str, rows: Sequence[Row]) -> str:
    names = list(dict.fromkeys(name for row in rows for name in row))
    cells = ", ".join(f"({', '.join(_literal(row.get(name)) for name in names)})" for row in rows)
    return f"INSERT INTO store.{name} ({', '.join(names)}) VALUES {cells}" if rows else ""


def _literal(cell: object) -> str:
    if cell is None:
        return "NULL"
    text = str(cell).replace("'", "''")
    return text if isinstance(cell, int | float) else f"'{text}'"
