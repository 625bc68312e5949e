"""Files that are endless, far too large or damaged are refused in words, and harm nobody."""

import io
import os
import random
import subprocess
import zipfile
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import openpyxl
import polars as pl
import pytest
import xlsxwriter

from seasonboard.errors import IntakeError
from seasonboard.file_limits import LEAST_SECONDS, MOST_CELLS, MOST_COLUMNS, MOST_LINE
from seasonboard.store.gate import reader_process
from seasonboard.store.gate.parquet_footer import FooterError, read_footer
from seasonboard.store.gate.reader_process import FileReader, seconds_for
from seasonboard.store.intake.plan import plan_load
from tests.intake.desk import Desk
from tests.reused import ReusedStore


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with ReusedStore() as store:
        yield Desk(tmp_path / "desk", store)


def workbook(**cells: object) -> bytes:
    book = openpyxl.Workbook()
    for name, value in cells.items():
        book.active[name] = value
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def refusal(desk: Desk, name: str, data: bytes) -> str:
    path = desk.folder / name
    path.write_bytes(data)
    with pytest.raises(IntakeError) as refused:
        plan_load(desk.store, [path])
    (problem,) = refused.value.problems
    assert problem.file == name
    return problem.expected


@pytest.mark.parametrize("last", ["XFD1048576", "ALM2", "SG2", "AZ900000"])
def test_a_stray_cell_far_from_the_table_is_named(desk: Desk, last: str) -> None:
    said = refusal(desk, "teams.xlsx", workbook(A1="team", B1="department", **{last: 1}))
    assert f"to cell {last}" in said
    assert "Delete what stands far from the table" in said


def test_a_sheet_that_is_hidden_is_not_measured(desk: Desk) -> None:
    book = openpyxl.Workbook()
    for row in (("department", "name", "time_zone"), ("D1", "North", "America/Chicago")):
        book.active.append(row)
    hidden = book.create_sheet("old")
    hidden.sheet_state = "hidden"
    hidden["XFD1048576"] = 1
    book.save(desk.folder / "departments.xlsx")
    assert plan_load(desk.store, [desk.folder]).tables[0].new == 1


def test_cells_without_a_value_do_not_count(desk: Desk) -> None:
    book = openpyxl.Workbook()
    for row in (("department", "name", "time_zone"), ("D1", "North", "America/Chicago")):
        book.active.append(row)
    book.active["XFD1048576"].font = openpyxl.styles.Font(bold=True)
    book.save(desk.folder / "departments.xlsx")
    assert plan_load(desk.store, [desk.folder]).tables[0].new == 1


@pytest.mark.parametrize("seed", range(6))
def test_a_damaged_workbook_is_refused_in_words(desk: Desk, seed: int) -> None:
    data = bytearray(workbook(A1="team", B1="department", A2="T1", B2="D1"))
    chance = random.Random(seed)
    for _ in range(60):
        data[chance.randrange(len(data))] = chance.randrange(256)
    said = refusal(desk, "teams.xlsx", bytes(data))
    assert any(one in said for one in ("Save it again", "save the table", "save its sheets"))


_ENDING = """
import os, signal
from seasonboard.store.gate import worker
read = worker.read
def ends(kind, data, *rest):
    os.kill(os.getpid(), signal.SIGABRT) if b"END" in data else read(kind, data, *rest)
worker.read = ends
worker.main()
"""


