"""Every question's header tells the truth about its SQL."""

import re

import duckdb
import pytest

from seasonboard import terms
from seasonboard.errors import StoreError
from seasonboard.store.catalogue import catalogue, migrations, shared_parts, working_tables
from seasonboard.store.query_cursor import QueryCursor, tables_of
from seasonboard.store.shipped_files import shipped
from seasonboard.store.store import memory_store
from seasonboard.stored_tables import TABLES

EMPTY_LIST = {"VARCHAR[]": []}


@pytest.fixture(scope="module")
def store():
    with memory_store() as made:
        yield made


def every_question():
    return pytest.mark.parametrize("name", list(catalogue()))


def params_of(question):
    """Return NULL for every parameter but those that are never NULL."""
    never = set(re.findall(r"--   (\w+) .*never NULL", question.sql))
    return {
        name: EMPTY_LIST[kind] if name in never else None for name, kind in question.params.items()
    }


def test_every_sql_file_of_a_question_folder_is_a_question():
    root = shipped("queries")
    others = {"schema", "parts", "working", "load"}
    files = {
        f"{file.parent.name}/{file.stem}"
        for file in root.glob("*/*.sql")
        if file.parent.name not in others
    }
    tables = {f"{what}/{table}" for what in ("store", "brought") for table in TABLES}
    assert catalogue().keys() == files | tables
    assert len(files) >= 20


@every_question()
def test_a_question_is_one_statement_with_the_parameters_of_its_header(name):
    question = catalogue()[name]
    (statement,) = duckdb.extract_statements(question.sql)
    assert statement.type == duckdb.StatementType.SELECT
    assert statement.named_parameters == question.named
    tables = tables_of(question.works_on, question.sql)
    assert question.named.union(*(table.needed for table in tables)) <= set(question.params)
    below = duckdb.extract_statements(working_tables(question.works_on)) if tables else ()
    assert set(question.params) <= question.named.union(*(step.named_parameters for step in below))


def test_no_two_working_tables_have_one_name():
    """A cursor keeps the tables of several folders side by side."""
    texts = [path.read_text() for path in shipped("queries/working").glob("*/*.sql")]
    names = re.findall(r"TEMP (?:TABLE|MACRO) (\w+)", "\n".join(texts))
    assert len(names) == len(set(names))


@every_question()
def test_a_question_gives_the_columns_and_types_of_its_header(store, name):
    question = catalogue()[name]
    params = params_of(question)
    query_cursor = QueryCursor(store._connection.cursor())
    assert query_cursor.rows(question, params).columns == list(question.columns)  # of no rows
    own = {each: params[each] for each in question.named}
    found = query_cursor.cursor.sql(question.sql, params=own)
    assert list(found.columns) == list(question.columns)
    told = [duckdb.sqltype(kind) for kind in question.columns.values()]  # TIMESTAMPTZ has two names
    assert list(found.types) == told


@every_question()
def test_a_question_asks_and_says_what_one_row_is(name):
    question = catalogue()[name]
    assert question.asks.endswith("?")
    assert re.match(r"one row\b", question.grain)
    assert re.fullmatch(r"[a-z_]+/[a-z_]+", name)


@every_question()
def test_a_question_gives_its_rows_in_an_order_unless_it_gives_one(name):
    question = catalogue()[name]
    one_row = question.grain == "one row"
    assert one_row or re.search(r"^ORDER BY\b", question.sql, re.MULTILINE)


def test_shared_parts_are_macros_in_file_order():
    parts = shared_parts()
    assert parts
    for part in parts:
        for statement in duckdb.extract_statements(part):
            assert statement.query.lstrip().split("CREATE")[1].split()[0] == "MACRO"


def test_schema_steps_are_numbered_from_one_without_a_gap():
    versions = [version for version, _ in migrations()]
    assert versions == list(range(1, len(versions) + 1))


def test_midline_areas_are_the_same_in_the_queries_and_in_the_program(store):
    """Each area, as the only one a kind covers, has one side, midline, or left and right."""
    cursor = store._connection.cursor()
    cursor.execute("BEGIN")
    for area in terms.Area:
        cursor.execute("INSERT INTO store.kinds (kind, area) VALUES ($1, $2)", [f"of {area}", area])
    found = cursor.sql(
        "SELECT area FROM scope_sites((SELECT list(kind) FROM store.kinds), NULL, NULL) "
        "WHERE side = 'midline'"
    ).fetchall()
    cursor.execute("ROLLBACK")
    assert {area for (area,) in found} == {area.value for area in terms.MIDLINE_AREAS}


def test_the_schema_version_and_the_mark_are_in_a_new_store(store):
    about = dict(store._connection.sql("SELECT * FROM store.about").fetchall())
    assert len(about.pop("store_id")) == 36
    assert about == {"mark": "seasonboard store", "schema_version": str(migrations()[-1][0])}


def test_a_new_store_starts_with_the_kinds_of_the_program(store):
    rows = store._connection.sql("SELECT kind, area, function FROM store.kinds").fetchall()
    assert sorted(rows) == sorted(
        (kind, area.value, word.value) for kind, area, word in terms.KINDS
    )


def test_a_folder_missing_from_the_installation_is_told():
    with pytest.raises(StoreError, match="is missing from this installation"):
        shipped("no such folder")
