"""Opening a store: what is there is opened, and whatever is wrong is said in a sentence."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import duckdb
import pytest

from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.store import schema as module
from seasonboard.store.catalogue import migrations
from seasonboard.store.store import open_store


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Make an empty store file; tests copy it."""
    path = tmp_path_factory.mktemp("made") / "season.duckdb"
    open_store(path, read_only=False).close()
    return path


@pytest.fixture
def place(made, tmp_path) -> Path:
    return Path(shutil.copy(made, tmp_path / "season.duckdb"))


def refusal(path, *, read_only=True):
    with pytest.raises(StoreError) as refused:
        open_store(path, read_only=read_only)
    return refused.value


def set_version(path, version):
    with duckdb.connect(path) as connection:
        connection.execute(
            "UPDATE about SET value = $1 WHERE name = 'schema_version'", [str(version)]
        )


def test_writing_makes_a_store_and_reading_finds_it(tmp_path):
    path = tmp_path / "new one’s.duckdb"
    with open_store(path, read_only=False) as store:
        assert store.path == path
    with open_store(path) as store:
        assert store.read("scope/days").rows() == [(None, None, 0, 0)]
    assert [file.name for file in tmp_path.iterdir()] == [path.name]


def test_a_quote_in_a_path_is_only_a_letter(tmp_path):
    folder = tmp_path / "it's; DROP"
    folder.mkdir()
    open_store(folder / "a'b.duckdb", read_only=False).close()
    with open_store(folder / "a'b.duckdb") as store:
        assert store.read("store/teams").is_empty()


def test_a_missing_file_is_told_and_not_made(tmp_path):
    error = refusal(tmp_path / "none.duckdb")
    assert error.what == f"There is no store at {tmp_path / 'none.duckdb'}."
    assert "seasonboard load" in error.hint
    assert list(tmp_path.iterdir()) == []


def test_a_missing_folder_is_told(tmp_path):
    error = refusal(tmp_path / "none" / "season.duckdb", read_only=False)
    assert error.what == f"The folder {tmp_path / 'none'} does not exist."


def test_a_path_under_a_file_is_told(place):
    error = refusal(place / "season.duckdb", read_only=False)
    assert error.what == f"The folder {place} does not exist."
    assert refusal(place / "season.duckdb").what.startswith("There is no store at")


def test_a_folder_that_cannot_be_written_is_told(tmp_path):
    if os.geteuid() == 0:
        path = Path("/proc/seasonboard.duckdb")  # nobody may make a file here, root neither
    else:
        tmp_path.chmod(0o500)
        path = tmp_path / "season.duckdb"
    error = refusal(path, read_only=False)
    assert error.what == f"You may not write to {path.parent}; nothing was changed."
    assert "permission" in error.hint


@pytest.mark.parametrize("read_only", [True, False])
def test_a_folder_is_no_store(tmp_path, read_only):
    assert refusal(tmp_path, read_only=read_only).what == (
        f"{tmp_path} is a folder, and is not a seasonboard store."
    )


@pytest.mark.parametrize("read_only", [True, False])
@pytest.mark.parametrize("text", [b"athlete,team\nA1,T1\n", b"x" * 20_000, b"\0" * 20_000])
def test_a_file_of_something_else_is_no_store_and_stays_as_it_is(tmp_path, text, read_only):
    path = tmp_path / "roster.csv"
    path.write_bytes(text)
    assert refusal(path, read_only=read_only).what == f"{path} is not a seasonboard store."
    assert path.read_bytes() == text


@pytest.mark.parametrize("read_only", [True, False])
def test_an_empty_file_is_no_store_and_stays_empty(tmp_path, read_only):
    path = tmp_path / "empty.duckdb"
    path.touch()
    error = refusal(path, read_only=read_only)
    assert error.what == f"{path} is empty, and is not a seasonboard store."
    assert path.stat().st_size == 0


FOREIGN = [
    "CREATE TABLE other (x INTEGER)",
    "CREATE TABLE about (x INTEGER)",
    "CREATE TABLE about (name VARCHAR, value VARCHAR)",
    "CREATE TABLE about AS SELECT 'mark' AS name, 'another program' AS value",
    "CREATE TABLE about AS SELECT 'mark' AS name, 'seasonboard store' AS value",
    "CREATE TABLE about AS SELECT unnest(['mark', 'schema_version']) AS name, "
    "unnest(['seasonboard store', 'one']) AS value",
]


@pytest.mark.parametrize("read_only", [True, False])
@pytest.mark.parametrize("sql", FOREIGN)
def test_a_database_of_something_else_is_no_store_and_stays_as_it_is(tmp_path, sql, read_only):
    path = tmp_path / "other.duckdb"
    with duckdb.connect(path) as connection:
        connection.execute(sql)
    before = path.read_bytes()
    assert refusal(path, read_only=read_only).what == f"{path} is not a seasonboard store."
    assert path.read_bytes() == before


