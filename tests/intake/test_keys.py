"""One row for one key, and every key that points somewhere points to something."""

from pathlib import Path

import pytest

from seasonboard.stored_tables import TABLES
from tests.intake.desk import Desk

TEAMS = "team,department,sport,sex\n"


def test_the_same_row_twice_counts_once_with_a_note(loaded: Desk) -> None:
    plan = loaded.plan(teams=TEAMS + "T8,D1,judo,men\nT9,D1,judo,men\nT8,D1,judo,men\n")
    assert plan.tables[0].new == 2
    (note,) = plan.notes
    assert (note.row, note.value) == (4, "T8")
    assert "same content" in note.expected


def test_one_key_with_two_contents_names_both_rows(loaded: Desk) -> None:
    problem = loaded.problem(teams=TEAMS + "T8,D1,judo,men\nT8,D1,golf,men\n")
    assert problem.row == 3
    assert "teams.csv, row 2" in problem.expected


def test_doubles_are_found_across_files(loaded: Desk, tmp_path: Path) -> None:
    loaded.put(teams=TEAMS + "T8,D1,judo,men\n")
    other = tmp_path / "other"
    other.mkdir()
    (other / "teams.csv").write_text(TEAMS + "T8,D1,golf,men\n")
    (problem,) = loaded.refusal(loaded.folder, other).problems
    assert "already stands in" in problem.expected
    (other / "teams.csv").write_text(TEAMS + "T8,D1,judo,men\n")
    plan = loaded.plan(loaded.folder, other)
    assert sorted(one.new for one in plan.tables) == [0, 1]


def test_a_thousand_repeats_are_one_note(loaded: Desk) -> None:
    plan = loaded.plan(teams=TEAMS + "T8,D1,judo,men\n" * 1000)
    (note,) = plan.notes
    assert "999 rows" in note.expected


def test_a_guard_may_reach_a_stage_twice_at_different_instants(loaded: Desk) -> None:
    text = (
        "guard,stage,reached_at\n"
        "G1,retired,2026-10-01T10:00\nG1,retired,2026-10-02T10:00\nG1,retired,2026-10-01T15:00Z\n"
    )
    plan = loaded.plan(stages=text)
    assert plan.tables[0].new == 2
    assert "same content" in plan.notes[0].expected


REFERENCES = [
    ("teams", "department", TEAMS + "T9,Q1,judo,men\n"),
    ("roster", "team", "athlete,team,season,name\nB1,Q1,2026,Di\n"),
    (
        "sessions",
        "team",
        "session,team,season,starts_at,setting\nS9,Q1,2026,2026-09-05T10:00,game\n",
    ),
    ("attendance", "session", "session,athlete,part\nQ1,A1,full\n"),
    ("attendance", "athlete", "session,athlete,part\nS1,Q1,full\n"),
    ("guards", "athlete", "guard,athlete,kind,side,purpose\nG9,Q1,wrist,left,preventive\n"),
    ("guards", "kind", "guard,athlete,kind,side,purpose\nG9,A1,Q1,left,preventive\n"),
    (
        "guards",
        "remake_of",
        "guard,athlete,kind,side,purpose,remake_of\nG9,A1,wrist,left,preventive,Q1\n",
    ),
    ("stages", "guard", "guard,stage,reached_at\nQ1,fitted,2026-09-05T10:00\n"),
    ("wear", "session", "session,guard\nQ1,G1\n"),
    ("wear", "guard", "session,guard\nS1,Q1\n"),
    ("injuries", "athlete", "injury,athlete,occurred_on,area,side\nI9,Q1,2026-09-05,knee,left\n"),
    (
        "injuries",
        "session",
        "injury,athlete,occurred_on,area,side,session\nI9,A1,2026-09-05,knee,left,Q1\n",
    ),
    (
        "offers",
        "athlete",
        "offer,athlete,kind,offered_on,answer\nO9,Q1,wrist,2026-09-05,accepted\n",
    ),
    ("offers", "kind", "offer,athlete,kind,offered_on,answer\nO9,A1,Q1,2026-09-05,accepted\n"),
    ("decisions", "department", "decision,decided_on,text,department\nX9,2026-09-05,Go,Q1\n"),
]


@pytest.mark.parametrize(("table", "column", "text"), REFERENCES)
def test_a_key_that_points_nowhere_is_refused(
    loaded: Desk, table: str, column: str, text: str
) -> None:
    problem = loaded.problem(**{table: text})
    assert (problem.row, problem.column, problem.value) == (2, column, "Q1")
    assert "is not a known" in problem.expected


def test_every_reference_of_the_tables_has_its_example() -> None:
    told = {(table, column) for table, column, _ in REFERENCES}
    assert told == {
        (table.name, column.name)
        for table in TABLES.values()
        for column in table.columns
        if column.refers is not None
    }


def test_a_wrong_key_comes_with_the_nearest_known_one(loaded: Desk) -> None:
    text = "offer,athlete,kind,offered_on,answer\nO9,A1,shouldr,2026-09-05,accepted\n"
    assert loaded.problem(offers=text).nearest == "shoulder"


def test_keys_may_be_made_and_pointed_to_in_one_load(season: Desk) -> None:
    """The small season makes departments, teams, athletes and guards, and points to all of them."""
    assert season.plan().notes == ()


def test_kinds_may_be_added_in_the_same_load(loaded: Desk) -> None:
    plan = loaded.plan(
        kinds="kind,area,function\ncalf,lower leg,\n",
        guards="guard,athlete,kind,side,purpose\nG9,A1,calf,left,preventive\n",
    )
    assert [one.new for one in plan.tables] == [1, 1]


def test_a_row_refused_for_another_reason_is_still_known(loaded: Desk) -> None:
    """One wrong word in a session does not make all its attendance wrong."""
    problem = loaded.problem(
        sessions="session,team,season,starts_at,setting\nS9,T1,2026,2026-09-05T10:00,gamme\n",
        attendance="session,athlete,part\nS9,A1,full\n",
    )
    assert problem.file == "sessions.csv"


def test_an_unreadable_table_is_told_once(loaded: Desk) -> None:
    problem = loaded.problem(
        sessions=b"\x00\x00\x00", attendance="session,athlete,part\nS9,A1,full\n"
    )
    assert problem.file == "sessions.csv"


def test_a_missing_key_is_a_missing_cell(loaded: Desk) -> None:
    problem = loaded.problem(teams=TEAMS + ",D1,judo,men\n")
    assert (problem.column, problem.value) == ("team", None)
