"""A load is one transaction with a number, a log of its files and of every changed cell."""

import pytest

from seasonboard.errors import StoreError
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.stored_column import StoredTable
from tests.intake.desk import Desk


def rows(desk: Desk, sql: str) -> list[tuple[object, ...]]:
    return desk.store._connection.execute(sql).fetchall()


def test_a_plan_writes_nothing(season: Desk) -> None:
    season.plan()
    assert season.count("teams") == 0
    assert rows(season, "SELECT count(*) FROM store.loads") == [(0,)]


def test_a_load_writes_every_row(season: Desk, small_season: dict[str, str]) -> None:
    season.load()
    for name, text in small_season.items():
        assert season.count(name) == text.count("\n") - 1, name


def test_loads_are_numbered_from_1(season: Desk) -> None:
    assert write_load(season.store, season.plan()) == 1
    assert write_load(season.store, season.plan(teams="team,department,sport,sex\nT9,D1,x,men\n"))
    assert rows(season, "SELECT load_no FROM store.loads ORDER BY 1") == [(1,), (2,)]


def test_a_load_without_anything_new_is_not_entered(own, small_season) -> None:
    own.put(**small_season)
    plan = own.plan()
    assert plan.is_empty
    assert write_load(own.store, plan) == 0
    assert rows(own, "SELECT count(*) FROM store.loads") == [(1,)]
    assert len(rows(own, "SELECT * FROM store.load_tables")) == len(small_season)


def test_the_files_of_a_load_are_entered_with_hash_and_counts(own, small_season) -> None:
    own.load(
        teams="team,department,sport,sex\nT1,D1,football,women\nT2,D2,volleyball,men\nT9,D1,x,men\n"
    )
    entered = rows(own, "SELECT * EXCLUDE sha256 FROM store.load_tables WHERE load_no = 2")
    assert entered == [(2, "teams.csv", "teams", 1, 1, 1)]
    ((length, kinds),) = rows(
        own, "SELECT min(length(sha256)), count(DISTINCT sha256) FROM store.load_tables"
    )
    assert (length, kinds) == (64, len(small_season) + 1)


def test_every_changed_cell_is_logged_with_old_and_new_value(own: Desk) -> None:
    own.load(
        attendance="session,athlete,part,reason,minutes\nS1,A1,full,,90\nS1,A2,full,,45\n",
        sessions="session,team,season,starts_at,setting,season_part\n"
        "S1,T1,2026,2026-09-05T18:30,game,regular\n",
    )
    assert rows(own, "SELECT * FROM store.changes ORDER BY file, column_name") == [
        (2, "attendance.csv", 3, "attendance", "S1 · A2", "minutes", "22.5", "45"),
        (2, "attendance.csv", 3, "attendance", "S1 · A2", "part", "limited", "full"),
        (2, "attendance.csv", 3, "attendance", "S1 · A2", "reason", "injury", None),
        (
            *(2, "sessions.csv", 2, "sessions", "S1", "starts_at"),
            *("2026-09-05T23:00:00Z", "2026-09-05T23:30:00Z"),
        ),
    ]


def test_a_plan_shows_the_changes_before_they_are_made(loaded: Desk) -> None:
    header = "injury,athlete,occurred_on,area,side,returned_on\n"
    plan = loaded.plan(injuries=header + "I2,A3,2026-09-10,shoulder,right,2026-09-30\n")
    (change,) = plan.summary.changes
    assert (change.file, change.file_row, change.row_key) == ("injuries.csv", 2, "I2")
    assert (change.column, change.old, change.new) == ("returned_on", None, "2026-09-30")


def test_a_changed_instant_in_a_key_is_another_row(own: Desk) -> None:
    plan = own.load(stages="guard,stage,reached_at,note\nG1,fitted,2026-08-10T15:00,snug!\n")
    assert plan.tables[0].changed == 1
    logged = rows(own, "SELECT row_key, old_value, new_value FROM store.changes")
    assert logged == [("G1 · fitted · 2026-08-10T20:00:00Z", "snug", "snug!")]
    plan = own.load(stages="guard,stage,reached_at,note\nG1,fitted,2026-08-11T15:00,snug!\n")
    assert plan.tables[0].new == 1


def test_columns_a_file_leaves_out_keep_their_stored_values(own: Desk) -> None:
    own.load(guards="guard,athlete,kind,side,purpose\nG1,A1,wrist,right,preventive\n")
    ((side, contact, function),) = rows(
        own, "SELECT side, contact_pct, function FROM store.guards WHERE guard = 'G1'"
    )
    assert (side, contact, function) == ("right", 82.5, "support")


