"""What is shown can be copied and saved: whole, typed, harmless, and saying what it is."""

import csv
import io
import re
import zipfile
from datetime import date, datetime
from unittest.mock import Mock
from xml.etree import ElementTree as ET

import openpyxl
import polars as pl
import pytest
from textual.widgets import Input, OptionList

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.saving import files
from seasonboard.ui.layout.blocks import Opens, What
from seasonboard.ui.saving.offers import PAGE_CHOICES, save_choices
from seasonboard.ui.windows.chooser import Chooser
from seasonboard.ui.windows.rows import PAGE
from seasonboard.ui.windows.value_entry import EntryScreen
from tests.ui.board import LARGE, press, settle, text, until, words
from tests.ui.covered import TELLING
from tests.ui.test_curtain import answered, open_rows, shown

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    """Propose files in a folder of the test's own."""
    monkeypatch.setattr(files, "_folder", lambda: tmp_path)
    return tmp_path


async def choose(pilot, word):
    """Take the line of the window in sight that has a word in it."""
    assert isinstance(pilot.app.screen, Chooser), text(pilot)
    lines = [str(o.prompt) for o in pilot.app.screen.query_one(OptionList).options]
    (place,) = [n for n, line in enumerate(lines) if word in line]
    pilot.app.screen.query_one(OptionList).highlighted = place
    await press(pilot, "enter")


async def told(pilot):
    """Wait for the sentence on what was saved, and return it."""
    await until(pilot, lambda: any(_is_told(n) for n in pilot.app._notifications))
    found = [n.message for n in pilot.app._notifications if _is_told(n)][-1]
    pilot.app.clear_notifications()
    return found


def _is_told(notice):
    return notice.message.startswith(("Saved", "Copied")) or notice.severity == "error"


async def saved(pilot, word, which=None):
    """Save in one way at the place that is proposed; return what was said and the file."""
    await press(pilot, "e")
    await choose(pilot, word)
    if which:
        await choose(pilot, which)
    assert isinstance(pilot.app.screen, EntryScreen), text(pilot)
    path = pilot.app.screen.query_one("#value", Input).value
    await press(pilot, "enter")
    return await told(pilot), files.Path(path)


@pytest.mark.long
@pytest.mark.parametrize("board", WITH_SCREENS, ids=[board.name for board in WITH_SCREENS])
async def test_covered_nothing_that_is_copied_or_saved_names_anybody(season, board, folder):
    async with shown(season, size=LARGE, screen=board.name) as pilot:
        offer = pilot.app.screen.offer()
        many, apart = len(save_choices(offer)), set()
        assert many == len(PAGE_CHOICES) + len(offer.extra_files)
        for way in save_choices(offer):
            word = f"{offer.word} {way.name}"
            path = files.proposed(offer.department, offer.about.through, word, way.ending)
            if offer.extra_file(way):
                apart.add(path)
            pilot.app.screen._give(offer, way, path if way.ending else None)
            assert (await told(pilot)).startswith("Saved" if way.ending else "Copied")
        assert pilot.app.clipboard
        assert not TELLING.search(pilot.app.clipboard)
    kept = sorted(folder.iterdir())
    assert len(kept) == many  # a copy is no file, CSV is two
    for path in kept:
        assert path.name.startswith("Lanternfield-College_2026-11-13_"), path
        assert not TELLING.search(_all_text(path)), path
        if path in apart:
            assert "curtain is down" in _all_text(path) or path.suffix == ".csv"
        else:
            covered = "names, jerseys and free text are covered"
            assert covered in _all_text(path) or path.suffix == ".csv"


def _all_text(path):
    """Return everything that is written in a file, its hidden parts and properties too."""
    if path.suffix == ".xlsx":
        with zipfile.ZipFile(path) as parts:
            return "\n".join(parts.read(name).decode() for name in parts.namelist())
    if path.suffix == ".parquet":
        return f"{pl.read_parquet(path).to_dicts()} {pl.read_parquet_metadata(path)}"
    if path.suffix == ".pdf":
        from pypdf import PdfReader

        pages = " ".join(page.extract_text() for page in PdfReader(path).pages)
        return " ".join(f"{pages} {PdfReader(path).metadata}".split())
    return path.read_text("utf-8")


