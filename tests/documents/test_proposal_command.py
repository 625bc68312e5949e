"""`seasonboard release` and `handout proposal`: what is written, and what is refused."""

import re
import zipfile
from datetime import date
from pathlib import Path

import pytest

from seasonboard.documents.kinds import PROPOSAL
from seasonboard.documents.proposal.options import (
    LETTERS,
    ProposalOptions,
    offer_template,
    read_offer,
    with_file,
)
from seasonboard.errors import IntakeError
from seasonboard.scope import Scope
from tests.intake.desk import SMALL_SEASON

ASKED = ("--kind", "shin", "--weekly-per-print", "85", "--currency", "USD", "--printers", "2")
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
        path = tmp_path / f"offer.{ending}"
        done = run("handout", "proposal", "--store", store, *ASKED, "--yes", "--out", path,
                   fresh=ending == "html")  # fmt: skip
        assert done.status == 0
        assert "It does not say from whom" in done.err
        assert done.out == f"Written to {path}.\n"
    assert grepped(tmp_path) == []
    for path in tmp_path.iterdir():
        data = path.read_bytes()
        assert b"Quimbleworth" not in data
        assert b"anastasia" not in data
    text = (tmp_path / "offer.html").read_text("utf-8")
    assert "seasonboard handout proposal --store … --kind shin " in text
    assert "--printers 2 --weekly-per-print 85 --currency USD" in text


def test_without_a_release_nothing_is_written_and_it_says_how_to_make_one(run, small, tmp_path):
    done = run("handout", "proposal", "--store", small, "--out", tmp_path / "a.html")
    assert done.status == 2
    assert "Nothing was released yet" in done.err
    assert "seasonboard release --plan" in done.err
    assert list(tmp_path.iterdir()) == []


def test_a_kind_that_is_not_released_is_refused(run, store, tmp_path):
    asked = ("--kind", "ankle", "--out", tmp_path / "a.html")
    done = run("handout", "proposal", "--store", store, *asked)
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
    assert PROPOSAL.file_name(None, scope) == "proposal_2026-11-14.html"


def test_what_it_lacks_is_told_and_asked_before_it_is_written(run, store, tmp_path):
    asked = ("handout", "proposal", "--store", store, "--out", tmp_path / "a.html")
    done = run(*asked, stdin="n\n")
    assert done.status == 2
    assert "It does not say from whom and for whom: --from, --for." in done.err
    assert "Nothing was written." in done.err
    assert list(tmp_path.iterdir()) == []


def test_it_is_shown_as_text_and_nothing_is_written(run, store, tmp_path):
    for kind, part in (("proposal", "TWO WAYS TO HAVE THEM MADE"), ("notes", "WHAT NOT TO CLAIM")):
        done = run("handout", kind, "--store", store, "--show", "--out", tmp_path / "a.html")
        assert (done.status, part in done.out) == (0, True)
    assert list(tmp_path.iterdir()) == []


def test_prices_without_a_currency_are_refused(run, store, tmp_path):
    asked = ("--weekly-per-print", "85", "--yes", "--out", tmp_path / "a.html")
    done = run("handout", "proposal", "--store", store, *asked)
    assert done.status == 2
    assert "currency" in done.err
    assert list(tmp_path.iterdir()) == []


def test_the_template_can_be_filled_in_and_what_is_typed_goes_before_it(tmp_path):
    filled = offer_template().replace('# from = ""', 'from = "Example Guards"')
    filled = filled.replace("# printers = 0", "printers = 2")
    filled = filled.replace("# valid_until", "valid_until").replace("# currency", "currency")
    path = tmp_path / "offer.toml"
    path.write_text(filled, "utf-8")
    asked = with_file(ProposalOptions(offer=read_offer(str(path)), printers=3))
    assert (asked.by, asked.printers, asked.valid_until) == (
        "Example Guards", 3, date(2027, 3, 31),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ("printer = 2", "Did you mean “printers”?"),
        ("from = 3", "is not a text; write it in quotes."),
        ('printers = "two"', "is not a whole number."),
        ("printers = 1.5", "is not a whole number."),
        ("scan_days = -1", "does not lie from 0 to 60."),
        ('valid_until = "soon"', "is not a day; write it as 2027-03-31."),
        (f'included = "{"x" * (LETTERS + 1)}"', f"is longer than {LETTERS} letters"),
        ("from = ", "is not TOML in UTF-8"),
    ],
)
def test_a_wrong_line_of_an_offer_is_told(tmp_path, line, part):
    path = tmp_path / "offer.toml"
    path.write_text(f"{line}\n", "utf-8")
    with pytest.raises(IntakeError, match="1 problem") as caught:
        read_offer(str(path))
    assert part in caught.value.problems[0].sentence()
    with pytest.raises(IntakeError):
        read_offer(str(tmp_path / "none.toml"))
