"""`seasonboard handout week`: where a file goes, and what is refused."""

from contextlib import nullcontext
from types import SimpleNamespace

import pytest
from click.testing import CliRunner

from seasonboard.cli.main import cli
from seasonboard.documents.destination import read_destination
from seasonboard.saving.files import SavingError


@pytest.mark.long
def test_each_ending_makes_its_kind_of_file(run, sample_store, tmp_path):
    starts = {".html": b"<!DOCTYPE html>", ".pdf": b"%PDF-", ".xlsx": b"PK"}
    asked = ("handout", "week", "--store", sample_store, "--department", "QM")
    for ending, start in starts.items():
        path = tmp_path / f"sheet{ending}"
        done = run(*asked, "--out", path, fresh=ending == ".html")
        assert (done.status, done.err) == (0, "")
        assert done.out == f"Written to {path}.\n"
        assert path.read_bytes().startswith(start)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["sheet.html", "sheet.pdf", "sheet.xlsx"]


@pytest.mark.parametrize(
    ("name", "what", "do"),
    [
        ("a.docx", "cannot be written as “.docx”", "Expected one of .html, .pdf, .xlsx"),
        ("a.xls", "cannot be written as “.xls”", "Did you mean “a.xlsx”?"),
        ("a", "has no ending", "End it with one of .html, .pdf, .xlsx"),
        ("none/a.html", "does not exist", "Make it, or name another one"),
        ("there.html", "is there already; nothing was written", "--force"),
        (".", "is a folder", "Name a file in it"),
    ],
)
def test_a_place_that_cannot_be_is_told(tmp_path, name, what, do):
    (tmp_path / "there.html").write_text("mine")
    with pytest.raises(SavingError) as caught:
        read_destination(tmp_path / name, "", may_replace=False)
    assert what in caught.value.what
    assert do in caught.value.hint
    with pytest.raises(SavingError, match="no ending"):
        read_destination(None, ".html", may_replace=False)  # a hidden file


@pytest.mark.long
def test_a_file_that_is_there_gives_way_to_force_alone(run, sample_store, tmp_path):
    path = tmp_path / "there.HTML"
    path.write_text("mine")
    asked = ("handout", "week", "--store", sample_store, "--department", "QM", "--out", path)
    assert run(*asked).status == 2
    assert run(*asked, "--force", "--curtain").status == 0
    assert "The curtain is down" in path.read_text("utf-8")
    assert [p.name for p in tmp_path.iterdir()] == ["there.HTML"]


def test_without_a_name_the_file_says_kind_department_and_day(board, tmp_path, monkeypatch):
    tools = SimpleNamespace(open_sample=lambda: nullcontext(board))
    monkeypatch.chdir(tmp_path)
    words = ["handout", "week", "--sample", "--department", "QM", "--through", "2026-11-14"]
    done = CliRunner().invoke(cli, words, obj={"tools": tools})
    assert done.exit_code == 0, done.output
    assert [p.name for p in tmp_path.iterdir()] == ["week_Quillmere-State_2026-11-14.html"]


@pytest.mark.parametrize(
    ("kind", "file", "more", "part"),
    [
        ("weak", "a.html", (), "Did you mean “week”?"),
        ("week", "a.docx", (), "“.docx”"),
        ("week", "a.html", ("--since", "yesterday"), "not a date"),
        ("week", "a.html", ("--since", "2030-01-01"), "does not lie before"),
    ],
)
def test_a_wrong_request_is_told(run, sample_store, tmp_path, kind, file, more, part):
    store = sample_store if more else tmp_path / "no.duckdb"  # told before the store is asked
    done = run("handout", kind, "--store", store, "--out", tmp_path / file, *more)
    assert done.status == 2
    assert part in done.err
    assert "no.duckdb" not in done.err
    assert not list(tmp_path.iterdir())
