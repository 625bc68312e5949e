"""Folders and files become tables by their names."""

from pathlib import Path

import pytest

from seasonboard.stored_tables import TABLES
from tests.intake.desk import SMALL_SEASON, Desk

TEAMS_ONLY = "team,department,sport,sex\nT3,D1,rowing,mixed\n"


def test_every_known_table_of_a_folder_is_taken(season: Desk) -> None:
    plan = season.plan()
    assert [one.table for one in plan.tables] == [name for name in TABLES if name in SMALL_SEASON]
    assert {one.new for one in plan.tables if one.table == "teams"} == {2}


def test_a_single_file_is_taken_by_its_name(loaded: Desk) -> None:
    loaded.put(teams=TEAMS_ONLY)
    plan = loaded.plan(loaded.folder / "teams.csv")
    assert [(one.table, one.new) for one in plan.tables] == [("teams", 1)]


def test_file_names_may_be_written_in_capitals(loaded: Desk) -> None:
    (loaded.folder / "TEAMS.CSV").write_text(TEAMS_ONLY)
    assert [one.table for one in loaded.plan().tables] == ["teams"]


def test_an_unknown_csv_in_a_folder_is_a_note_with_the_nearest_name(loaded: Desk) -> None:
    plan = loaded.plan(teams=TEAMS_ONLY, rooster="a,b\n1,2\n")
    (note,) = plan.notes
    assert note.file.endswith("rooster.csv")
    assert note.nearest == "roster.csv"


def test_other_file_types_in_a_folder_are_passed_over(loaded: Desk) -> None:
    loaded.put(teams=TEAMS_ONLY)
    (loaded.folder / "readme.txt").write_text("hello")
    assert loaded.plan().notes == ()


def test_a_folder_without_tables_names_the_tables(desk: Desk) -> None:
    (problem,) = desk.refusal().problems
    assert "holds none of the tables" in problem.expected
    assert "attendance.csv" in problem.expected


def test_a_file_of_another_name_is_refused_with_the_nearest(desk: Desk) -> None:
    desk.put(atendance="session\n")
    (problem,) = desk.refusal(desk.folder / "atendance.csv").problems
    assert problem.nearest == "attendance.csv"
    assert "is not named after a table" in problem.sentence()


def test_a_document_or_a_missing_path_is_refused(desk: Desk) -> None:
    (desk.folder / "roster.docx").write_bytes(b"PK")
    refusal = desk.refusal(desk.folder / "roster.docx", desk.folder / "nowhere")
    said = sorted(problem.expected for problem in refusal.problems)
    assert said == [
        "does not exist; name a folder, or a CSV, XLSX or Parquet file.",
        "is not a table; save it as CSV (UTF-8), XLSX or Parquet first.",
    ]


def test_a_file_named_twice_is_read_once(loaded: Desk) -> None:
    loaded.put(teams=TEAMS_ONLY)
    plan = loaded.plan(loaded.folder, loaded.folder / "teams.csv")
    assert [one.new for one in plan.tables] == [1]


@pytest.fixture
def other(tmp_path: Path) -> Path:
    (tmp_path / "other").mkdir()
    return tmp_path / "other"


def test_two_files_of_one_table_are_told_apart_by_their_paths(own: Desk, other: Path) -> None:
    own.put(teams=TEAMS_ONLY)
    (other / "teams.csv").write_text("team,department,sport,sex\nT4,D2,tennis,men\n")
    plan = own.load(own.folder, other)
    assert len({one.file for one in plan.tables}) == 2
    assert [one.new for one in plan.tables] == [1, 1]
    assert own.count("teams") == 4


def test_doubles_are_found_across_files(loaded: Desk, other: Path) -> None:
    loaded.put(teams=TEAMS_ONLY)
    (other / "teams.csv").write_text(TEAMS_ONLY.replace("rowing", "golf"))
    (problem,) = loaded.refusal(loaded.folder, other).problems
    assert "already stands in" in problem.expected
    (other / "teams.csv").write_text(TEAMS_ONLY)
    plan = loaded.plan(loaded.folder, other)
    assert sorted(one.new for one in plan.tables) == [0, 1]


def test_all_problems_of_all_files_are_told_at_once(desk: Desk) -> None:
    desk.put(teams="team,department,sport,sex\nT1,D9,soccer,womem\n", wear=b"\xff\xfe\x00\x00")
    refusal = desk.refusal()
    assert [problem.file for problem in refusal.problems] == ["teams.csv", "teams.csv", "wear.csv"]
    assert refusal.what == "Nothing was loaded: 3 problems were found."
