"""Files from elsewhere through the real command, as a person would type it."""

import csv
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import openpyxl
import polars as pl
import pytest

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.store import open_store

ROOT = Path(__file__).resolve().parent.parent.parent
SEASON = {
    "departments": "department,name,plan,time_zone\nNA,North,weekly allotment,America/Chicago\n",
    "teams": "team,department,sport,sex\nNorth,NA,soccer,women\n",
    "roster": "athlete,team,season,name,jersey\n"
    + "".join(f"A{i:02d},North,2026,Name{i},{i}\n" for i in range(1, 10)),
    "sessions": "session,team,season,starts_at,setting\n"
    + "".join(f"G{i},North,2026,2026-09-{i + 4:02d}T18:00,game\n" for i in range(1, 9)),
}


class Elsewhere:
    """A folder, a store with one team in it, and the command."""

    def __init__(self, run, folder: Path) -> None:
        self.run = run
        self.folder = folder
        self.store = folder / "season.duckdb"

    def file(self, name: str, content: str | bytes) -> Path:
        path = self.folder / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    def load(self, path: Path, *words: str):
        return self.run("load", path, "--store", self.store, "--yes", *words)

    def rows(self, table: str) -> pl.DataFrame:
        with open_store(self.store) as store:
            return export_tables(store)[table]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("made")
    for name, text in SEASON.items():
        (folder / f"{name}.csv").write_text(text)
    load_paths(folder / "season.duckdb", [folder], UnattendedLoad())
    return folder / "season.duckdb"


@pytest.fixture
def elsewhere(run, made: Path, tmp_path: Path) -> Elsewhere:
    (tmp_path / "season.duckdb").write_bytes(made.read_bytes())
    return Elsewhere(run, tmp_path)


def test_one_row_over_12_settles_day_and_month(elsewhere: Elsewhere) -> None:
    file = elsewhere.file(
        "injuries.csv",
        "athlete_id,date,body_part\nA01,03/04/2026,knee\nA02,05/04/2026,wrist\n"
        "A03,13/04/2026,ankle\nA04,11/12/2025,knee\n",
    )
    done = elsewhere.load(file, "--value", "side=left")
    assert done.status == 0, done.err
    assert "dates are day/month/year, as “13/04/2026” under “date” shows" in done.out
    days = elsewhere.rows("injuries").sort("athlete")["occurred_on"]
    assert [str(day) for day in days] == ["2026-04-03", "2026-04-05", "2026-04-13", "2025-12-11"]


def test_a_date_column_with_two_readings_is_asked_about(elsewhere: Elsewhere) -> None:
    text = "injury,athlete,occurred_on,area,side\nI1,A01,03/04/2026,knee,left\n"
    file = elsewhere.file("injuries.csv", text)
    done = elsewhere.load(file)
    assert done.status == 2
    assert "row 2 “03/04/2026” is 2026-04-03 or 2026-03-04" in done.err
    assert elsewhere.load(file, "--dates", "mdy").status == 0
    assert str(elsewhere.rows("injuries")["occurred_on"][0]) == "2026-03-04"


def test_day_numbers_of_a_spreadsheet_become_dates(elsewhere: Elsewhere) -> None:
    text = (
        "session_id,date,kind\nH1,46270,game\nH2,46326,game\nH3,46327.75,game\nH4,2026-11-07,game\n"
    )
    done = elsewhere.load(elsewhere.file("schedule.csv", text), "--value", "time=12:00")
    assert done.status == 0, done.err
    assert "day numbers, counted from 1900, became dates (3 cells)" in done.out
    starts = elsewhere.rows("sessions").filter(pl.col("session").str.starts_with("H"))
    local = (
        starts["starts_at"].dt.convert_time_zone("America/Chicago").dt.strftime("%Y-%m-%dT%H:%M")
    )
    assert local.to_list() == [
        "2026-09-05T12:00",
        "2026-10-31T12:00",
        "2026-11-01T18:00",
        "2026-11-07T12:00",
    ]


def test_windows_letters_and_a_byte_order_mark_give_the_same_names(elsewhere: Elsewhere) -> None:
    text = "athlete,name,team,season\nA01,Zoë Nuñez,North,2026\nA02,Renée O’Dell,North,2026\n"
    done = elsewhere.load(elsewhere.file("roster.csv", text.encode("cp1252")))
    assert "it was read as Windows-1252" in done.out
    again = elsewhere.load(elsewhere.file("roster.csv", text.encode("utf-8-sig")))
    assert re.search(r"roster +0 +0 +2", again.out)
    assert elsewhere.rows("roster")["name"][:2].to_list() == ["Zoë Nuñez", "Renée O’Dell"]


