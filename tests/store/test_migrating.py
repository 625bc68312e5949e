"""A store of any earlier schema version is brought up to date, after a backup, or left alone."""

import shutil
from pathlib import Path

import pytest

from seasonboard.answers.questions import COMPARE
from seasonboard.answers.source import AnswerSource
from seasonboard.errors import StoreError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store import schema
from seasonboard.store.backup_names import backups_of, folder_of
from seasonboard.store.catalogue import migrations
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.undo import undo_path
from seasonboard.store.restoring import restore_path
from seasonboard.store.store import open_store
from tests.killing.acts import NEXT
from tests.store.conftest import held, more, yes
from tests.store.storing import CORRECTION, stored

VERSIONS = [version for version, _ in migrations()]
BROKEN = (
    NEXT[0] + 1,
    "UPDATE store.teams SET sport = 'none'; INSERT INTO store.nowhere VALUES (1);",
)


def with_steps(monkeypatch: pytest.MonkeyPatch, *steps: tuple[int, str]) -> None:
    every = (*migrations(), *steps)
    monkeypatch.setattr(schema, "migrations", lambda: every)


@pytest.fixture(params=VERSIONS, ids=lambda version: f"v{version}")
def old(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """Return a copy of the store that was kept of each schema version."""
    kept = stored(request.param)
    assert kept.exists(), "keep one with: python -m tests.store.storing"
    return Path(shutil.copy(kept, tmp_path / "season.duckdb"))


@pytest.mark.long
def test_a_store_of_every_version_opens_for_writing_and_holds_the_same_season(
    old, season_folder, tmp_path
):
    """It equals a store that is loaded today from the same tables."""
    today = tmp_path / "today.duckdb"
    load_paths(today, [season_folder], UnattendedLoad())
    (tmp_path / "teams.csv").write_text(CORRECTION)
    load_paths(today, [tmp_path / "teams.csv"], UnattendedLoad())
    with open_store(old, read_only=False) as store, open_store(today) as fresh:
        found, expected = export_tables(store), export_tables(fresh)
        assert store.read("store/last_load")["load_no"].item() == 2
        about = dict(store._connection.execute("FROM store.about").fetchall())
    assert found.keys() == expected.keys()
    for name, frame in found.items():
        assert frame.equals(expected[name]), name
    assert about["schema_version"] == str(VERSIONS[-1])


def test_sessions_of_an_older_store_are_taken_for_complete_and_compare_says_so(old):
    open_store(old, read_only=False).close()
    with open_store(old) as store:
        told = store._connection.execute("SELECT DISTINCT wear FROM wear_of_sessions()").fetchall()
        board = AnswerSource(store, "older")
        caveats = board.ask(COMPARE, board.opening_scope()).summary.caveats
    assert told == [("assumed",)]
    (caveat,) = [one for one in caveats if "recorded for everybody" in one]
    assert caveat.startswith("Of 2 sessions with owners of a guard nobody said")


@pytest.mark.long
def test_a_store_of_every_version_can_be_loaded_into_and_undone(old, tmp_path):
    open_store(old, read_only=False).close()
    before = {**held(old), "loads": 2}
    load_paths(old, more(tmp_path), UnattendedLoad())
    undo_path(old, confirm=yes)
    assert {**held(old), "loads": 2} == before


def test_a_further_step_is_taken_after_a_backup(season, monkeypatch):
    before = held(season)
    with_steps(monkeypatch, NEXT)
    with open_store(season, read_only=False) as store:
        rows = store._connection.execute(
            "SELECT name, height_cm FROM store.roster ORDER BY name"
        ).fetchall()
    assert rows[0] == ("ANA REED", None)
    (backup,) = backups_of(season)
    assert backup.cause == f"before schema {NEXT[0]}"
    assert held(backup.path) == before


def test_a_step_that_fails_half_way_leaves_the_file_as_it_was(season, monkeypatch):
    before = held(season)
    with monkeypatch.context() as patch:
        with_steps(patch, NEXT, BROKEN)
        with pytest.raises(StoreError, match="nothing was changed"):
            open_store(season, read_only=False)
    assert held(season) == before
    open_store(season).close()


def test_without_room_for_a_backup_no_step_is_taken(season, monkeypatch):
    before = season.read_bytes()
    folder_of(season).write_text("in the way")
    with_steps(monkeypatch, NEXT)
    with pytest.raises(StoreError, match="The backup before schema"):
        open_store(season, read_only=False)
    assert season.read_bytes() == before


def test_an_earlier_backup_is_brought_up_to_date_when_taken_back(season, tmp_path, monkeypatch):
    load_paths(season, more(tmp_path), UnattendedLoad())
    with_steps(monkeypatch, NEXT)
    restore_path(season, "1", confirm=yes)
    with open_store(season) as store:
        assert store._connection.execute("FROM store.added").fetchall()
    with open_store(season) as store:
        assert store.read("store/teams").height == 2


def test_an_earlier_backup_that_cannot_be_brought_up_to_date_changes_nothing(
    season, tmp_path, monkeypatch
):
    load_paths(season, more(tmp_path), UnattendedLoad())
    before = season.read_bytes()
    with monkeypatch.context() as patch:
        with_steps(patch, NEXT, BROKEN)
        with pytest.raises(StoreError, match="the store is as it was"):
            restore_path(season, "1", confirm=yes)
    assert season.read_bytes() == before
