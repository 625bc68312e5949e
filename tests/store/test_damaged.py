"""A file that is cut off, damaged, forbidden or from the future is refused and left as it is."""

import os
import re
import shutil
from pathlib import Path

import duckdb
import pytest

from seasonboard.errors import StoreError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.attaching import attach, connect, is_cut_short
from seasonboard.store.backups import back_up_by_hand
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.undo import undo_path
from seasonboard.store.store import open_store, verify_store
from tests.killing.season import write_before, write_load
from tests.store.conftest import held, more, names, yes

BOTH = pytest.mark.parametrize("read_only", [True, False])


def refusal(path: Path, *, read_only: bool = True) -> StoreError:
    with pytest.raises(StoreError) as refused:
        open_store(path, read_only=read_only)
    return refused.value


@BOTH
@pytest.mark.parametrize("share", [0.0001, 0.002, 0.004, 0.08, 0.3, 0.5, 0.8])
def test_a_store_that_is_cut_off_is_refused_and_left_as_it_is(season, share, read_only):
    os.truncate(season, int(season.stat().st_size * share))
    before = season.read_bytes()
    error = refusal(season, read_only=read_only)
    assert error.what.startswith(f"The store {season} is damaged or cut off; it was left as it is")
    assert "There is no backup of it" in error.hint
    assert season.read_bytes() == before
    assert names(season.parent) == ["season.duckdb"]


@BOTH
def test_a_damaged_store_names_its_newest_backup(season, read_only):
    back_up_by_hand(season, None)
    os.truncate(season, season.stat().st_size // 2)
    error = refusal(season, read_only=read_only)
    assert "Its newest backup is number 1 of " in error.hint
    assert f"seasonboard restore --store {season}" in error.hint


def test_damage_inside_a_table_stops_a_load_before_it_writes(season, tmp_path):
    """A flipped bit in a block of a table is met by its checksum when the backup is made."""
    whole = season.read_bytes()
    for block in range(12288, len(whole), 262144):  # find a block that tables are read from
        harmed = bytearray(whole)
        harmed[block + 20] ^= 0xFF
        season.write_bytes(harmed)
        try:
            held(season)
        except duckdb.Error:
            try:
                open_store(season).close()
            except StoreError:
                continue  # met at once: the catalogue itself
            break
    else:
        pytest.fail("no block of a table was found")
    with pytest.raises(StoreError, match="is damaged"):
        load_paths(season, more(tmp_path), UnattendedLoad())
    with pytest.raises(StoreError, match="is damaged"):
        verify_store(season, tell=print)
    assert season.read_bytes() == harmed


def test_a_store_that_shrank_when_a_load_was_taken_back_is_sound(tmp_path):
    """DuckDB cuts free blocks off the file and goes on counting them in its header."""
    place = tmp_path / "season.duckdb"
    load_paths(place, [write_before(tmp_path / "before", 400)], UnattendedLoad())
    load_paths(place, [write_load(tmp_path / "load", 400)], UnattendedLoad())
    undo_path(place, confirm=yes)
    connection = connect()
    attach(connection, place, read_only=True)
    assert is_cut_short(connection, place)  # it looks as if it were
    connection.close()
    for read_only in (True, False):
        with open_store(place, read_only=read_only) as store:
            assert store.read("store/attendance").is_empty()


@BOTH
def test_a_store_of_a_newer_duckdb_is_told(season, read_only):
    """Its version number stands in the main header, which carries a checksum of its own."""
    data = bytearray(season.read_bytes())
    data[12:20] = (int.from_bytes(data[12:20], "little") + 40).to_bytes(8, "little")
    season.write_bytes(data)
    with pytest.raises(duckdb.Error) as said:
        held(season)
    right = re.search(r"computed checksum (\d+)", str(said.value))
    data[:8] = int(right[1]).to_bytes(8, "little")
    season.write_bytes(data)
    error = refusal(season, read_only=read_only)
    assert error.what == f"{season} was written by a newer version of DuckDB than this one reads."
    assert season.read_bytes() == data


@BOTH
def test_a_pipe_is_no_store_and_does_not_hang(tmp_path, read_only):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert "is no ordinary file" in refusal(pipe, read_only=read_only).what


# What this user may not do. As root, the tests put themselves in the place of a stranger.


@pytest.fixture
def strange(season, open_folder, outsider):
    """Give a store in a folder that a stranger may enter, and that stranger's place."""
    path = open_folder / "season.duckdb"
    shutil.copy(season, path)
    path.chmod(0o666)
    return path, outsider


@BOTH
def test_a_store_that_may_not_be_read_is_told(strange, read_only):
    path, outsider = strange
    path.chmod(0)
    with outsider():
        error = refusal(path, read_only=read_only)
    assert re.match(rf"You may not (read|write to) {path}; nothing was changed", error.what)
    assert "permission" in error.hint


def test_a_store_that_may_only_be_read_is_read_and_not_written(strange):
    path, outsider = strange
    path.chmod(0o444)
    with outsider():
        open_store(path).close()
        error = refusal(path, read_only=False)
    assert error.what == f"You may not write to {path}; nothing was changed."


def test_a_folder_that_may_not_be_written_is_told_before_anything_is_asked(strange, tmp_path):
    """The log of a store lies beside it."""
    path, outsider = strange
    path.parent.chmod(0o555)
    with outsider():
        error = refusal(path, read_only=False)
        open_store(path).close()
    assert error.what == f"You may not write to {path.parent}; nothing was changed."


def test_a_folder_that_may_not_be_entered_is_told(strange):
    path, outsider = strange
    path.parent.chmod(0)
    with outsider():
        error = refusal(path)
    assert error.what == f"You may not read {path.parent}; nothing was changed."
