"""Taking a backup back: shown first, whole, and what stood there is kept."""

import os
import shutil
from pathlib import Path

import duckdb
import pytest

from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.backup_names import KEPT, backups_of, folder_of
from seasonboard.store.backups import back_up_by_hand
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.undo import undo_path
from seasonboard.store.restoring import restore_path
from seasonboard.store.store import open_store
from tests.person import Person
from tests.store.conftest import held, more, names, yes
from tests.store.test_backups import back_up


@pytest.fixture(scope="module")
def changed_once(season_store, tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("stores")
    store = Path(shutil.copy(season_store, folder / "season.duckdb"))
    load_paths(store, more(tmp_path_factory.mktemp("more")), UnattendedLoad())
    return folder


@pytest.fixture
def changed(changed_once, tmp_path) -> Path:
    """Return a store with one load more than its backup."""
    return shutil.copytree(changed_once, tmp_path / "stores") / "season.duckdb"


def test_the_newest_backup_is_shown_and_taken_back(changed):
    shown = []
    (backup,) = backups_of(changed)
    was, then = held(changed), held(backup.path)

    def look(what) -> bool:
        shown.append((what.now["teams"], what.then["teams"], what.sentence))
        return True

    kept = restore_path(changed, None, confirm=look)
    assert shown == [(3, 2, backup.sentence)]
    assert held(changed) == then
    assert held(kept) == was
    assert backups_of(changed)[0].cause == "before restore"
    assert names(changed.parent) == ["season.duckdb", "season.duckdb.backups"]


def test_what_was_replaced_can_be_taken_back_in_turn(changed):
    was = held(changed)
    restore_path(changed, None, confirm=yes)
    restore_path(changed, None, confirm=yes)
    assert held(changed) == was


def test_nothing_is_changed_unless_it_is_confirmed(changed):
    before = changed.read_bytes(), names(folder_of(changed))
    assert restore_path(changed, None, confirm=lambda _: False) is None
    assert (changed.read_bytes(), names(folder_of(changed))) == before


@pytest.mark.long
def test_the_oldest_backup_is_not_pushed_out_by_what_is_kept_of_the_store(season, tmp_path):
    first = held(season)
    back_up(season, KEPT)
    load_paths(season, more(tmp_path), Person(backup=False))
    assert len(backups_of(season)) == KEPT
    restore_path(season, "1", confirm=yes)
    assert held(season) == first
    assert len(backups_of(season)) == KEPT


@pytest.mark.long
def test_a_backup_is_named_by_number_or_by_file(changed, tmp_path):
    elsewhere = tmp_path / "elsewhere.duckdb"
    shutil.copy(backups_of(changed)[0].path, elsewhere)
    restore_path(changed, str(elsewhere), confirm=yes)
    assert held(changed) == held(elsewhere)
    undo_path(changed, confirm=yes)
    restore_path(changed, "1", confirm=yes)
    assert held(changed) == held(elsewhere)


def test_what_is_no_backup_is_told(changed, tmp_path):
    (tmp_path / "text.duckdb").write_text("text")
    before = changed.read_bytes()
    for chosen, said in {
        "9": "There is no backup number 9",
        str(tmp_path / "none.duckdb"): "There is no backup at",
        str(tmp_path): "is a folder",
        str(tmp_path / "text.duckdb"): "is not a seasonboard store",
        str(changed): "is the store itself",
    }.items():
        with pytest.raises(StoreError, match=said):
            restore_path(changed, chosen, confirm=yes)
    assert changed.read_bytes() == before


def test_without_any_backup_that_is_said(season):
    with pytest.raises(StoreError, match="There are no backups of"):
        restore_path(season, None, confirm=yes)


def test_a_backup_that_is_damaged_is_refused_and_the_store_stays(changed):
    before = changed.read_bytes()
    os.truncate(backups_of(changed)[0].path, 700_000)
    with pytest.raises(StoreError, match="cannot be used"):
        restore_path(changed, None, confirm=yes)
    assert changed.read_bytes() == before


@pytest.mark.long
@pytest.mark.parametrize("size", [0, 5000, 400_000])
def test_a_damaged_store_is_replaced_and_set_aside_under_another_name(changed, size):
    then = held(backups_of(changed)[0].path)
    os.truncate(changed, size)
    harmed = changed.read_bytes()
    shown = []
    kept = restore_path(changed, None, confirm=lambda what: shown.append(what) or True)
    assert shown[0].why
    assert held(changed) == then
    assert kept.read_bytes() == harmed
    assert ".set-aside-" in kept.name


def test_a_store_that_is_gone_comes_back_and_its_old_log_does_not_meet_it(changed):
    then = held(backups_of(changed)[0].path)
    changed.unlink()
    changed.with_name("season.duckdb.wal").write_bytes(b"old log")
    restore_path(changed, None, confirm=yes)
    with open_store(changed, read_only=False) as store:
        assert store.notes == ()
    assert held(changed) == then
    (aside,) = changed.parent.glob("*.wal.set-aside-*")
    assert aside.read_bytes() == b"old log"


def test_a_store_that_somebody_reads_is_not_replaced(changed):
    before = changed.read_bytes()
    with open_store(changed), pytest.raises(StoreLockedError, match="in use by this very process"):
        restore_path(changed, None, confirm=yes)
    assert changed.read_bytes() == before


def test_a_file_that_is_no_store_is_not_replaced(season, tmp_path):
    backup = back_up_by_hand(season, tmp_path / "kept.duckdb")
    other = tmp_path / "other.duckdb"
    with duckdb.connect(other) as connection:
        connection.execute("CREATE TABLE other (x INTEGER)")
    text = tmp_path / "notes.txt"
    text.write_text("notes")
    for path in (other, text):
        before = path.read_bytes()
        with pytest.raises(StoreError, match="is not a seasonboard store"):
            restore_path(path, str(backup), confirm=yes)
        assert path.read_bytes() == before


def test_a_backup_that_cannot_be_put_in_place_leaves_the_store(changed, monkeypatch):
    before = held(changed)

    def refuse(_self: Path, _target: Path) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(Path, "replace", refuse)
        with pytest.raises(StoreError, match="the store is as it was"):
            restore_path(changed, "1", confirm=yes)
    assert held(changed) == before
    assert names(changed.parent) == ["season.duckdb", "season.duckdb.backups"]