def test_a_reader_that_is_ended_harms_nobody(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """The file that ends it is named; the others are read, each fault by a process of its own."""
    start = subprocess.Popen

    def ending(command: list[str], **streams: object) -> object:
        return start([command[0], "-c", _ENDING], **streams)

    monkeypatch.setattr(reader_process.subprocess, "Popen", ending)
    said = refusal(desk, "teams.xlsx", b"PK END")
    assert said.startswith("ended the reader")
    assert "Save its sheets as CSV" in said
    (desk.folder / "departments.xls").write_bytes(b"END")
    (desk.folder / "departments.parquet").write_bytes(
        parquet(department=["D1"], name=["North"], time_zone=["America/Chicago"])
    )
    (desk.folder / "kinds.parquet").write_bytes(b"no table")
    with pytest.raises(IntakeError) as refused:
        plan_load(desk.store, [desk.folder])
    assert {(one.file, one.expected.split()[0]) for one in refused.value.problems} == {
        ("departments.xls", "ended"), ("teams.xlsx", "ended"), ("kinds.parquet", "cannot"),
    }  # fmt: skip


def test_all_files_of_a_load_are_read_by_one_process(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    started = []
    start = subprocess.Popen

    def counted(command: list[str], **streams: object) -> object:
        started.append(command)
        return start(command, **streams)

    monkeypatch.setattr(reader_process.subprocess, "Popen", counted)
    desk.put(departments="department,name,time_zone\nD1,North,America/Chicago\n")
    for name, rows in {
        "teams": {"team": ["T1"], "department": ["D1"], "sport": ["soccer"], "sex": ["women"]},
        "roster": {"athlete": ["A1"], "team": ["T1"], "season": ["2026"], "name": ["Ana Reed"]},
    }.items():
        (desk.folder / f"{name}.parquet").write_bytes(parquet(**rows))
    assert [one.new for one in desk.plan().tables] == [1, 1, 1]
    assert len(started) == 1


def test_memory_kept_from_a_file_before_refuses_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """A process that had read others and falls short of memory, or ends, is followed by another."""
    with FileReader() as reader:
        first = list(reader.read("parquet", parquet(team=["T1"]), "a.parquet"))
        reader._process.kill()
        assert list(reader.read("parquet", parquet(team=["T1"]), "b.parquet")) == first


def test_a_reader_that_takes_too_long_is_ended(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reader_process, "LEAST_SECONDS", 0)
    said = refusal(desk, "teams.xlsx", workbook(A1="team"))
    assert "took longer than 0 seconds" in said


def test_time_grows_with_the_file() -> None:
    assert seconds_for(0) == LEAST_SECONDS
    assert seconds_for(40 << 20) == LEAST_SECONDS + 40


@pytest.mark.long
def test_a_reader_that_takes_too_much_memory_is_refused() -> None:
    text = "x" * 32_000  # one shared text in many cells: 16 GB of text in half a megabyte
    sheet = b"".join(
        b'<row r="%d"><c r="A%d" t="s"><v>0</v></c></row>' % (row, row) for row in range(1, 500_001)
    )
    plain = io.BytesIO()
    with xlsxwriter.Workbook(plain) as book:
        book.add_worksheet().write(0, 0, text)
    made = io.BytesIO()
    with zipfile.ZipFile(plain) as old, zipfile.ZipFile(made, "w", 8) as new:
        for name in old.namelist():
            data = old.read(name)
            if name == "xl/worksheets/sheet1.xml":
                head, _, tail = data.partition(b"<sheetData>")
                data = head + b"<sheetData>" + sheet + tail[tail.index(b"</sheetData>") :]
            new.writestr(name, data)
    with FileReader() as reader, pytest.raises(IntakeError) as refused:
        list(reader.read("workbook", made.getvalue(), "teams.xlsx"))
    assert "memory" in refused.value.what or "text in its cells" in refused.value.what


def test_modules_beside_the_files_are_not_run(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    (desk.folder / "json.py").write_text("raise SystemExit(9)")
    monkeypatch.chdir(desk.folder)
    with FileReader() as reader:
        assert b"hidden" in next(reader.read("workbook", workbook(A1="team"), "teams.xlsx"))


def parquet(**columns: object) -> bytes:
    written = io.BytesIO()
    pl.DataFrame(columns).write_parquet(written)
    return written.getvalue()


def test_a_parquet_file_is_measured_by_its_end(desk: Desk) -> None:
    many = pl.Series("team", ["T1"]).extend_constant("T1", MOST_CELLS)
    data = parquet(team=many)
    assert read_footer(data).rows == MOST_CELLS + 1
    assert len(data) < 1 << 20
    assert f"at most {MOST_CELLS:,} are read" in refusal(desk, "teams.parquet", data)


def test_a_damaged_parquet_file_is_refused_in_words(desk: Desk) -> None:
    data = parquet(team=["T1"], department=["D1"])
    for broken in (data[:-9], data[:40] + data[60:], data[:-8] + b"\xff\xff\xff\x7fPAR1"):
        assert "cannot be read as Parquet" in refusal(desk, "teams.parquet", broken)


def test_an_end_that_is_none_is_told() -> None:
    for data in (b"", b"PAR1", b"PAR1\x00\x00\x00\x00\x00\x00\x00\x00PAR1", b"PAR1" + b"\x1c" * 90):
        with pytest.raises(FooterError):
            read_footer(data)


def test_bytes_that_are_no_text_are_told_with_their_row(desk: Desk) -> None:
    said = refusal(desk, "teams.parquet", parquet(team=[b"T1", b"T\xff"], department=["D1", "D1"]))
    assert "column team, row 3" in said


def test_durations_and_a_column_called_as_ours_are_read(desk: Desk) -> None:
    desk.season_with()
    (desk.folder / "attendance.csv").unlink()
    data = parquet(
        file_row=[1], session=["S1"], athlete=["A1"], part=["full"], minutes=[timedelta(minutes=90)]
    )
    (desk.folder / "attendance.parquet").write_bytes(data)
    refused = desk.refusal()
    assert "file_row" in refused.what
    (desk.folder / "attendance.parquet").write_bytes(
        parquet(
            session=["S1"],
            athlete=["A1"],
            part=["full"],
            minutes=[timedelta(seconds=1350)],
        )
    )
    assert desk.plan().rows["attendance"]["minutes"].to_list() == [22.5]


def test_a_line_without_an_end_is_refused(desk: Desk) -> None:
    said = refusal(desk, "teams.csv", b"team,department\n" + b"x" * (2 * MOST_LINE))
    assert "a line for each row" in said


def test_a_header_of_very_many_columns_is_refused(desk: Desk) -> None:
    names = ",".join(f"c{one}" for one in range(MOST_COLUMNS + 1))
    assert f"at most {MOST_COLUMNS:,}" in refusal(desk, "teams.csv", names.encode())


def test_more_cells_than_are_read_are_refused(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("seasonboard.store.gate.csv_measures.MOST_CELLS", 5)
    assert "Load it in parts" in refusal(desk, "teams.csv", b"team,department\nT1,D1\nT2,D2\n")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
@pytest.mark.parametrize("name", ["teams.csv", "teams.xlsx", "teams.parquet", "club.bundle"])
def test_pipes_and_devices_are_not_opened(desk: Desk, name: str) -> None:
    path = desk.folder / name
    os.mkfifo(path)
    with pytest.raises(IntakeError, match="a pipe or a device"):
        plan_load(desk.store, [path])
    if not name.endswith("bundle"):
        desk.put(departments="department,name,time_zone\nD1,North,America/Chicago\n")
        (note,) = desk.plan().notes
        assert (note.file, "a pipe or a device" in note.expected) == (str(path), True)
    path.unlink()
    path.symlink_to("/dev/zero")
    with pytest.raises(IntakeError, match="a pipe or a device"):
        plan_load(desk.store, [path])


def test_a_name_no_system_takes_is_refused_in_words(desk: Desk) -> None:
    with pytest.raises(IntakeError):
        plan_load(desk.store, [desk.folder / ("x" * 5000 + ".csv")])
