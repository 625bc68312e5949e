"""Workbooks and Parquet files are read as if they had been saved as CSV."""

import io
import zipfile
from datetime import UTC, date, datetime, time
from pathlib import Path

import openpyxl
import polars as pl
import pytest
from openpyxl.utils.datetime import CALENDAR_MAC_1904

from seasonboard.store.intake.plan import plan_load
from tests.intake.desk import SMALL_SEASON, Desk
from tests.person import Person

TEAMS = ("team", "department", "sport", "sex")
INJURIES = ("injury", "athlete", "occurred_on", "area", "side")


def save(book: openpyxl.Workbook, path: Path) -> Path:
    book.save(path)
    return path


def workbook(*rows: tuple[object, ...], name: str = "Sheet") -> openpyxl.Workbook:
    book = openpyxl.Workbook()
    book.active.title = name
    for row in rows:
        book.active.append(row)
    return book


def said(notes) -> str:
    return " ".join(note.sentence() for note in notes)


def test_a_workbook_named_after_a_table_is_that_table(loaded: Desk) -> None:
    save(workbook(TEAMS, ("T8", "D1", "judo", "men")), loaded.folder / "teams.xlsx")
    plan = loaded.plan()
    assert [(one.table, one.file, one.new) for one in plan.tables] == [("teams", "teams.xlsx", 1)]


def test_sheets_named_after_tables_are_those_tables(loaded: Desk) -> None:
    book = workbook(TEAMS, ("T8", "D1", "judo", "men"), name="Teams")
    roster = book.create_sheet("roster")
    roster.append(("athlete", "team", "season", "name", "jersey"))
    roster.append(("00417", "T8", 2026, "Ana", 7))
    save(book, loaded.folder / "club.xlsx")
    plan = loaded.plan()
    assert [(one.table, one.file) for one in plan.tables] == [
        ("teams", "club.xlsx › Teams"),
        ("roster", "club.xlsx › roster"),
    ]
    row = plan.rows["roster"].select("athlete", "season", "jersey").row(0)
    assert row == ("00417", "2026", "7")


@pytest.mark.parametrize("state", ["hidden", "veryHidden"])
def test_hidden_sheets_are_left_out_and_told(loaded: Desk, state: str) -> None:
    book = workbook(TEAMS, ("T8", "D1", "judo", "men"), name="list")
    old = book.create_sheet("old", 0)
    old.append(TEAMS)
    old.append(("T9", "D1", "judo", "men"))
    old.sheet_state = state
    save(book, loaded.folder / "teams.xlsx")
    plan = loaded.plan()
    assert plan.rows["teams"]["team"].to_list() == ["T8"]
    assert "1 hidden sheet was left out: old" in said(plan.notes)


@pytest.mark.parametrize("from_1904", [False, True], ids=["1900", "1904"])
def test_dates_are_dates_by_either_count(loaded: Desk, *, from_1904: bool) -> None:
    """Cells shown as dates, and bare day numbers: both count as the workbook counts."""
    book = openpyxl.Workbook()
    if from_1904:
        book.epoch = CALENDAR_MAC_1904
    book.active.append(INJURIES)
    book.active.append(("I8", "A3", date(2026, 9, 5), "knee", "left"))
    book.active.append(("I9", "A3", 46270 - 1462 * from_1904, "knee", "left"))
    save(book, loaded.folder / "injuries.xlsx")
    assert loaded.plan().rows["injuries"]["occurred_on"].to_list() == [date(2026, 9, 5)] * 2


def test_an_instant_of_a_workbook_is_in_the_time_of_the_department(loaded: Desk) -> None:
    book = workbook(
        ("session", "team", "season", "starts_at", "setting"),
        ("S9", "T1", 2026, datetime(2026, 9, 5, 18, 30), "game"),  # noqa: DTZ001
    )
    save(book, loaded.folder / "sessions.xlsx")
    starts = loaded.plan().rows["sessions"]["starts_at"].to_list()
    assert starts == [datetime(2026, 9, 5, 23, 30, tzinfo=UTC)]


def test_rows_have_the_numbers_the_spreadsheet_shows(loaded: Desk) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    sheet["A3"] = "a list"
    for place, name in enumerate(TEAMS, 2):
        sheet.cell(5, place, name)
    for place, cell in enumerate(("T8", "D1", "judo", "mem"), 2):
        sheet.cell(9, place, cell)
    save(book, loaded.folder / "teams.xlsx")
    (problem,) = loaded.refusal().problems
    assert (problem.row, problem.column, problem.value) == (9, "sex", "mem")


def test_headings_in_two_rows_with_merged_cells_are_put_together(loaded: Desk) -> None:
    """“Athlete” over “ID” and “Name” makes “Athlete ID”; the totals line is held against it."""
    book = workbook(
        ("North, autumn",),
        (),
        ("Athlete", None, "Injury", None, None, "Days"),
        ("ID", "Name", "Date", "Part", "Side", "lost"),
        ("A1", "Ana Reed", datetime(2026, 9, 5), "knee", "L", 6),  # noqa: DTZ001
        ("A2", "Bo Lind", datetime(2026, 9, 12), "ankle", "R", 3),  # noqa: DTZ001
        ("Total", None, None, 2, None, 9),
    )
    book.active.merge_cells("A3:B3")
    book.active.merge_cells("C3:E3")
    book.active.merge_cells("A1:F1")
    path = save(book, loaded.folder / "injury_log.xlsx")
    person = Person(propose=True)
    plan = plan_load(loaded.store, [path], dialog=person)
    assert "“Athlete ID”" in person.proposals[0]
    assert "left out: “Days lost”" in person.proposals[0]
    assert plan.rows["injuries"]["athlete"].to_list() == ["A1", "A2"]
    assert "agrees with the rows above" in said(plan.notes)