@pytest.mark.long
async def test_all_rows_are_saved_as_found_and_sorted_in_every_form(season):
    async with shown(season, down=False, screen="orders") as pilot:
        await open_rows(pilot, lambda opens: opens == Opens(What.ORDERS))
        await press(pilot, "o", "O", "slash")
        pilot.app.screen.query_one("#find", Input).value = "shin"
        await until(pilot, lambda: "found" in text(pilot))
        await settle(pilot)
        await press(pilot, "enter")
        screen = pilot.app.screen
        matching, heads = screen._rows.matching, [c.heading for c in screen._rows.columns]
        guards = [row[0] for row in screen._rows.rows]
        assert guards == sorted(guards, reverse=True)
        which = "all" if matching > PAGE else None
        summary, path = await saved(pilot, "CSV", which)
        assert f"{matching} rows, found with “shin” among" in summary
        assert "sorted by guard" in summary
        assert str(path) in summary
        lines = list(csv.reader(io.StringIO(path.read_text("utf-8-sig"))))
        assert lines[0] == heads
        assert len(lines) == matching + 1
        assert [line[0] for line in lines[1 : len(guards) + 1]] == guards
        about = path.with_name(f"{path.stem}.about.txt").read_text()
        for part in ("Lanternfield College", "through: 2026-11-13", "saved by: seasonboard"):
            assert part in about
        assert "curtain: up: names are shown" in about
        _, book = await saved(pilot, "XLSX", which)
        sheet, told_sheet = openpyxl.load_workbook(book).worksheets
        assert (sheet.max_row, told_sheet.title) == (matching + 1, "about")
        requested = heads.index("requested") + 1
        assert isinstance(sheet.cell(2, requested).value, datetime)
        properties = openpyxl.load_workbook(book).properties
        assert not properties.creator
        assert not properties.lastModifiedBy
        _, parquet = await saved(pilot, "Parquet", which)
        frame = pl.read_parquet(parquet)
        assert (frame.columns, frame.height) == (heads, matching)
        assert frame["requested"].dtype == pl.Datetime


@pytest.mark.long
async def test_rows_that_are_cut_are_asked_about(season):
    async with shown(season, down=False, screen="orders") as pilot:
        pilot.app.scope = pilot.app.answer_source.opening_scope()
        await answered(pilot)
        await open_rows(pilot, lambda opens: opens == Opens(What.ORDERS))
        whole = pilot.app.screen._rows.matching
        assert whole > PAGE
        summary, path = await saved(pilot, "CSV", "only the")
        assert f"{PAGE} rows of {whole}" in summary
        assert len(path.read_text("utf-8-sig").splitlines()) == PAGE + 1
        await press(pilot, "e")
        await choose(pilot, "copy the table")
        await choose(pilot, "all")
        assert f"{whole} rows" in await told(pilot)
        assert len(pilot.app.clipboard.splitlines()) == whole + 1


@pytest.mark.long
async def test_days_are_dates_and_figures_are_unrounded(season):
    async with shown(season, down=False, screen="departments") as pilot:
        _, book = await saved(pilot, "XLSX")
        sheet = openpyxl.load_workbook(book).worksheets[0]
        row = {c.value: sheet.cell(2, n + 1).value for n, c in enumerate(sheet[1])}
        (shown_row,) = pilot.app.screen.answer.departments
        assert row["median days"] == pytest.approx(shown_row.turnaround.value, rel=1e-12)
        assert row["ready for game"] == pytest.approx(shown_row.ready.value, rel=1e-12)
        await press(pilot, "2")
        await answered(pilot)
        await open_rows(pilot, lambda opens: opens.what is What.ATHLETE)
        _, path = await saved(pilot, "XLSX")
        assert "Quagmire" not in path.name
        assert "zq" not in path.name
        day = openpyxl.load_workbook(path).worksheets[0].cell(2, 1).value
        assert isinstance(day, date)


@pytest.mark.long
@pytest.mark.parametrize("screen", ["compare", "games", "roster"])
async def test_a_picture_is_a_drawing_that_needs_nothing_from_elsewhere(season, screen):
    async with shown(season, down=True, screen=screen) as pilot:
        _, path = await saved(pilot, "SVG")
        told = path.read_text("utf-8")
        root = ET.fromstring(told)
        assert root.find(f"{SVG}title").text == pilot.app.screen.QUESTION.asks
        assert "through: 2026-11-13" in root.find(f"{SVG}desc").text
        assert not re.search(r"url\(|href|@font-face|<script|<image", told)
        drawn = "".join(one.text for one in root.iter(f"{SVG}text"))
        _, plain = await saved(pilot, "picture as text")
        picture = plain.read_text("utf-8").split("\nquestion:")[0]
        assert "".join(picture.split()) == "".join(drawn.split())
        assert len(picture.splitlines()) > 3