@pytest.mark.parametrize("read_only", [True, False])
def test_a_store_of_a_newer_version_is_told_and_stays_as_it_is(place, read_only):
    newest = migrations()[-1][0]
    set_version(place, newest + 1)
    before = place.read_bytes()
    error = refusal(place, read_only=read_only)
    assert f"newer seasonboard (schema {newest + 1}; this one knows {newest})" in error.what
    assert error.hint == "Update seasonboard; the store was left as it is."
    assert place.read_bytes() == before


def test_a_store_that_was_opened_for_reading_cannot_be_written(place):
    before = place.read_bytes()
    refused = pytest.raises(StoreError, match="nothing was changed")
    with open_store(place) as store, refused, store.writing() as cursor:
        cursor.execute("INSERT INTO store.about VALUES ('a', 'b')")
    assert place.read_bytes() == before


def test_a_store_cannot_be_made_to_read_other_files(place, tmp_path):
    (tmp_path / "secret.csv").write_text("a\n1\n")
    with open_store(place) as store, pytest.raises(duckdb.PermissionException):
        store._connection.cursor().execute(f"FROM read_csv('{tmp_path / 'secret.csv'}')")


# Bringing an older store up to date.

NEXT = (
    migrations()[-1][0] + 1,
    "CREATE TABLE store.added (x INTEGER); INSERT INTO store.added VALUES (7);",
)
BROKEN = (NEXT[0] + 1, "CREATE TABLE store.more (x INTEGER); INSERT INTO store.nowhere VALUES (1);")


def with_steps(monkeypatch, *steps):
    every = (*migrations(), *steps)
    monkeypatch.setattr(module, "migrations", lambda: every)


@pytest.mark.parametrize("version", [version for version, _ in migrations()])
def test_an_older_store_is_brought_up_to_date_when_it_is_opened_for_writing(
    place, monkeypatch, version
):
    """Only the steps it lacks are taken; what it held stays."""
    set_version(place, version)
    with_steps(monkeypatch, NEXT)
    with open_store(place, read_only=False) as store:
        assert store._connection.sql("SELECT x FROM store.added").fetchall() == [(7,)]
    with open_store(place) as store:
        about = dict(store._connection.sql("SELECT * FROM store.about").fetchall())
        assert about["schema_version"] == str(NEXT[0])
        assert store._connection.sql("FROM store.kinds").fetchall()


def test_an_older_store_is_not_changed_by_reading(place, monkeypatch):
    with_steps(monkeypatch, NEXT)
    before = place.read_bytes()
    error = refusal(place)
    assert f"older seasonboard (schema {NEXT[0] - 1}; this one needs {NEXT[0]})" in error.what
    assert "seasonboard verify" in error.hint
    assert place.read_bytes() == before


def test_a_step_that_fails_leaves_the_store_as_it_was(place, monkeypatch):
    with monkeypatch.context() as patch:
        with_steps(patch, NEXT, BROKEN)
        error = refusal(place, read_only=False)
    assert "could not be made or brought up to date; nothing was changed" in error.what
    with open_store(place) as store:
        tables = {name for (name,) in store._connection.sql("SHOW TABLES FROM store").fetchall()}
    assert "added" not in tables
    assert "about" in tables


def test_a_store_that_cannot_be_made_leaves_no_file(tmp_path, monkeypatch):
    with_steps(monkeypatch, BROKEN)
    refusal(tmp_path / "season.duckdb", read_only=False)
    assert list(tmp_path.iterdir()) == []


# Two processes.

HOLD = """
import sys
from pathlib import Path
from seasonboard.store.store import open_store
with open_store(Path(sys.argv[1]), read_only=sys.argv[2] == "reading") as store:
    print("held", store.read("store/teams").height, flush=True)
    sys.stdin.readline()
"""


@pytest.fixture
def holder(place):
    """Let another process hold the store: `holder("reading")` gives it, holding."""
    started = []

    def hold(how):
        process = subprocess.Popen(
            [sys.executable, "-c", HOLD, str(place), how],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        )
        started.append(process)
        assert process.stdout.readline() == "held 0\n"
        return process

    yield hold
    for process in started:
        process.communicate("\n")


@pytest.mark.parametrize("read_only", [True, False])
def test_a_store_another_process_writes_to_is_told_in_a_sentence_with_its_number(
    place, holder, read_only
):
    process = holder("writing")
    error = refusal(place, read_only=read_only)
    assert isinstance(error, StoreLockedError)
    assert error.what == f"The store {place} is in use by process {process.pid}."
    assert error.hint == "Close seasonboard there, or answer what it asks there, then try again."


def test_readers_share_a_store_and_keep_a_writer_out(place, holder):
    holder("reading")
    with open_store(place) as store:
        assert store.read("store/teams").is_empty()
    assert isinstance(refusal(place, read_only=False), StoreLockedError)


def test_a_store_is_free_once_it_is_closed(place, holder):
    open_store(place, read_only=False).close()
    holder("writing")
