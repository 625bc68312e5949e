"""The newest schema is what the description of the stored tables says."""

import duckdb
import pytest

from seasonboard.store.store import memory_store
from seasonboard.store.table_sql import read_question
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES

NUMBERED = {"session_no": "INTEGER", "athlete_no": "INTEGER", "guard_no": "INTEGER"}
"""The store's own numbers; those of athletes have a table of their own."""
DERIVED = {("sessions", "played_on"): "DATE"}
"""What the store works out when a row is written; every row has it."""


@pytest.fixture(scope="module")
def store():
    with memory_store() as made:
        yield made


@pytest.fixture(scope="module")
def words(store):
    """Return the words of each ENUM, by its name."""
    rows = store._connection.sql(
        "SELECT type_name, labels FROM duckdb_types() "
        "WHERE logical_type = 'ENUM' AND database_name = 'store' AND NOT internal"
    ).fetchall()
    return dict(rows)


def described(table):
    """Return the columns a table has in the store: name → (type or words, whether needed)."""
    columns = {table.number: (NUMBERED[table.number], True)} if table.number else {}
    for one in table.columns:
        kind = NUMBERED[one.stored_name] if one.numbered_in else one.sql_type
        columns[one.stored_name] = (list(map(str, one.words)) or kind, one.required)
    columns |= {name: (DERIVED[table.name, name], True) for name in table.derived}
    return columns | {"load_no": ("INTEGER", False)}


def each_table():
    return pytest.mark.parametrize("table", TABLES.values(), ids=list(TABLES))


@each_table()
def test_columns_types_and_what_is_needed_are_those_of_the_schema(store, words, table):
    rows = store._connection.execute(
        "SELECT column_name, data_type, is_nullable FROM duckdb_columns() "
        "WHERE database_name = 'store' AND table_name = $1 ORDER BY column_index",
        [table.name],
    ).fetchall()
    names = [one.stored_name for one in table.columns]
    by_name = {f"ENUM({', '.join(map(repr, one))})": one for one in words.values()}
    held = {
        name: (by_name.get(kind, kind.replace(" WITH TIME ZONE", "TZ")), not is_nullable)
        for name, kind, is_nullable in rows
    }
    assert held == described(table)
    assert [name for name in held if name in names] == names, "a column of a later step stands last"


@each_table()
def test_keys_are_those_of_the_schema(store, table):
    rows = store._connection.execute(
        "SELECT constraint_type, constraint_column_names FROM duckdb_constraints() "
        "WHERE database_name = 'store' AND table_name = $1 AND constraint_type <> 'NOT NULL'",
        [table.name],
    ).fetchall()
    key = [one.stored_name for one in table.key_columns]
    if table.number:
        assert sorted(rows) == [("PRIMARY KEY", [table.number]), ("UNIQUE", key)]
    else:
        assert rows == [("PRIMARY KEY", key)]


def test_every_list_of_words_in_the_schema_is_used_and_no_table_is_left_out(store, words):
    used = [list(map(str, one.words)) for t in TABLES.values() for one in t.columns if one.words]
    assert all(one in used for one in words.values())
    tables = {name for (name,) in store._connection.sql("SHOW TABLES FROM store").fetchall()}
    kept = {"about", "athletes", "loads", "load_tables", "changes", "marks", "origins"}
    assert tables == TABLES.keys() | kept


@each_table()
def test_a_table_refers_to_columns_of_tables_before_it(table):
    order = list(TABLES)
    for one in table.columns:
        if one.refers is not None:
            target, column = one.refers
            assert order.index(target) <= order.index(table.name)
            assert column in TABLES[target].key


def test_a_name_that_stands_in_several_tables_holds_the_same_there():
    """Of two it does not: words differ of one, and guards may name a printer that is not listed."""
    seen = {}
    for table in TABLES.values():
        for one in table.columns:
            seen.setdefault(one.name, set()).add((one.holds, one.unit, one.plausible))
    assert {name for name, kinds in seen.items() if len(kinds) > 1} == {"reason", "printer"}
    assert TABLES["attendance"].column("reason").holds is CellType.WORD


def test_every_column_says_what_it_is_and_no_heading_stands_for_two_of_a_table():
    for table in TABLES.values():
        assert table.meaning
        headings = [h for one in table.columns for h in one.headings.split(", ") if h]
        assert len(set(headings)) == len(headings), table.name
        for one in table.columns:
            assert one.meaning, (table.name, one.name)
            assert one.plausible is None or one.plausible[0] < one.plausible[1] <= (one.high or 1e9)


@each_table()
def test_reading_gives_the_columns_in_their_written_order(store, table):
    question = read_question(table)
    assert list(question.columns) == table.names
    types = store._connection.cursor().sql(question.sql).types
    assert [duckdb.sqltype(kind) for kind in question.columns.values()] == list(types)