def test_leading_zeros_are_offered_then_taken_and_never_lost(elsewhere: Elsewhere) -> None:
    roster = "athlete,team,season,name\n00417,North,2026,Ana\n01350,North,2026,Cy\n"
    elsewhere.load(elsewhere.file("roster.csv", roster))
    orders = (
        "order_id,athlete_id,device\nO1,417,knee\nO3,1350,ankle\nO4,00417,shin\nO5,1.35E+03,hand\n"
    )
    file = elsewhere.file("orders.csv", orders)
    words = ("--value", "side=left", "--value", "purpose=preventive")
    done = elsewhere.load(file, *words)
    assert done.status == 2
    assert done.err.count("they match without leading zeros") == 3
    assert elsewhere.load(file, "--accept-likely").status == 0
    guards = elsewhere.rows("guards").sort("guard")
    assert guards["athlete"].to_list() == ["00417", "01350", "00417", "01350"]


def test_a_workbook_with_titles_two_header_rows_and_totals(elsewhere: Elsewhere) -> None:
    book = openpyxl.Workbook()
    for row in (
        ("North - injury log",),
        ("printed 2 Nov 2026",),
        (),
        ("Athlete", None, "Injury", None, None, "Days"),
        ("ID", "Name", "Date", "Part", "Side", "lost"),
        ("A01", "Name1", 46270, "knee", "L", 6),
        ("A02", "Name2", 46277, "ankle", "R", 3),
        ("A03", "Name3", 46298, "wrist", "L", 14),
        ("Total", None, None, 3, None, 23),
    ):
        book.active.append(row)
    for area in ("A1:F1", "A4:B4", "C4:E4"):
        book.active.merge_cells(area)
    old = book.create_sheet("old")
    old.append(("athlete_id", "name"))
    old.sheet_state = "hidden"
    book.save(elsewhere.folder / "injury_log.xlsx")
    done = elsewhere.load(elsewhere.folder / "injury_log.xlsx")
    assert done.status == 0, done.err
    assert "from “Athlete ID”" in done.out
    assert "left out: “Days lost”" in done.out
    assert "1 hidden sheet was left out: old" in done.out
    assert "is a totals line, not a record, and was left out. It agrees" in done.out
    assert elsewhere.rows("injuries").height == 3


def test_the_same_file_under_another_name_or_sorted_changes_nothing(elsewhere: Elsewhere) -> None:
    rows = [f"I{i},A0{i},2026-09-{i + 4:02d},knee" for i in range(1, 4)]
    text = "injury_id,athlete_id,date,body_part\n" + "\n".join(rows) + "\n"
    assert elsewhere.load(elsewhere.file("injuries.csv", text), "--value", "side=left").status == 0
    turned = [
        ",".join(reversed(row.split(","))) for row in [text.split("\n")[0], *sorted(rows)[::-1]]
    ]
    for name, other in (("injuries (1).csv", text), ("sorted.csv", "\r\n".join(turned) + "\r\n")):
        done = elsewhere.load(elsewhere.file(name, other))
        assert re.search(r"injuries +0 +0 +3", done.out), done.out + done.err
        assert "are there already." in done.out


def test_rows_that_are_no_good_are_kept_whole_beside_the_store(elsewhere: Elsewhere) -> None:
    text = "session_id,athlete_id,status\nG1,A01,Full\nG1,A02,LTD\nG1,A03,\nG1,A04,Observed only\n"
    file = elsewhere.file("attendance.csv", text)
    refused = elsewhere.load(file)
    assert refused.status == 2
    assert "row 4, column part: is empty" in refused.err
    done = elsewhere.load(file, "--keep-good")
    assert done.status == 1, done.err
    parts = elsewhere.rows("attendance").select("athlete", "part").rows()
    assert parts == [("A01", "full"), ("A02", "limited"), ("A04", "out")]
    left = Path(f"{elsewhere.store}.rejects") / "1" / "attendance.csv"
    (row,) = csv.DictReader(left.read_text("utf-8").splitlines())
    assert (row["rejected_file"], row["rejected_row"], row["athlete"]) == (
        "attendance.csv",
        "4",
        "A03",
    )
    left.write_text(left.read_text("utf-8").replace(",A03,", ",A03,full"), "utf-8")
    assert elsewhere.load(left).status == 0, elsewhere.load(left).err
    assert elsewhere.rows("attendance").height == 4


def test_a_department_may_be_called_na_and_people_null(elsewhere: Elsewhere) -> None:
    text = "athlete,name,team,season,joined_on,left_on\nN1,Ana Null,North,2026,2026-09-05,-\n"
    text += "N2,None Okafor,North,2026,2026-09-12,N/A\nN3,Nan Li,North,2026,TBD,2026-10-01\n"
    assert elsewhere.load(elsewhere.file("roster.csv", text)).status == 0
    people = elsewhere.rows("roster").filter(pl.col("athlete").str.starts_with("N"))
    assert people["name"].to_list() == ["Ana Null", "None Okafor", "Nan Li"]
    assert people["left_on"].null_count() == 2
    assert elsewhere.rows("departments")["department"].to_list() == ["NA"]


