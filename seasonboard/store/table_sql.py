"""SQL that follows from the description of the stored tables: reading, writing, taking back.

Questions are written by hand, in queries/. What is made here only moves whole rows, so that a
column that is described is stored, read, and taken back.
"""

from functools import cache

from seasonboard.store.question_header import SqlQuestion
from seasonboard.store.shipped_files import shipped
from seasonboard.stored_column import CellType, StoredColumn, StoredTable
from seasonboard.stored_tables import TABLES


def read_question(table: StoredTable) -> SqlQuestion:
    """Return the question for all rows of a table, under its text keys and in their order."""
    cells = {one.name: _read_cell(table, one) for one in table.columns}
    types = {one.name: one.sql_type for one in table.columns}
    asks = f"What does the store hold as {table.name}?"
    return _question(table, f"store/{table.name}", asks, cells, types)


def loads_question(table: StoredTable) -> SqlQuestion:
    """Return the question for the keys of a table, and the load that brought each row."""
    cells = {one.name: _read_cell(table, one) for one in table.key_columns}
    cells["load_no"] = f"coalesce({table.name}.load_no, 0)"
    types = {one.name: one.sql_type for one in table.key_columns} | {"load_no": "INTEGER"}
    asks = f"Which load brought each row of {table.name}?"
    return _question(table, f"brought/{table.name}", asks, cells, types)


def _question(
    table: StoredTable, name: str, asks: str, cells: dict[str, str], types: dict[str, str]
) -> SqlQuestion:
    listed = ",\n".join(f"    {cell} AS {column}" for column, cell in cells.items())
    source = "\n".join([f"store.{table.name} AS {table.name}", *_key_joins(table, table.name)])
    sql = f"SELECT\n{listed}\nFROM {source}\nORDER BY {', '.join(table.key)}\n"
    return SqlQuestion(name, asks, f"one row for {table.meaning}", {}, types, sql)


def _read_cell(table: StoredTable, column: StoredColumn) -> str:
    if column.numbered_in:
        return f"{column.numbered_in}.{column.name}"
    cell = f"{table.name}.{column.name}"
    return f"CAST({cell} AS VARCHAR)" if column.holds is CellType.WORD else cell


def _key_joins(table: StoredTable, rows: str) -> list[str]:
    """Return the joins with the tables that hold the text of its keys, or their numbers.

    Stored rows are joined by the numbers, `incoming` ones by the text.
    """
    joins = []
    for one in table.columns:
        if held := one.numbered_in:
            key = one.name if rows == "incoming" else one.stored_name
            kind = "" if one.required else "LEFT "
            joins.append(f"{kind}JOIN store.{held} AS {held} ON {held}.{key} = {rows}.{key}")
    return joins


@cache
def write_sql(table: StoredTable) -> str:
    """Return the statements that write the view `incoming`, complete rows of a table.

    A row that is there keeps its load, `load_no`, and takes the new cells. New rows are written in
    the order of their keys, of numbers where they have them, so that DuckDB's zone maps can skip.
    """
    key = [table.number] if table.number else [one.stored_name for one in table.key_columns]
    columns = _stored_names(table)
    own_key = {*key, *table.key}
    same = " AND ".join(_is_same(table, name) for name in key)
    taken = ", ".join(f"{name} = incoming.{name}" for name in columns if name not in own_key)
    incoming = _incoming(table)
    listed = ", ".join(columns)
    return (
        f"UPDATE store.{table.name} AS held SET {taken}\n"  # noqa: S608 - as above
        f"FROM ({incoming}) AS incoming\nWHERE {same};\n"
        f"INSERT INTO store.{table.name} ({listed}, load_no)\n"
        f"SELECT {listed}, $load_no\nFROM ({incoming}) AS incoming\n"
        f"ANTI JOIN store.{table.name} AS held ON {same}\n"
        f"ORDER BY {', '.join(key)}"
    )


def _stored_names(table: StoredTable) -> list[str]:
    number = [table.number] if table.number else []
    return [*number, *(one.stored_name for one in table.columns), *table.derived]


def _is_same(table: StoredTable, name: str) -> str:
    words = {one.name for one in table.columns if one.holds is CellType.WORD}
    held = f"CAST(held.{name} AS VARCHAR)" if name in words else f"held.{name}"
    return f"{held} = incoming.{name}"


def _incoming(table: StoredTable) -> str:
    """Return the incoming rows under the store's columns: numbers in the place of keys.

    What the store works out itself, its own numbers and derived columns, comes from the file in
    queries/load that is named after the table.
    """
    source = f"(\n{load_sql(table.name)}) AS incoming" if table.number else "incoming"
    numbered = {one.stored_name: one.numbered_in for one in table.columns if one.numbered_in}
    cells = [f"{numbered.get(name, 'incoming')}.{name}" for name in _stored_names(table)]
    return "\n".join([f"SELECT {', '.join(cells)} FROM {source}", *_key_joins(table, "incoming")])  # noqa: S608 - as above


def pointing_sql() -> str:
    """Return the question for rows of other loads that point to rows the load `load_no` brought.

    Its columns are the table, the table it points to, and how many rows do.
    """
    parts = []
    references = [
        (table.name, column, *column.refers)
        for table in TABLES.values()
        for column in table.columns
        if column.refers is not None
    ]
    for table, column, target, key in references:
        held = column.stored_name if column.numbered_in else key
        parts.append(
            f"SELECT '{table}' AS table_name, '{target}' AS points_to, count(*) AS n\n"  # noqa: S608 - as above
            f"FROM store.{table} WHERE load_no != $load_no AND {column.stored_name} IN (\n"
            f"    SELECT {held} FROM store.{target} GROUP BY {held}\n"
            "    HAVING bool_and(load_no = $load_no)\n"
            ") HAVING count(*) > 0"
        )
    return "\nUNION ALL\n".join(parts) + "\nORDER BY table_name, points_to"


def delete_sql() -> str:
    """Return the statements that take out the rows that the load `load_no` brought."""
    tables = reversed(list(TABLES))
    return ";\n".join(f"DELETE FROM store.{name} WHERE load_no = $load_no" for name in tables)  # noqa: S608 - as above


@cache
def load_sql(name: str) -> str:
    """Return the text of one file of queries/load."""
    return (shipped("queries") / "load" / f"{name}.sql").read_text("utf-8")
