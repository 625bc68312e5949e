"""Backing up, taking back and being stopped, through the real command."""

import os
import re
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from tests.killing.season import write_before, write_load

ROOT = Path(__file__).resolve().parent.parent.parent
TEAM = "team,department,sport,sex\nT9,D1,rowing,mixed\n"


@pytest.fixture(scope="module")
def made(run, tmp_path_factory):
    """Give a folder with a store of two loads."""
    folder = tmp_path_factory.mktemp("made")
    store = folder / "season.duckdb"
    (folder / "teams.csv").write_text(TEAM)
    for files in (write_before(folder / "before", 20), folder / "teams.csv"):
        done = run("load", files, "--store", store, "--yes")
        assert done.status == 0, done.err
    return folder


@pytest.fixture
def store(made, tmp_path):
    """Give a copy of it with its backup."""
    subprocess.run(["cp", "-r", f"{made}/.", str(tmp_path)], check=True)
    return tmp_path / "season.duckdb"


@pytest.mark.long
def test_a_backup_is_made_and_listed_and_taken_back_once_that_is_confirmed(run, store):
    made = run("backup", "--store", store)
    assert made.status == 0, made.err
    backup = r"Backed up to .*/season\.duckdb\.backups/0002_.*_asked-for\.duckdb\.\n"
    assert re.fullmatch(backup, made.out)
    listed = run("backup", "--list", "--store", store).out.splitlines()
    assert re.fullmatch(r"   2  \d{4}-\d\d-\d\d \d\d:\d\d:\d\d UTC  asked for", listed[0])
    assert "roster 50, sessions 20, teams 2" in listed[1]
    assert listed[3].endswith("UTC  before load 2")
    assert "sessions 20, teams 1" in listed[4]
    before = store.read_bytes()
    for answer in ("n\n", "\n"):
        refused = run("restore", "--store", store, stdin=answer)
        assert refused.out.endswith("Nothing was changed.\n")
        assert store.read_bytes() == before
    back = run("restore", "1", "--store", store, stdin="y\n")
    assert back.status == 0, back.err
    assert re.search(r"^teams +2 +1  differs$", back.out, re.MULTILINE)
    assert re.search(r"^roster +50 +50$", back.out, re.MULTILINE)
    assert f"Restored to {store}." in back.out
    assert "_before-restore.duckdb" in back.out


def test_verify_reads_a_store_as_a_whole_and_says_what_is_in_it(run, store):
    done = run("verify", "--store", store)
    assert done.status == 0, done.err
    assert re.search(r"^sessions +20$", done.out, re.MULTILINE)
    assert done.out.endswith("is sound: every row of every table was read.\n")
    os.truncate(store, store.stat().st_size // 2)
    cut = run("verify", "--store", store)
    assert (cut.status, "Traceback" in cut.err) == (2, False)
    assert "is damaged or cut off" in cut.err
    assert "seasonboard restore --store" in cut.err


def test_a_load_and_an_undo_can_go_on_without_a_backup(run, store):
    folder = store.with_name("season.duckdb.backups")
    for file in folder.iterdir():
        file.unlink()
    undone = run("undo", "--store", store, "--yes", "--no-backup")
    loaded = run("load", store.parent / "teams.csv", "--store", store, "--yes", "--no-backup")
    assert (undone.status, loaded.status) == (0, 0)
    assert list(folder.iterdir()) == []


@pytest.fixture
def waiting(home, store):
    """Start a command that waits for its answer: `waiting("undo")`."""
    started = []

    def start(*words):
        process = subprocess.Popen(
            [sys.executable, "-m", "seasonboard", *map(str, words), "--store", str(store)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, "HOME": str(home), "PYTHONPATH": str(ROOT)},
        )
        started.append(process)
        asked = ""
        while not asked.endswith("]:"):
            letter = process.stderr.read(1)
            assert letter, f"it ended instead of asking: {asked}"
            asked += letter
        return process

    yield start
    for process in started:
        process.kill()
        process.communicate()


def test_who_opens_a_store_while_a_load_asks_is_told_who_holds_it(run, store, waiting):
    load = waiting("load", write_load(store.parent / "load", 20))
    asked = run("ask", "roster", "--store", store)
    assert asked.status == 2
    assert f"is in use by process {load.pid}." in asked.err
    assert "or answer what it asks there" in asked.err
    out, err = load.communicate("y\n")
    assert "Written to" in out, err
    assert run("verify", "--store", store).status == 0


@pytest.mark.long
@pytest.mark.parametrize(
    ("number", "status"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)], ids=["ctrl-c", "term"]
)
def test_a_load_that_is_stopped_leaves_the_store_as_it_was(store, waiting, number, status):
    before = store.read_bytes()
    load = waiting("load", write_load(store.parent / "load", 20))
    load.send_signal(number)
    _, err = load.communicate()
    assert load.returncode == status
    assert err.strip().splitlines()[-1] == f"seasonboard: Stopped; {store} is as it was."
    assert store.read_bytes() == before


def test_a_first_load_that_is_stopped_leaves_no_file(store, waiting):
    for file in store.parent.glob("season.duckdb*"):
        subprocess.run(["rm", "-r", str(file)], check=True)
    load = waiting("load", store.parent / "before")
    load.send_signal(signal.SIGTERM)
    load.communicate()
    assert list(store.parent.glob("*season.duckdb*")) == []


def test_a_mere_plan_can_be_looked_at_while_somebody_reads_and_changes_nothing(run, store):
    from seasonboard.store.store import open_store

    before = store.read_bytes()
    folder = write_load(store.parent / "load", 20)
    with open_store(store):
        done = run("load", folder, "--store", store, "--plan")
    assert done.status == 0, done.err
    assert "attendance 1,000" in re.sub(" +", " ", done.out)
    assert store.read_bytes() == before


def rights(folder):
    """Return the rights of everything below a folder, by kind."""
    paths = list(folder.rglob("*"))
    return {
        kind: {stat.S_IMODE(path.stat().st_mode) for path in paths if path.is_dir() is is_folder}
        for kind, is_folder in (("folders", True), ("files", False))
    }


@pytest.mark.long
def test_what_is_written_is_for_its_owner_alone_and_a_store_keeps_the_rights_it_has(run, tmp_path):
    tables, place = write_before(tmp_path / "tables", 20), tmp_path / "place"
    place.mkdir()
    store = place / "season.duckdb"
    for words in (
        ("load", tables, "--store", store, "--yes"),
        ("export", place / "export", "--store", store),
        ("backup", "--store", store),
        ("bundle", place / "one.bundle", "--store", store),
        ("handout", "week", "--store", store, "--out", place / "week.html"),
    ):
        done = run(*words)
        assert done.status == 0, (words, done.err)
    assert rights(place) == {"folders": {0o700}, "files": {0o600}}
    store.chmod(0o640)
    assert run("restore", "--store", store, "--yes").status == 0
    assert stat.S_IMODE(store.stat().st_mode) == 0o640
