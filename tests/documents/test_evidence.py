"""`seasonboard evidence`: a reviewer makes the figures again with nothing but the folder."""

import csv
import shutil
import subprocess
import sys

import pytest

from tests.conftest import ROOT

FILES = {
    *(
        "exposures.csv",
        "start_stop.csv",
        "drawn_turns.csv",
        "columns.csv",
        "figures.csv",
        "reporting_items.md",
    ),
    *("remake_figures.py", "remake_figures.R"),
}


TURNS = (
    "draw,athlete,kind,side,stratum,turn,week,drawn_on,starts_on,prints_per_week,ready_days,seed,"
    "earlier_injury,board_number"
)


@pytest.fixture(scope="module")
def store(run, sample_store, tmp_path_factory):
    """Give the sample season with an invented draw of every soccer player of one team."""
    folder = tmp_path_factory.mktemp("drawn")
    path = shutil.copy(sample_store, folder / "drawn.duckdb")
    roster = table(ROOT / "sample_season" / "roster.csv")
    players = [row["athlete"] for row in roster if row["team"] == "LF-WSOC"]
    turns = [
        f"X1,{player},shin,both,LF-WSOC,{n + 1},{n // 3 + 1},2026-08-20,2026-08-24,3,5,7,no,none"
        for n, player in enumerate(players)
    ]
    (folder / "turns.csv").write_text("\n".join([TURNS, *turns]) + "\n", "utf-8")
    done = run("load", folder / "turns.csv", "--store", path, "--yes")
    assert done.status == 0, done.err
    return path


@pytest.fixture(scope="module")
def shin(run, store, tmp_path_factory):
    """Write the evidence of shin guards in that season."""
    folder = tmp_path_factory.mktemp("evidence") / "shin"
    done = run("evidence", folder, "--store", store, "--kind", "shin", "--yes")
    assert (done.status, done.err) == (0, "")
    assert "keep the folder as a record of health" in done.out
    return folder


def table(path):
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.long
@pytest.mark.parametrize("command", [(sys.executable, "remake_figures.py"),
                                     ("Rscript", "remake_figures.R")])  # fmt: skip
def test_the_scripts_make_every_figure_again_to_a_millionth(shin, command):
    program, script = command
    if shutil.which(program) is None:
        pytest.skip(f"{program} is not installed")
    done = subprocess.run([program, shin / script], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    for row in table(shin / "figures.csv")[1:]:
        assert row["figure"] in done.stdout


@pytest.mark.long
def test_a_figure_that_does_not_follow_from_the_tables_is_told(shin, tmp_path):
    folder = shutil.copytree(shin, tmp_path / "other")
    rows = (folder / "exposures.csv").read_text("utf-8").splitlines(keepends=True)
    hurt = next(n for n, row in enumerate(rows) if ",true,true," in row)
    rows[hurt] = rows[hurt].replace(",true,true,", ",true,false,")
    (folder / "exposures.csv").write_text("".join(rows), "utf-8")
    done = subprocess.run([sys.executable, folder / "remake_figures.py"], capture_output=True,
                          text=True, check=False)  # fmt: skip
    assert done.returncode == 1
    assert "Largest relative difference" in done.stdout


@pytest.mark.long
def test_people_are_codes_and_every_column_is_explained(shin, store, run):
    assert {path.name for path in shin.iterdir()} == FILES
    roster = run("ask", "roster", "--store", store, "--format", "json").json
    people = {one[name] for one in roster["athletes"] for name in ("athlete", "name")}
    whole = "".join(path.read_text("utf-8") for path in shin.iterdir())
    assert not {person for person in people if person in whole}
    explained = {(row["file"], row["column"]) for row in table(shin / "columns.csv")}
    for name in ("exposures.csv", "start_stop.csv", "drawn_turns.csv"):
        assert {(name, column) for column in table(shin / name)[0]} <= explained
    items = (shin / "reporting_items.md").read_text("utf-8")
    assert "The maker of the guards analyses its own product." in items


@pytest.mark.long
def test_it_asks_first_and_replaces_nothing_unasked(run, store, shin, tmp_path):
    asked = ("evidence", "--store", store, "--kind", "shin", "--team", "LF-WSOC")
    refused = run(*asked, tmp_path / "new", stdin="n\n")
    assert (refused.status, (tmp_path / "new").exists()) == (1, False)
    before = (shin / "figures.csv").read_bytes()
    again = run("evidence", "--store", tmp_path / "no store", shin, "--yes")  # said before reading
    assert again.status == 2
    assert "is there already; nothing was written" in again.err
    assert (shin / "figures.csv").read_bytes() == before
    practices = run(*asked, tmp_path / "practices", "--yes", "--setting", "practices")
    assert practices.status == 0
    assert "Without games before an injury: No practice ticks the clock" in practices.out
    assert not (tmp_path / "practices" / "start_stop.csv").exists()
