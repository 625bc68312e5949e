"""A store from before bundles gets a mark for each of its loads, and then sends and takes them."""

import shutil
from pathlib import Path

import duckdb
import pytest

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.store import open_store
from tests.bundles.pair import Place, changed


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


def test_loads_of_an_older_store_are_marked_once(older: Path) -> None:
    with open_store(older, read_only=False) as store:
        marks = store.read("bundle/marks")
        assert sorted(marks["load_no"]) == [1, 2]
        assert marks["is_own"].all()
        assert marks["mark"].n_unique() == 2
        name = store.read("bundle/store_id")["store_id"].item()
    with open_store(older, read_only=False) as store:
        assert store.read("bundle/marks").equals(marks)
        assert store.read("bundle/store_id")["store_id"].item() == name


def test_what_an_older_store_changed_is_the_newer_value(older: Path, maker: Place) -> None:
    with open_store(older, read_only=False) as store:
        bundle = Place(store, older.parent / "older").bundle()
    assert changed(maker.take(bundle)) == [("T1", "sport", "soccer", "judo")]


def test_two_copies_of_one_store_have_names_of_their_own_only_when_made_apart(
    older: Path, tmp_path: Path
) -> None:
    open_store(older, read_only=False).close()
    shutil.copy(older, tmp_path / "copy.duckdb")
    names = set()
    for path in (older, tmp_path / "copy.duckdb"):
        with open_store(path) as store:
            names.add(store.read("bundle/store_id")["store_id"].item())
    assert len(names) == 1
