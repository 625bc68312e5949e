"""The last load can be taken back, whole, as long as nothing later needs it."""

from pathlib import Path

import pytest

from seasonboard.errors import StoreError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.undo import plan_undo, undo_last_load, undo_path
from seasonboard.stored_tables import TABLES
from tests.intake.desk import SMALL_SEASON, Desk
from tests.intake.test_corrections import CORRECTED

HELD = (*(name for name in TABLES if name != "kinds"), "kinds", "athletes", "loads", "load_tables")


def held(desk: Desk) -> dict[str, list[tuple[object, ...]]]:
    """Return all that the store holds."""
    return {
        name: desk.store._connection.execute(f"FROM store.{name} ORDER BY ALL").fetchall()
        for name in (*HELD, "changes")
    }


def test_the_first_load_taken_back_leaves_an_empty_store(season: Desk) -> None:
    before = held(season)
    season.load()
    undone = undo_last_load(season.store)
    assert undone.load_no == 1
    assert held(season) == before


def test_corrections_of_every_cell_are_taken_back(own: Desk) -> None:
    before = held(own)
    own.load(**CORRECTED)
    undone = undo_last_load(own.store)
    assert undone.cells > 50
    assert held(own) == before


def test_new_rows_and_changed_cells_go_together(own: Desk) -> None:
    before = held(own)
    own.load(
        roster="athlete,team,season,name\nA1,T1,2026,Ana Reid\nA9,T1,2026,Di\n",
        attendance="session,athlete,part\nS1,A9,full\nS1,A1,limited\n",
    )
    undone = undo_last_load(own.store)
    assert undone.tables == (("attendance", "attendance.csv", 1, 1), ("roster", "roster.csv", 1, 1))
    assert held(own) == before


def test_loads_are_taken_back_one_by_one_from_the_last(own: Desk) -> None:
    states = [held(own)]
    for sport in ("judo", "golf"):
        own.load(teams=f"team,department,sport,sex\nT1,D1,{sport},women\n")
        states.append(held(own))
    assert undo_last_load(own.store).load_no == 3
    assert held(own) == states[1]
    assert undo_last_load(own.store).load_no == 2
    assert held(own) == states[0]


def test_what_was_taken_back_can_be_loaded_again(own: Desk) -> None:
    own.load(**CORRECTED)
    after = export_tables(own.store)
    undo_last_load(own.store)
    own.load()
    for name, frame in export_tables(own.store).items():
        assert frame.equals(after[name]), name


def test_the_day_of_a_session_follows_its_old_start(own: Desk) -> None:
    days = "SELECT session, played_on FROM store.sessions ORDER BY 1"
    before = own.store._connection.execute(days).fetchall()
    own.load(
        sessions="session,team,season,starts_at,setting\nS1,T1,2026,2026-09-09T23:30,game\n",
        departments="department,name,plan,time_zone\nD1,North,weekly allotment,Asia/Tokyo\n",
    )
    undo_last_load(own.store)
    assert own.store._connection.execute(days).fetchall() == before


def test_a_cell_changed_again_since_is_named_and_nothing_is_taken_back(own: Desk) -> None:
    own.load(teams="team,department,sport,sex\nT1,D1,judo,women\nT9,D1,x,men\n")
    own.store._connection.execute("UPDATE store.teams SET sport = 'golf' WHERE team = 'T1'")
    before = held(own)
    with pytest.raises(StoreError, match="teams, T1, sport was changed again"):
        undo_last_load(own.store)
    assert held(own) == before


def test_rows_that_came_otherwise_and_need_the_load_are_counted(own: Desk) -> None:
    own.load(teams="team,department,sport,sex\nT9,D1,x,men\n")
    own.store._connection.execute(
        "INSERT INTO store.roster SELECT athlete_no, 'T9', season, name, jersey, position, "
        "position_group, joined_on, left_on, 0 FROM store.roster WHERE team = 'T1'"
    )
    before = held(own)
    with pytest.raises(StoreError, match="2 of roster point to teams"):
        undo_last_load(own.store)
    assert held(own) == before


def test_an_empty_store_has_nothing_to_take_back(desk: Desk) -> None:
    with pytest.raises(StoreError, match="Nothing was loaded"):
        undo_last_load(desk.store)


def test_what_would_be_taken_back_is_shown_first(season: Desk, tmp_path: Path) -> None:
    place = tmp_path / "season.duckdb"
    load_paths(place, [season.folder], UnattendedLoad())
    shown = []
    assert undo_path(place, confirm=lambda last: bool(shown.append(last))) is None
    assert shown[0].load_no == 1
    assert [table for table, *_ in shown[0].tables] == sorted(SMALL_SEASON)
    assert undo_path(place, confirm=lambda _: True) is not None
    with pytest.raises(StoreError, match="Nothing was loaded"):
        undo_path(place, confirm=lambda _: True)


def test_a_load_written_meanwhile_is_not_taken_back_unseen(own: Desk) -> None:
    seen = plan_undo(own.store).load_no
    own.load(teams="team,department,sport,sex\nT9,D1,x,men\n")
    with pytest.raises(StoreError, match="meanwhile"):
        undo_last_load(own.store, expected=seen)
