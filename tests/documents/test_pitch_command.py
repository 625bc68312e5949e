"""`seasonboard handout pitch` as a command: three formats in a row, and what is refused."""

import re
import zipfile
from datetime import date
from pathlib import Path

import pytest

from seasonboard.documents.kinds import PITCH_HANDOUT
from seasonboard.scope import Scope

ASKED = ("--kind", "shin", "--price", "85", "--printers", "2", "--printer-hours", "60")
P03 = re.compile(rb"Holenlund|Melelenko|LF-0001|QM-0110|/home/|/Users/|/root/")


@pytest.fixture(scope="module")
def store(run, sample_store, tmp_path_factory):
    """Give the sample's store under a name of an athlete, in a folder of its own."""
    path = tmp_path_factory.mktemp("anastasia") / "Quimbleworth_2026.duckdb"
    path.write_bytes(sample_store.read_bytes())
    return path


def grepped(folder):
    """Look into every file as `grep -a` does, workbooks unzipped, and at the files' names."""
    found = []
    for path in filter(Path.is_file, folder.rglob("*")):
        texts = [path.name.encode(), path.read_bytes()]
        if path.suffix == ".xlsx":
            with zipfile.ZipFile(path) as parts:
                texts += map(parts.read, parts.namelist())
        found += [word for one in texts for word in P03.findall(one)]
    return found


@pytest.mark.long
def test_three_formats_in_a_row_name_nobody(run, store, tmp_path):
    for ending in ("html", "pdf", "xlsx"):
        path = tmp_path / f"pitch.{ending}"
        done = run("handout", "pitch", "--store", store, *ASKED, "--out", path,
                   fresh=ending == "html")  # fmt: skip
        assert (done.status, done.err) == (0, "")
        assert done.out == f"Written to {path}.\n"
    assert grepped(tmp_path) == []
    for path in tmp_path.iterdir():
        data = path.read_bytes()
        assert b"Quimbleworth" not in data
        assert b"anastasia" not in data
    text = (tmp_path / "pitch.html").read_text("utf-8")
    assert "seasonboard handout pitch --store … " in text
    assert "--price 85 --printers 2 --printer-hours 60" in text
    kept = list(store.with_name(f"{store.name}.handouts").iterdir())
    assert len(kept) == 3


@pytest.mark.long
def test_refusals_write_nothing_and_end_with_2(run, store, tmp_path):
    path = tmp_path / "a.html"
    common = ("handout", "pitch", "--store", store, "--out", path)
    for more, parts in (
        (("--threshold", "5"), ("without a reason",)),
        ((), ("below 11", "in pitch of", "--leave-out")),
        (("--purpose", "return"), ()),
    ):
        done = run(*common, *more)
        assert done.status == 2
        assert [part for part in parts if part not in done.err] == []
    assert list(tmp_path.iterdir()) == []


@pytest.mark.long
def test_neither_the_prospect_s_file_nor_a_department_is_named(run, sample_store, tmp_path):
    store = tmp_path / "s.duckdb"
    store.write_bytes(sample_store.read_bytes())
    teams = tmp_path / "Holenlund prospects.csv"
    teams.write_text("sport,sex,athletes,games,practices\nsoccer,women,26,20,60\n")
    path = tmp_path / "out.html"
    asked = ("--teams", teams, "--department", "LF,QM", "--kind", "shin", "--out", path)
    done = run("handout", "pitch", "--store", store, *asked)
    assert (done.status, done.err) == (0, "")
    text = path.read_text("utf-8")
    assert "--kind shin --teams … --department …" in text
    assert "2 departments served" in text
    for word in ("Lanternfield", "Quillmere", "Holenlund", "prospects.csv", str(tmp_path)):
        assert word not in text


def test_without_a_path_the_file_says_kind_and_day_alone():
    scope = Scope(date(2026, 11, 14), departments=("Lanternfield",))
    assert PITCH_HANDOUT.file_name(None, scope) == "pitch_2026-11-14.html"