@pytest.mark.long
async def test_an_earlier_file_is_only_replaced_when_it_is_wished(season):
    async with shown(season, down=False, screen="roster") as pilot:
        _, path = await saved(pilot, "whole page")
        path.write_text("mine")
        for answer, kept in (("keep", True), ("replace", False)):
            await press(pilot, "e")
            await choose(pilot, "whole page")
            await press(pilot, "enter")
            await choose(pilot, answer)
            if not kept:
                assert "Saved" in await told(pilot)
            assert (path.read_text() == "mine") is kept
        assert not list(path.parent.glob(".*"))


@pytest.mark.long
async def test_a_place_that_cannot_be_is_said_where_it_is_typed(season, folder):
    wrong_places = {"": "No file is named", str(folder): "is a folder", "/no/x": "does not exist"}
    wrong_ending = {str(folder / "sheet.docx"): "Expected one of .html, .pdf, .xlsx"}
    async with shown(season, down=False) as pilot:
        for line, wrong, name, file in (
            ("CSV", wrong_places, "mine", "mine.csv"),
            ("as a page", wrong_ending, "sheet.pdf", "sheet.pdf"),
        ):
            await press(pilot, "e")
            await choose(pilot, line)
            value = pilot.app.screen.query_one("#value", Input)
            for typed, part in wrong.items():
                value.value = typed
                await press(pilot, "enter")
                assert isinstance(pilot.app.screen, EntryScreen)
                assert part in words(pilot)
            value.value = str(folder / name)
            await press(pilot, "enter")
            assert file in await told(pilot)
    assert (folder / "mine.csv").exists()
    assert (folder / "sheet.pdf").read_bytes().startswith(b"%PDF")


async def test_what_cannot_be_written_is_told_and_leaves_nothing(season, folder, monkeypatch):
    monkeypatch.setattr("os.fsync", Mock(side_effect=OSError(28, "No space left on device")))
    async with shown(season, down=False, screen="roster") as pilot:
        summary, path = await saved(pilot, "XLSX")
        assert "could not be written: No space left on device" in summary
        assert str(path) in summary
    assert list(folder.iterdir()) == []


async def test_a_curtain_that_moves_while_something_is_made_stops_the_saving(season, folder):
    async with shown(season, down=False) as pilot:
        offer = pilot.app.screen.offer()
        pilot.app.answer_source.cover(is_down=True)
        pilot.app.screen._give(offer, offer.extra_files[0].choice, folder / "late.html")
        assert "The curtain was moved" in await told(pilot)
        pilot.app.answer_source.cover(is_down=False)
        await open_rows(pilot, lambda opens: opens.what is What.WEEK)
        offer = pilot.app.screen.offer()
        assert not offer.extra_files, "rows offer no document of the page below"
        pilot.app.answer_source.cover(is_down=True)
        (way,) = [one for one in PAGE_CHOICES if one.name == "csv"]
        pilot.app.screen._give(offer, way, folder / "late.csv")
        assert "The curtain was moved" in await told(pilot)
    assert list(folder.iterdir()) == []


@pytest.mark.long
async def test_the_weekly_sheet_is_saved_from_week_and_is_that_of_the_command(season):
    async with shown(season, down=False, screen="week") as pilot:
        for line, ending, starts in (
            ("as a page", ".html", b"<!doctype html>"),
            ("PDF, letter", ".pdf", b"%pdf"),
            ("as a workbook", ".xlsx", b"pk"),
        ):
            summary, path = await saved(pilot, line)
            assert summary.startswith("Saved: the weekly sheet")
            assert path.name == f"Lanternfield-College_2026-11-13_weekly-sheet{ending}"
            assert path.read_bytes().lower().startswith(starts)
            written = _all_text(path)
            assert TELLING.search(written), "without the curtain it names people"
            assert "seasonboard handout week" in written
            assert ("--paper letter" in written) is ("letter" in line)
        path.write_text("mine")
        await press(pilot, "e")
        await choose(pilot, "as a workbook")
        await press(pilot, "enter")
        await choose(pilot, "keep")
        assert path.read_text() == "mine"
