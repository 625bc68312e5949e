"""A store from before bundles gets a mark for each of its loads, and then sends and takes them."""

import io
import shutil
from pathlib import Path

import duckdb
import polars as pl
import pytest

from seasonboard.errors import IntakeError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.catalogue import migrations
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.store import open_store
from tests.bundles.pair import Place, changed
from tests.bundles.test_damage import parts_of, told, with_frame, zipped
from tests.reused import ReusedStore


@pytest.fixture
def older(maker: Place, tmp_path: Path) -> Path:
    """Return a store of schema 1 with two loads."""
    path = tmp_path / "older.duckdb"
    load_paths(path, [maker.folder], UnattendedLoad())
    (tmp_path / "teams.csv").write_text("team,department,sport,sex\nT1,D1,judo,women\n")
    load_paths(path, [tmp_path / "teams.csv"], UnattendedLoad())
    with duckdb.connect(path) as connection:
        connection.execute("DROP TABLE marks; DROP TABLE origins")
        connection.execute("DELETE FROM about WHERE name = 'store_id'")
        connection.execute("UPDATE about SET value = '1' WHERE name = 'schema_version'")
    return path


def test_loads_of_an_older_store_are_marked_once(older):
    with open_store(older, read_only=False) as store:
        marks = store.read("bundle/marks")
        assert sorted(marks["load_no"]) == [1, 2]
        assert marks["is_own"].all()
        assert marks["mark"].n_unique() == 2
        name = store.read("bundle/store_id")["store_id"].item()
    with open_store(older, read_only=False) as store:
        assert store.read("bundle/marks").equals(marks)
        assert store.read("bundle/store_id")["store_id"].item() == name


def test_what_an_older_store_changed_is_the_newer_value(older, maker):
    with open_store(older, read_only=False) as store:
        bundle = Place(store, older.parent / "older").bundle()
    assert changed(maker.take(bundle)) == [("T1", "sport", "soccer", "judo")]


def test_two_copies_of_one_store_have_names_of_their_own_only_when_made_apart(older, tmp_path):
    open_store(older, read_only=False).close()
    shutil.copy(older, tmp_path / "copy.duckdb")
    names = set()
    for path in (older, tmp_path / "copy.duckdb"):
        with open_store(path) as store:
            names.add(store.read("bundle/store_id")["store_id"].item())
    assert len(names) == 1


def of_older_schema(bundle: Path, table: str, column: str, schema: int = 1) -> Path:
    """Write the bundle as an older version would have, whose table had no such column."""
    parts = parts_of(bundle.read_bytes())
    name = f"tables/{table}.parquet"
    frame = pl.read_parquet(io.BytesIO(parts[name])).drop(column)
    path = bundle.with_name(f"without {column}.bundle")
    path.write_bytes(zipped(told(with_frame(parts, name, frame), schema=schema)))
    return path


def test_a_column_that_an_older_store_did_not_have_stays_as_it_is(maker, trainer):
    trainer.take(maker.bundle())
    trainer.load(roster="athlete,team,season,name,jersey\nA1,T1,2026,Ana Reed,7\n")
    maker.load(roster="athlete,team,season,name,position\nA1,T1,2026,Ana Reed,goal\n")
    plan = trainer.take(of_older_schema(maker.bundle(), "roster", "jersey"))
    assert changed(plan) == [("A1 · T1 · 2026", "position", "keeper", "goal")]
    assert trainer.cell("roster", "jersey", athlete="A1") == "7"


def test_rows_of_an_older_store_have_nothing_in_a_later_column(maker):
    with ReusedStore() as empty:
        plan = plan_load(empty, [of_older_schema(maker.bundle(), "roster", "jersey")])
        assert plan.rows["roster"]["jersey"].to_list() == [None, None, None]


@pytest.mark.parametrize(
    ("column", "schema"), [("name", 1), ("jersey", migrations()[-1][0])], ids=["needed", "today's"]
)
def test_a_column_that_is_needed_or_of_todays_schema_may_not_be_missing(maker, column, schema):
    bundle = of_older_schema(maker.bundle(), "roster", column, schema)
    with ReusedStore() as empty, pytest.raises(IntakeError, match="holds other columns or rows"):
        plan_load(empty, [bundle])
