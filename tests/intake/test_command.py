"""Files from elsewhere through the real command, as a person would type it."""

import csv
import os
import signal
import subprocess
import sys
from pathlib import Path

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
