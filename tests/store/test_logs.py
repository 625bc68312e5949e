"""A log that cannot be read is set aside by whoever writes, and only told by whoever reads."""

import subprocess
import sys
from pathlib import Path

import duckdb
import pytest

from seasonboard.errors import StoreError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.store import open_store, verify_store
from tests.person import Person
from tests.store.conftest import held, more, names

LEAVE_A_LOG = """
import os, signal, sys
import duckdb
c = duckdb.connect(":memory:")
c.execute(f"ATTACH '{sys.argv[1]}' AS store")
c.execute("SET checkpoint_threshold = '1TB'")
for n in range(3):
    some = [100 * n + 100, 100 * n + 200]
    rows = "SELECT i, 'D1', 'golf', 'men', 9 FROM range($1, $2) t(i)"
    c.execute(f"INSERT INTO store.teams {rows}", some)
os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.fixture
def logged(season: Path) -> tuple[Path, Path]:
    """Leave a log of three transactions of 100 teams each, as a killed program would."""
    subprocess.run([sys.executable, "-c", LEAVE_A_LOG, str(season)], check=False)
    log = season.with_name("season.duckdb.wal")
    assert log.stat().st_size > 1000
    return season, log


def teams(path: Path) -> int:
    with open_store(path) as store:
        return store.read("store/teams").height


def flipped(data: bytes, share: float) -> bytes:
    harmed = bytearray(data)
    harmed[int(len(data) * share)] ^= 0xFF
    return bytes(harmed)


HARM = {
    "a flipped bit": lambda data: flipped(data, 0.5),
    "a flipped bit at the start": lambda data: flipped(data, 0.001),
    "rubbish": lambda _: b"no log at all" * 100,
    "zeros": lambda _: bytes(2000),
}


def test_a_sound_log_is_read_and_then_taken_into_the_file(logged):
    path, log = logged
    before = log.read_bytes()
    assert teams(path) == 302
    assert log.read_bytes() == before  # a reader leaves it
    with open_store(path, read_only=False) as store:
        assert store.notes == ()
    assert not log.exists()
    assert teams(path) == 302


@pytest.mark.long
@pytest.mark.parametrize("harm", HARM)
def test_a_log_that_cannot_be_read_is_set_aside_and_the_store_opens_as_before(logged, harm):
    path, log = logged
    harmed = HARM[harm](log.read_bytes())
    log.write_bytes(harmed)
    with open_store(path, read_only=False) as store:
        (note,) = store.notes
    (aside,) = path.parent.glob("*.set-aside-*")
    assert aside.read_bytes() == harmed  # kept, whole
    assert not log.exists()
    assert str(aside) in note
    assert "not deleted" in note
    assert "as it was after load 1 of 2" in note
    assert teams(path) == 2


def test_a_reader_leaves_a_log_that_cannot_be_read_and_says_what_to_do(logged):
    path, log = logged
    harmed = HARM["a flipped bit"](log.read_bytes())
    log.write_bytes(harmed)
    with pytest.raises(StoreError) as refused:
        open_store(path)
    assert refused.value.what.startswith(f"The log {log} beside the store cannot be read")
    assert f"seasonboard verify --store {path}" in refused.value.hint
    assert names(path.parent) == ["season.duckdb", "season.duckdb.wal"]
    assert log.read_bytes() == harmed
    told = []
    assert verify_store(path, tell=told.append)["teams"] == 2
    assert len(told) == 1
    assert teams(path) == 2


def test_a_second_log_is_set_aside_beside_the_first(season):
    for _ in range(2):
        season.with_name("season.duckdb.wal").write_bytes(b"rubbish")
        open_store(season, read_only=False).close()
    assert len(list(season.parent.glob("*.set-aside-*"))) == 2


def test_the_log_of_another_store_is_set_aside(logged, season_store, tmp_path, season_folder):
    _, log = logged
    other = tmp_path / "other.duckdb"
    load_paths(other, [season_folder], UnattendedLoad())
    log.rename(other.with_name("other.duckdb.wal"))
    with open_store(other, read_only=False) as store:
        assert len(store.notes) == 1
    assert teams(other) == 2


def test_a_log_without_its_store_does_not_meet_a_new_one(tmp_path, season_folder):
    place = tmp_path / "season.duckdb"
    place.with_name("season.duckdb.wal").write_bytes(b"of a store that is gone")
    load_paths(place, [season_folder], UnattendedLoad())
    assert teams(place) == 2
    (aside,) = tmp_path.glob("*.set-aside-*")
    assert aside.read_bytes() == b"of a store that is gone"


def test_the_log_of_a_file_that_is_no_store_stays_where_it_is(tmp_path):
    path = tmp_path / "other.duckdb"
    with duckdb.connect(path) as connection:
        connection.execute("CREATE TABLE other (x INTEGER)")
    log = path.with_name("other.duckdb.wal")
    log.write_bytes(b"whatever")
    with pytest.raises(StoreError, match="is not a seasonboard store"):
        open_store(path, read_only=False)
    assert log.read_bytes() == b"whatever"


def test_a_load_says_that_a_log_was_set_aside(season, tmp_path):
    season.with_name("season.duckdb.wal").write_bytes(b"rubbish")
    person = Person()
    load_paths(season, more(tmp_path), person)
    assert "set aside" in person.told[0]
    assert held(season)["teams"][0] == 3