@pytest.mark.long
def test_a_change_of_type_far_down_the_file_changes_nothing_above(elsewhere: Elsewhere) -> None:
    """60,000 rows whose first half look like numbers: keys stay text, with their zeros."""
    keys = [f"{i:05d}" for i in range(30_000)] + [f"N{i:04d}" for i in range(30_000)]
    roster = "athlete,team,season,name,jersey\n" + "".join(f"{k},North,2026,x,00\n" for k in keys)
    rows = "".join(f"G1,{key},played,60\n" for key in keys[:-1]) + f"G1,{keys[-1]},played,60.5\n"
    elsewhere.load(elsewhere.file("roster.csv", roster))
    done = elsewhere.load(
        elsewhere.file("long.csv", "session_id,athlete_id,status,minutes\n" + rows)
    )
    assert done.status == 0, done.err
    attendance = elsewhere.rows("attendance")
    assert attendance.height == 60_000
    assert attendance["minutes"].sum() == 59_999 * 60 + 60.5
    assert "00000" in attendance["athlete"].to_list()
    assert elsewhere.rows("roster")["jersey"].unique().sort()[0] == "00"


def test_what_was_confirmed_once_is_not_asked_again(elsewhere: Elsewhere) -> None:
    text = "injury_id,athlete_id,date,body_part,side\nI1,A01,2026-09-05,knee,L\n"
    words = ("load", elsewhere.file("log.csv", text), "--store", elsewhere.store)
    asked = elsewhere.run(*words, stdin="y\nn\n")
    assert "Read the files so?" in asked.err
    assert "Nothing was written." in asked.out
    done = elsewhere.run(*words, stdin="y\n")
    assert "Read the files so?" not in done.err
    assert "Written to" in done.out


def test_a_mere_plan_writes_nothing_beside_the_store_either(elsewhere: Elsewhere) -> None:
    text = "injury_id,athlete_id,date,body_part,side\nI1,A01,2026-09-05,knee,L\nI2,A01,x,knee,L\n"
    file = elsewhere.file("log.csv", text)
    before = sorted(elsewhere.folder.iterdir())
    done = elsewhere.run("load", file, "--store", elsewhere.store, "--plan", "--keep-good")
    assert done.status == 1, done.err
    assert sorted(elsewhere.folder.iterdir()) == before


def test_wrong_options_are_told_plainly(elsewhere: Elsewhere) -> None:
    file = elsewhere.file("teams.csv", "team,department,sport,sex\n")
    for words in (("--dates", "ydm"), ("--column", "side"), ("--decimal", "dot")):
        done = elsewhere.load(file, *words)
        assert done.status == 2
        assert "Traceback" not in done.err


STOP_AT = """
import os, signal, sys
from seasonboard.store.intake import write
whole = write.write_sql
def slow(table):
    if table.name == "attendance":
        os.kill(os.getpid(), signal.SIGINT)
    return whole(table)
write.write_sql = slow
sys.argv = ["seasonboard", *sys.argv[1:]]
from seasonboard.__main__ import main
main()
"""


@pytest.mark.long
@pytest.mark.skipif(os.name == "nt", reason="signals are POSIX")
def test_control_c_in_the_middle_leaves_the_store_as_it_was(elsewhere: Elsewhere) -> None:
    file = elsewhere.file("attendance.csv", "session,athlete,part\nG1,A01,full\n")
    teams = elsewhere.file("teams.csv", "team,department,sport,sex\nNew,NA,judo,men\n")
    words = ["load", str(file), str(teams), "--store", str(elsewhere.store), "--yes"]
    stopped = subprocess.run(
        [sys.executable, "-c", STOP_AT, *words],
        env={**os.environ, "PYTHONPATH": str(ROOT), "HOME": str(elsewhere.folder)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert stopped.returncode not in {0, -signal.SIGKILL}
    assert "Traceback" not in stopped.stderr
    assert elsewhere.rows("attendance").is_empty()
    assert elsewhere.rows("teams").height == 1
    assert elsewhere.load(file).status == 0


UNDO = """
import sys
from types import SimpleNamespace
from pathlib import Path
from seasonboard.cli.main import cli
from seasonboard.cli.backup import undo
from seasonboard.store.intake.undo import undo_path
cli.add_command(undo)
tools = SimpleNamespace(
    last_store=lambda: None,
    undo=lambda path, confirm, **_: undo_path(path, confirm=confirm) is not None,
)
cli(sys.argv[1:], obj={"tools": tools}, prog_name="seasonboard")
"""


@pytest.mark.long
def test_the_last_load_is_shown_and_taken_back(elsewhere: Elsewhere) -> None:
    file = elsewhere.file("teams.csv", "team,department,sport,sex\nNew,NA,judo,men\n")
    elsewhere.load(file)

    def undo(*words: str, answer: str = "") -> "subprocess.CompletedProcess[str]":
        return subprocess.run(
            [sys.executable, "-c", UNDO, "undo", "--store", str(elsewhere.store), *words],
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            input=answer,
            check=False,
        )

    shown = undo(answer="n\n")
    assert "Load 2 of" in shown.stdout
    assert "Nothing was changed." in shown.stdout
    assert elsewhere.rows("teams").height == 2
    assert "Taken back" in undo("--yes").stdout
    assert elsewhere.rows("teams").height == 1
    undo("--yes")
    nothing = undo("--yes")
    assert nothing.returncode == 2
    assert "Nothing was loaded" in nothing.stderr
