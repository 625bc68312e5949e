"""A disk that fills up during a load or a backup leaves the store as it was, and that is said.

A process may not write files beyond a size here (RLIMIT_FSIZE): the system then refuses a write in
the middle, as a full disk does, and no privilege is needed. Where a small disk can be mounted, the
same is tried on one.
"""

import json
import os
import resource
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.backup_names import folder_of
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.store import open_store
from tests.killing.season import write_before, write_load
from tests.store.conftest import held, names

SESSIONS = 300
LIMITED = """
import json, resource, signal, sys
from pathlib import Path
from seasonboard.errors import StoreError
from seasonboard.store.backups import back_up_by_hand
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.undo import undo_path
from tests.person import Person
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
what, store, folder, size = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3]), int(sys.argv[4])
def run_out(_shown):
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, resource.RLIM_INFINITY))
    return True
try:
    if what == "backup by hand":
        run_out(None)
        back_up_by_hand(store, None)
    elif what == "undo":
        undo_path(store, confirm=run_out, backup=False)
    else:
        load_paths(store, [folder], Person(run_out, backup=what == "backup before load"))
    print(json.dumps(None))
except StoreError as error:
    print(json.dumps([error.what, error.hint]))
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> Path:
    """Give a folder with a store, a load for it, and that store after the load."""
    folder = tmp_path_factory.mktemp("room")
    before = write_before(folder / "before", SESSIONS)
    load_paths(folder / "early.duckdb", [before], UnattendedLoad())
    write_load(folder / "load", SESSIONS)
    shutil.copy(folder / "early.duckdb", folder / "late.duckdb")
    load_paths(folder / "late.duckdb", [folder / "load"], UnattendedLoad())
    shutil.rmtree(folder_of(folder / "late.duckdb"))
    return folder


def limited(what: str, store: Path, folder: Path, size: int) -> list[str] | None:
    done = subprocess.run(
        [sys.executable, "-c", LIMITED, what, str(store), str(folder), str(size)],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )
    return json.loads(done.stdout)


@pytest.mark.long
@pytest.mark.parametrize("beyond", [0, 300_000])
def test_a_load_without_room_leaves_the_store_as_it_was(made, tmp_path, beyond):
    store = Path(shutil.copy(made / "early.duckdb", tmp_path / "season.duckdb"))
    before = held(store)
    what, hint = limited("load", store, made / "load", store.stat().st_size + beyond)
    assert what == f"There is no room left to write {store}; nothing was changed."
    assert hint.startswith("Make room on that disk")
    assert held(store) == before
    with open_store(store, read_only=False) as opened:
        assert opened.notes == ()
    load_paths(store, [made / "load"], UnattendedLoad())
    assert held(store)["attendance"] == held(made / "late.duckdb")["attendance"]


def test_a_first_load_without_room_leaves_no_file(made, tmp_path):
    what, _ = limited("load", tmp_path / "season.duckdb", made / "before", 1_000_000)
    assert "There is no room left" in what
    assert names(tmp_path) == []


def test_an_undo_without_room_leaves_the_store_as_it_was(made, tmp_path):
    store = Path(shutil.copy(made / "late.duckdb", tmp_path / "season.duckdb"))
    before = held(store)
    what, _ = limited("undo", store, made / "load", 100_000)
    assert "There is no room left" in what
    assert held(store) == before


@pytest.mark.long
@pytest.mark.parametrize("what", ["backup before load", "backup by hand"])
def test_a_backup_without_room_leaves_nothing_of_itself(made, tmp_path, what):
    store = Path(shutil.copy(made / "early.duckdb", tmp_path / "season.duckdb"))
    before = store.read_bytes()
    said, hint = limited(what, store, made / "load", 1_000_000)
    assert said.startswith("The backup")
    assert "so nothing was changed" in said
    assert ("--no-backup" if "load" in what else "--out") in hint
    assert store.read_bytes() == before
    assert not folder_of(store).exists() or names(folder_of(store)) == []


@pytest.fixture
def small_disk(tmp_path):
    """Mount a disk of 8 MB, where that is permitted."""
    place = tmp_path / "disk"
    place.mkdir()
    mount = shutil.which("mount")
    if mount is None:
        pytest.skip("there is no mount command")
    done = subprocess.run(
        [mount, "-t", "tmpfs", "-o", "size=8m", "tmpfs", str(place)],
        capture_output=True,
        check=False,
    )
    if done.returncode:
        pytest.skip("this user may not mount a small disk")
    yield place
    subprocess.run(["umount", str(place)], check=True)


@pytest.mark.long
def test_a_full_disk_leaves_the_store_as_it_was(made, small_disk):
    store = Path(shutil.copy(made / "early.duckdb", small_disk / "season.duckdb"))
    before = held(store)
    room = shutil.disk_usage(small_disk).free
    (small_disk / "other").write_bytes(bytes(room - 600_000))
    unlimited = resource.RLIM_INFINITY if resource.RLIM_INFINITY > 0 else 2**62
    what, _ = limited("load", store, made / "load", unlimited)
    assert what == f"There is no room left to write {store}; nothing was changed."
    assert held(store) == before
    said, _ = limited("backup before load", store, made / "load", unlimited)
    assert said.startswith("The backup before load 2 could not be made")
    assert held(store) == before
