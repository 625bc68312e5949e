"""A store that is read and written in turn by one program."""

import shutil
import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.reopening_store import ReopeningStore
from seasonboard.store.store import open_store
from tests.patience import PATIENCE
from tests.queries.build import drawn


def sessions(held):
    return held.read("store/sessions")["session"].to_list()


def write(held, folder, key="G3"):
    with held.writing() as store:
        write_load(store, plan_load(store, [drawn(f"   A B\n{key}@3   . .\n").write(folder)]))


def test_what_is_written_is_read_afterwards(held, tmp_path):
    assert sessions(held) == ["G2"]
    write(held, tmp_path / "more")
    assert sessions(held) == ["G2", "G3"]


def test_others_may_read_between_two_writings_and_none_while_one_goes_on(held, path):
    with open_store(path) as other:
        assert len(other.read("store/sessions")) == 1
    with held.writing(), pytest.raises(StoreError):
        open_store(path)


def test_a_reader_elsewhere_shuts_the_writer_out_and_the_board_reads_on(held, path):
    code = (
        "import sys, pathlib; from seasonboard.store.store import open_store;"
        f"s = open_store(pathlib.Path({str(path)!r})); print('open', flush=True); sys.stdin.read()"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as other:
        assert other.stdout is not None and other.stdin is not None
        other.stdout.readline()
        with pytest.raises(StoreLockedError), held.writing():
            pass
        assert sessions(held) == ["G2"]
        other.stdin.close()


def test_who_reads_and_asks_nothing_for_a_while_lets_another_program_write(path):
    held = ReopeningStore(path, idle_s=0.05)
    assert sessions(held) == ["G2"]
    code = (
        "import sys, pathlib; from seasonboard.store.store import open_store;"
        f"open_store(pathlib.Path({str(path)!r}), read_only=False).close(); print('written')"
    )
    other = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert other.stdout == "written\n"
    assert sessions(held) == ["G2"]
    held.close()


def test_a_writer_waits_for_a_reader_that_is_about_to_end(held, path, tmp_path):
    code = (
        "import sys, pathlib, time; from seasonboard.store.store import open_store;"
        f"s = open_store(pathlib.Path({str(path)!r})); print('open', flush=True);"
        "time.sleep(0.3); s.close()"
    )
    with subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout is not None
        other.stdout.readline()
        write(held, tmp_path / "more")
    assert sessions(held) == ["G2", "G3"]


def test_a_failed_writing_leaves_the_board_reading_what_was_there(held):
    with pytest.raises(ZeroDivisionError), held.writing():
        raise ZeroDivisionError
    assert sessions(held) == ["G2"]


def test_questions_asked_during_a_writing_wait_and_see_what_was_written(held, tmp_path):
    """Ten readers start while the file is let go of; each finds the new session."""
    begun = threading.Event()

    def late():
        begun.wait(PATIENCE)
        return sessions(held)

    with ThreadPoolExecutor(10) as pool:
        asked = [pool.submit(late) for _ in range(10)]
        with held.writing() as store:
            begun.set()
            plan = plan_load(store, [drawn("   A B\nG3@3   . .\n").write(tmp_path / "more")])
            write_load(store, plan)
        assert {tuple(each.result()) for each in asked} == {("G2", "G3")}


def test_after_closing_nothing_is_answered(path):
    held = ReopeningStore(path)
    held.close()
    with pytest.raises(StoreError, match="closed"):
        sessions(held)


def test_a_store_that_is_gone_is_neither_read_nor_made_anew_and_goes_on_when_it_is_back(
    held, path, tmp_path
):
    away = path.rename(tmp_path / "elsewhere.store")
    for act in (lambda: sessions(held), lambda: write(held, tmp_path / "more")):
        with pytest.raises(StoreError, match="is gone: it was moved or renamed"):
            act()
    assert not path.exists()
    away.rename(path)
    assert sessions(held) == ["G2"]
    write(held, tmp_path / "more")
    assert sessions(held) == ["G2", "G3"]


def test_another_store_in_its_place_is_not_taken_for_it_and_a_copy_of_it_is(
    held, path, tmp_path, empty_store_file
):
    kept = Path(shutil.copy(path, tmp_path / "kept.store"))
    empty_store_file.replace(path)
    before = path.read_bytes()
    for act in (lambda: sessions(held), lambda: write(held, tmp_path / "more")):
        with pytest.raises(StoreError, match="Another store lies at"):
            act()
    assert path.read_bytes() == before
    kept.replace(path)
    write(held, tmp_path / "more")
    assert sessions(held) == ["G2", "G3"]


@pytest.fixture
def empty_store_file(tmp_path):
    with open_store(tmp_path / "other.store", read_only=False):
        pass
    return tmp_path / "other.store"
