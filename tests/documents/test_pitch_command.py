"""`seasonboard release` and `seasonboard handout pitch`: what is written, and what is refused."""

import re
import zipfile
from datetime import date
from pathlib import Path

import pytest

from seasonboard.documents.kinds import PITCH_HANDOUT
from seasonboard.scope import Scope
from tests.intake.desk import SMALL_SEASON

PLAN = ("--printers", "2", "--printer-hours", "60", "--printer-per-print", "85")
ASKED = ("--kind", "shin", *PLAN, "--currency", "USD")
P03 = re.compile(rb"Holenlund|Melelenko|LF-0001|QM-0110|/home/|/Users/|/root/")


@pytest.fixture(scope="module")
def store(released, tmp_path_factory):
    """Give a store with a release under a name of an athlete, in a folder of its own."""
    path = tmp_path_factory.mktemp("anastasia") / "Quimbleworth_2026.duckdb"
    path.write_bytes(released.read_bytes())
    return path


@pytest.fixture(scope="module")
def small(run, tmp_path_factory):
    """Give the store of a small season."""
    folder = tmp_path_factory.mktemp("small")
    for table, text in SMALL_SEASON.items():
        (folder / f"{table}.csv").write_text(text)
    path = folder / "small.duckdb"
    assert run("load", folder, "--store", path, "--yes").status == 0
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
    assert "seasonboard handout pitch --store … --kind shin " in text
    assert "--printers 2 --printer-hours 60 --printer-per-print 85 --currency USD" in text


def test_without_a_release_nothing_is_written_and_it_says_how_to_make_one(run, small, tmp_path):
    done = run("handout", "pitch", "--store", small, "--out", tmp_path / "a.html")
    assert done.status == 2
    assert "Nothing was released yet" in done.err
    assert "seasonboard release --plan" in done.err
    assert list(tmp_path.iterdir()) == []


def test_a_kind_that_is_not_released_is_refused(run, store, tmp_path):
    asked = ("--kind", "ankle", "--out", tmp_path / "a.html")
    done = run("handout", "pitch", "--store", store, *asked)
    assert done.status == 2
    assert "no figures of “ankle” guards" in done.err
    assert list(tmp_path.iterdir()) == []


def test_a_release_is_shown_made_once_and_quoted_when_nothing_changed(run, small):
    shown = run("release", "--store", small, "--plan")
    assert shown.status == 0
    assert "Nothing was released." in shown.out
    assert "orders" in shown.out
    made = run("release", "--store", small, "--yes")
    assert "Released as R01." in made.out
    again = run("release", "--store", small, "--yes")
    assert "Released as R02." in again.out
    assert "as it was released on" in again.out


def test_an_agreement_needs_its_words_and_its_department(run, small):
    silent = run("release", "--store", small, "--agreed", "D1", "--plan")
    assert silent.status == 2
    assert "An agreement without its words is none." in silent.err
    strange = ("--agreed", "D9", "--agreement", "A letter.", "--plan")
    unknown = run("release", "--store", small, *strange)
    assert unknown.status == 2
    assert "D9" in unknown.err
    said = ("--agreed", "D1", "--agreement", "A letter of 2 February.", "--plan")
    assert run("release", "--store", small, *said).status == 0


def test_without_a_path_the_file_says_kind_and_day_alone():
    scope = Scope(date(2026, 11, 14), departments=("Lanternfield",))
    assert PITCH_HANDOUT.file_name(None, scope) == "pitch_2026-11-14.html"
