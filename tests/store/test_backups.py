"""Backups: made before anything is written, read again, kept to a few, and never by halves."""

import os
from pathlib import Path

import pytest

from seasonboard.errors import StoreError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store import attaching, backups
from seasonboard.store.backup_names import KEPT, backups_of, folder_of
from seasonboard.store.backups import back_up_by_hand, list_backups
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.undo import undo_path
from seasonboard.store.store import open_store
from tests.person import Person
from tests.store.conftest import held, more, names, yes


def back_up(store_path: Path, times: int) -> None:
    with open_store(store_path, read_only=False) as store:
        for n in range(times):
            store.back_up(f"before load {n + 2}")


def causes(store: Path) -> list[str]:
    return [one.cause for one in backups_of(store)]


def test_a_load_and_an_undo_are_preceded_by_a_backup_of_all_that_was_there(season, tmp_path):
    states = [held(season)]
    load_paths(season, more(tmp_path), UnattendedLoad())
    states.append(held(season))
    undo_path(season, confirm=yes)
    undone, loaded = backups_of(season)
    assert (loaded.cause, undone.cause) == ("before load 2", "before undo of load 2")
    assert [held(one.path) for one in (loaded, undone)] == states


def test_a_backup_keeps_rows_in_their_order_and_the_keys(season, tmp_path):
    load_paths(season, more(tmp_path), UnattendedLoad())
    (backup,) = backups_of(season)
    undo_path(season, confirm=yes, backup=False)

    def shape(path: Path) -> tuple[object, ...]:
        with open_store(path) as store:
            ask = store._connection.execute
            tables = ask(
                "SELECT sql FROM duckdb_tables() WHERE database_name = 'store' ORDER BY ALL"
            ).fetchall()
            return tables, ask("FROM store.stages").fetchall(), ask("FROM store.wear").fetchall()

    assert shape(backup.path) == shape(season)


def test_nothing_is_backed_up_when_there_is_nothing_yet_or_nothing_changes(
    season, season_folder, tmp_path
):
    new = tmp_path / "new.duckdb"
    load_paths(new, [season_folder], UnattendedLoad())  # the first load
    assert not folder_of(new).exists()
    load_paths(season, [season_folder], UnattendedLoad())  # the same again
    assert not folder_of(season).exists()
    load_paths(season, more(tmp_path), Person(lambda _: False))  # not confirmed
    assert not folder_of(season).exists()
    undo_path(season, confirm=yes, backup=False)  # an empty store
    load_paths(season, [season_folder], UnattendedLoad())
    assert not folder_of(season).exists()


def test_the_newest_few_are_kept_and_those_asked_for_stay(season, tmp_path):
    asked = back_up_by_hand(season, None)
    back_up(season, KEPT + 2)
    assert causes(season) == [f"before load {n}" for n in (8, 7, 6, 5, 4)] + ["asked for"]
    assert asked.exists()


def test_other_files_among_the_backups_are_left_alone(season, tmp_path):
    folder = folder_of(season)
    folder.mkdir()
    (folder / "notes.txt").write_text("mine")
    (folder / "0003_20269999T000000Z_before-load-1.duckdb").write_text("digits, but no date")
    back_up(season, KEPT + 1)
    assert len(backups_of(season)) == KEPT
    assert (folder / "notes.txt").read_text() == "mine"


def test_order_goes_by_the_number_when_the_clock_goes_back(season, tmp_path):
    folder_of(season).mkdir()
    ahead = folder_of(season) / "0041_29990101T000000Z_before-load-1.duckdb"
    ahead.write_bytes(season.read_bytes())
    load_paths(season, more(tmp_path), UnattendedLoad())
    assert [one.number for one in backups_of(season)] == [42, 41]


def test_a_store_reached_through_a_link_has_its_backups_beside_the_file(season, tmp_path):
    link = tmp_path / "link.duckdb"
    link.symlink_to(season)
    load_paths(link, more(tmp_path), UnattendedLoad())
    assert len(backups_of(season)) == len(backups_of(link)) == 1
    assert not (tmp_path / "link.duckdb.backups").exists()


@pytest.mark.parametrize("what", ["load", "undo"])
def test_without_a_backup_nothing_is_written(season, tmp_path, what):
    """A file stands where the folder of backups would be."""
    folder_of(season).write_text("in the way")
    before = season.read_bytes()
    with pytest.raises(StoreError) as refused:
        if what == "load":
            load_paths(season, more(tmp_path), UnattendedLoad())
        else:
            undo_path(season, confirm=yes)
    assert refused.value.what.startswith("The backup before ")
    assert "so nothing was changed" in refused.value.what
    assert "--no-backup" in refused.value.hint
    assert season.read_bytes() == before
    if what == "load":
        load_paths(season, more(tmp_path), Person(backup=False))
        assert held(season)["teams"][0] == 3
    else:
        undo_path(season, confirm=yes, backup=False)
        assert held(season)["teams"][0] == 0


def test_a_folder_that_may_not_be_written_stops_the_load(season, open_folder, outsider, tmp_path):
    place = open_folder / "season.duckdb"
    place.write_bytes(season.read_bytes())
    place.chmod(0o666)
    folder_of(place).mkdir(mode=0o555)
    files = more(open_folder)
    with outsider(), pytest.raises(StoreError, match="so nothing was changed"):
        load_paths(place, files, UnattendedLoad())
    assert held(place)["teams"][0] == 2


def test_a_copy_that_reads_otherwise_is_thrown_away(season, tmp_path, monkeypatch):
    """As when the disk returns other bytes than were written to it."""
    whole = attaching.contents

    def contents(connection, name="store"):
        found = dict(whole(connection, name))
        return {**found, "teams": (1, 1)} if name == "copied" else found

    monkeypatch.setattr(backups, "contents", contents)
    with pytest.raises(StoreError, match="read otherwise"):
        load_paths(season, more(tmp_path), UnattendedLoad())
    assert held(season)["teams"][0] == 2
    assert names(folder_of(season)) == []


def test_what_an_interrupted_backup_left_is_cleared_by_the_next_and_never_listed(season, tmp_path):
    folder_of(season).mkdir()
    (folder_of(season) / ".0001_20260101T000000Z_before-load-2.duckdb.77.making").write_text("half")
    assert list_backups(season) == ()
    load_paths(season, more(tmp_path), UnattendedLoad())
    assert len(names(folder_of(season))) == 1


def test_a_list_says_what_each_backup_holds_and_which_cannot_be_read(season, tmp_path):
    load_paths(season, more(tmp_path), UnattendedLoad())
    undo_path(season, confirm=yes)
    newest, oldest = backups_of(season)
    os.truncate(oldest.path, 300_000)
    first, second = list_backups(season)
    assert (first.backup, first.rows["teams"], first.why) == (newest, 3, "")
    assert second.rows == {}
    assert "damaged or cut off" in second.why


def test_a_backup_by_hand_goes_where_it_is_asked_to_and_replaces_nothing(season, tmp_path):
    out = tmp_path / "kept.duckdb"
    assert back_up_by_hand(season, out) == out
    assert held(out) == held(season)
    before = out.read_bytes()
    with pytest.raises(StoreError, match="is already there"):
        back_up_by_hand(season, out)
    assert out.read_bytes() == before
    with pytest.raises(StoreError) as refused:
        back_up_by_hand(season, tmp_path / "none" / "kept.duckdb")
    assert "--out" in refused.value.hint


def test_a_backup_by_hand_can_be_made_while_somebody_reads(season):
    with open_store(season) as store:
        back_up_by_hand(season, None)
        assert store.read("store/teams").height == 2
    assert causes(season) == ["asked for"]