def test_formulas_without_a_stored_value_are_told_with_their_cell(loaded: Desk) -> None:
    book = workbook(TEAMS, ("T8", "D1", "=1+1", "men"))
    save(book, loaded.folder / "teams.xlsx")
    with pytest.raises(Exception, match="sport"):  # a cell that every row needs
        loaded.plan()
    book.active["C2"] = "judo"
    book.active["E2"] = "=LEN(A2)"
    save(book, loaded.folder / "teams.xlsx")
    assert "1 formula has no stored value" in said(loaded.plan().notes)
    assert "cell E2" in said(loaded.plan().notes)


def test_numbers_and_times_are_written_plainly(loaded: Desk) -> None:
    book = workbook(
        ("athlete", "team", "season", "name", "jersey", "position"),
        (417, "T1", 2026.0, True, 0.1, time(18, 30)),
    )
    save(book, loaded.folder / "roster.xlsx")
    row = loaded.plan().rows["roster"].select("athlete", "season", "name", "jersey", "position")
    assert row.row(0) == ("417", "2026", "TRUE", "0.1", "18:30:00")


def test_a_workbook_that_is_none_is_refused(loaded: Desk) -> None:
    for data in (b"", b"PK\x03\x04broken", b"team,department\n"):
        (loaded.folder / "teams.xlsx").write_bytes(data)
        (problem,) = loaded.refusal().problems
        assert "workbook" in problem.expected


def test_a_workbook_of_empty_sheets_is_refused(loaded: Desk) -> None:
    save(openpyxl.Workbook(), loaded.folder / "teams.xlsx")
    assert "no visible sheet" in loaded.refusal().problems[0].expected


def test_a_workbook_that_unpacks_to_gigabytes_is_not_unpacked(loaded: Desk) -> None:
    with zipfile.ZipFile(loaded.folder / "teams.xlsx", "w") as package:
        package.writestr("xl/workbook.xml", "<workbook/>")
        package.infolist()[0].file_size = 2 << 30
    assert "unpacks to more than" in loaded.refusal().problems[0].expected


def _season_as_workbook() -> openpyxl.Workbook:
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, text in SMALL_SEASON.items():
        sheet = book.create_sheet(name)
        for row in pl.read_csv(io.StringIO(text), infer_schema=False, has_header=False).rows():
            sheet.append(row)
    return book


def test_the_same_season_as_one_workbook_changes_nothing(loaded: Desk) -> None:
    save(_season_as_workbook(), loaded.folder / "season.xlsx")
    plan = loaded.plan()
    assert plan.is_empty
    assert {one.table for one in plan.tables} == set(SMALL_SEASON)


def test_the_same_season_as_parquet_changes_nothing(loaded: Desk) -> None:
    for name, text in SMALL_SEASON.items():
        frame = pl.read_csv(io.StringIO(text), try_parse_dates=True, infer_schema_length=None)
        keys = {"jersey": pl.String, "season": pl.String}
        frame = frame.cast({one: kind for one, kind in keys.items() if one in frame.columns})
        if name == "roster":
            frame = frame.with_columns(jersey=pl.Series(["07", "10", "1"]))
        frame.write_parquet(loaded.folder / f"{name}.parquet")
    plan = loaded.plan()
    assert plan.is_empty, plan.changes
    assert {one.table for one in plan.tables} == set(SMALL_SEASON)


def test_parquet_instants_keep_their_zone(loaded: Desk) -> None:
    frame = pl.DataFrame(
        {
            "session": ["S9"],
            "team": ["T1"],
            "season": ["2026"],
            "starts_at": [datetime(2026, 9, 5, 23, 30, tzinfo=UTC)],
            "setting": ["game"],
        }
    )
    frame.with_columns(pl.col("starts_at").dt.convert_time_zone("Asia/Tokyo")).write_parquet(
        loaded.folder / "sessions.parquet"
    )
    starts = loaded.plan().rows["sessions"]["starts_at"].to_list()
    assert starts == [datetime(2026, 9, 5, 23, 30, tzinfo=UTC)]


def test_parquet_that_is_none_or_nested_is_refused(loaded: Desk) -> None:
    (loaded.folder / "teams.parquet").write_bytes(b"PAR1nothing")
    assert "damaged" in loaded.refusal().problems[0].expected
    pl.DataFrame({"team": [["a"]]}).write_parquet(loaded.folder / "teams.parquet")
    assert "lists or structures" in loaded.refusal().problems[0].expected


def test_a_sheet_name_with_signs_of_xml_finds_its_formulas(loaded: Desk) -> None:
    book = workbook(TEAMS, ("T8", "D1", "judo", "men", "=1"), name="A & B")
    path = save(book, loaded.folder / "teams.xlsx")
    assert zipfile.is_zipfile(path)
    assert "no stored value" in said(loaded.plan().notes)