def test_an_empty_cell_of_a_column_that_is_there_clears_the_value(own: Desk) -> None:
    own.load(guards="guard,athlete,kind,side,purpose,contact_pct\nG1,A1,wrist,left,preventive,\n")
    assert rows(own, "SELECT contact_pct FROM store.guards WHERE guard = 'G1'") == [(None,)]


def test_a_changed_row_keeps_the_load_that_brought_it(own: Desk) -> None:
    own.load(teams="team,department,sport,sex\nT1,D1,football,women\nT9,D1,x,men\n")
    assert rows(own, "SELECT team, load_no FROM store.teams ORDER BY team") == [
        ("T1", 1),
        ("T2", 1),
        ("T9", 2),
    ]


@pytest.mark.parametrize("other_tables", [False, True])
def test_changed_sessions_and_guards_keep_their_numbers(own: Desk, *, other_tables: bool) -> None:
    before = rows(own, "SELECT session, session_no FROM store.sessions ORDER BY session")
    guards = rows(own, "SELECT guard, guard_no FROM store.guards ORDER BY guard")
    new = "S0,T1,2025,2025-09-01T10:00,game\n" if other_tables else ""
    own.load(
        sessions="session,team,season,starts_at,setting\nS3,T2,2026,2026-09-06T20:00,game\n" + new,
        guards="guard,athlete,kind,side,purpose\nG2,A2,lower back,midline,preventive\n",
    )
    after = rows(own, "SELECT session, session_no FROM store.sessions ORDER BY session")
    assert [one for one in after if one[0] != "S0"] == before
    assert ("S0", 4) in after or not other_tables
    assert rows(own, "SELECT guard, guard_no FROM store.guards ORDER BY guard") == guards


def test_new_sessions_are_numbered_by_season_department_and_start(season: Desk) -> None:
    season.load(
        sessions="session,team,season,starts_at,setting\n"
        "c,T2,2026,2026-09-01T10:00,game\nb,T1,2026,2026-09-02T10:00,game\n"
        "a,T1,2026,2026-09-01T10:00,game\nd,T2,2025,2025-09-02T10:00,game\n"
        "S1,T1,2026,2026-09-05T18:00,game\nS2,T1,2026,2026-09-07T16:00,game\n"
        "S3,T2,2026,2026-09-06T19:30,game\n"
    )
    numbered = rows(season, "SELECT session FROM store.sessions ORDER BY session_no")
    assert [session for (session,) in numbered] == ["d", "a", "b", "S1", "S2", "c", "S3"]


def test_new_guards_are_numbered_by_athlete(season: Desk) -> None:
    season.load()
    numbered = rows(season, "SELECT guard, guard_no FROM store.guards ORDER BY guard_no")
    assert numbered == [("G1", 1), ("G3", 2), ("G2", 3)]


def test_new_athletes_get_the_next_numbers(own: Desk) -> None:
    own.load(roster="athlete,team,season,name\nA0,T1,2026,Di\nA1,T1,2027,Ana\nZ9,T2,2026,Ed\n")
    assert rows(own, "SELECT athlete, athlete_no FROM store.athletes ORDER BY athlete_no") == [
        ("A1", 1),
        ("A2", 2),
        ("A3", 3),
        ("A0", 4),
        ("Z9", 5),
    ]


def test_the_long_tables_lie_in_the_order_of_their_numbers(season: Desk) -> None:
    season.load(attendance="session,athlete,part\nS3,A3,full\nS1,A2,full\nS2,A1,full\nS1,A1,full\n")
    stored = rows(season, "SELECT session_no, athlete_no FROM store.attendance ORDER BY rowid")
    assert stored == sorted(stored)
    assert len(stored) == 4


def test_a_plan_made_before_another_load_is_not_written(own: Desk) -> None:
    first = own.plan(teams="team,department,sport,sex\nT8,D1,x,men\n")
    second = own.plan(teams="team,department,sport,sex\nT9,D1,x,men\n")
    write_load(own.store, first)
    with pytest.raises(StoreError, match="planned"):
        write_load(own.store, second)
    assert own.count("teams") == 3


def test_a_failure_in_the_middle_leaves_the_store_as_it_was(season, monkeypatch) -> None:
    plan = season.plan()
    from seasonboard.store.intake import write

    whole = write.write_sql

    def broken(table: StoredTable) -> str:
        return "SELECT * FROM nowhere" if table.name == "offers" else whole(table)

    monkeypatch.setattr(write, "write_sql", broken)
    with pytest.raises(StoreError, match="nothing was changed"):
        write_load(season.store, plan)
    assert season.count("departments") == season.count("attendance") == 0
    monkeypatch.undo()
    assert write_load(season.store, plan_load(season.store, [season.folder])) == 1
