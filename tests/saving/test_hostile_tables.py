"""Whatever stands in a table: saved files hold the words, and nothing in them runs or steers."""

import csv
import io
import unicodedata
import zipfile
from datetime import date, datetime

import openpyxl
import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.text import Text

from seasonboard.answers.rows import Column, Rows
from seasonboard.errors import SeasonboardError
from seasonboard.saving import files, tables
from seasonboard.saving.about import About
from seasonboard.saving.pictures import Run, as_svg, as_text
from seasonboard.saving.text import guarded, harmless
from seasonboard.ui.layout.styled_runs import styled_runs

ABOUT = About("Who?", "", "all", date(2026, 11, 13), date(2026, 11, 14), is_covered=True)
HOSTILE = (
    *("=1+1", "'=1+1", " =cmd|' /C calc'!A0", "+44", "-5", "@SUM(A1)", "\uff1d1", "\t=1"),
    *("\x1b]52;c;cm0gLXJm\x07Ana", "\x9b31mBo", "Cy\u202enarT", "Di\nFox", "Ed\rIto"),
    *("Gu\x00y", "A\u2028B", "\ud800x", "\ufffe", "[/]", "</text><script>"),
    *("http://a.example", "مريم", "👩\u200d🦰", "1e5", "00417", "2026-02-30"),
)
STEERING = {"Cc", "Cf", "Cs", "Zl", "Zp"}
ANYTHING = st.text(st.characters(codec=None), max_size=30) | st.sampled_from(HOSTILE)


def table(*columns, names=None):
    heads = names or [f"c{n}" for n in range(len(columns))]
    made = tuple(Column(f"k{n}", head) for n, head in enumerate(heads))
    rows = tuple(zip(*columns, strict=True))
    return Rows("A table", made, rows, len(rows), len(rows))


def steering(text):
    return {c for c in text if unicodedata.category(c) in STEERING} - {"\u200c", "\u200d"}


@given(ANYTHING)
def test_harmless_text_holds_no_code_and_is_one_line(raw):
    assert not steering(harmless(raw))
    assert harmless(harmless(raw)) == harmless(raw)
    harmless(raw).encode()


@given(ANYTHING)
def test_guarded_text_never_begins_like_a_formula(raw):
    shown = guarded(raw)
    if shown[:1] in set("=+-@\uff1d\uff0b\uff0d\uff20"):
        float(shown.replace(",", "."))  # a plain signed number


@given(st.lists(ANYTHING, min_size=1, max_size=6))
@settings(max_examples=60)
def test_what_is_pasted_has_the_rows_and_columns_it_should_and_no_codes(cells):
    told = tables.as_tsv(table(cells, list(range(len(cells)))))
    assert not steering(told.replace("\t", "").replace("\n", ""))
    lines = list(csv.reader(io.StringIO(told), delimiter="\t"))
    assert len(lines) == len(cells) + 1
    assert all(len(line) == 2 for line in lines)


@given(st.lists(ANYTHING, min_size=1, max_size=5), ANYTHING)
@settings(max_examples=25)
def test_files_give_the_words_back(cells, heading):
    cells = [*cells, "a word"]  # not all dates, nor all figures
    rows = table(cells, names=[heading])
    wanted = [harmless(cell) for cell in cells]
    frame = pl.read_parquet(io.BytesIO(tables.as_parquet(rows, ABOUT)))
    assert frame.to_series().to_list() == wanted
    lines = list(csv.reader(io.StringIO(tables.as_csv(rows, ABOUT).decode("utf-8-sig"))))
    assert [line[0] if line else "" for line in lines[1:]] == [guarded(cell) for cell in cells]
    sheet = openpyxl.load_workbook(io.BytesIO(tables.as_xlsx(rows, ABOUT))).worksheets[0]
    found = [sheet.cell(n + 2, 1) for n in range(len(cells))]
    assert [cell.value or "" for cell in found] == wanted
    assert not [cell for cell in found if cell.data_type == "f" or cell.hyperlink]


def test_a_workbook_runs_nothing_and_says_nothing_of_who_made_it():
    made = tables.as_xlsx(table(list(HOSTILE)), ABOUT)
    with zipfile.ZipFile(io.BytesIO(made)) as parts:
        for name in parts.namelist():
            told = parts.read(name).decode()
            assert "<f>" not in told
            assert "<hyperlink" not in told
            assert "hidden" not in told
        core = parts.read("docProps/core.xml").decode()
    assert "<dc:creator></dc:creator>" in core
    assert "<cp:lastModifiedBy></cp:lastModifiedBy>" in core


def test_figures_stay_unrounded_and_days_are_days():
    heads = ("figure", "day", "at", "days lost", "code", "figure", "some")
    numbers = {"a", "d", "g"}
    columns = tuple(
        Column(k, h, is_number=k in numbers) for k, h in zip("abcdefg", heads, strict=True)
    )
    cells = (
        (1 / 3, "2026-09-01", "2026-09-01 18:30", "7", "00417", None, "3"),
        (None, None, None, "12", "00420", None, "12+"),
    )
    rows = Rows("A table", columns, cells, 2, 2)
    sheet = openpyxl.load_workbook(io.BytesIO(tables.as_xlsx(rows, ABOUT))).worksheets[0]
    day, at = map(datetime.fromisoformat, ("2026-09-01", "2026-09-01 18:30"))
    third = pytest.approx(1 / 3, rel=1e-15)
    assert [cell.value for cell in sheet[2]] == [third, day, at, 7, "00417", None, "3"]
    frame = pl.read_parquet(io.BytesIO(tables.as_parquet(rows, ABOUT)))
    assert frame.columns[-2] == "figure 2"
    kinds = [pl.Float64, pl.Date, pl.Datetime("us"), pl.Int64, pl.String]
    assert frame.dtypes[:5] == kinds
    assert frame.row(0)[0] == 1 / 3


def test_a_table_without_rows_keeps_its_headings():
    rows = Rows("A table", (Column("a", "athlete"), Column("b", "n", is_number=True)), (), 0, 0)
    assert tables.as_tsv(rows) == "athlete\tn\n"
    assert pl.read_parquet(io.BytesIO(tables.as_parquet(rows, ABOUT))).columns == ["athlete", "n"]
    book = openpyxl.load_workbook(io.BytesIO(tables.as_xlsx(rows, ABOUT)))
    assert [cell.value for cell in book.worksheets[0][1]] == ["athlete", "n"]


def test_what_a_workbook_cannot_hold_is_refused():
    with pytest.raises(SeasonboardError, match="more than a workbook takes"):
        tables.as_xlsx(table(["x" * 32_768]), ABOUT)


@given(st.lists(ANYTHING, max_size=4))
@settings(max_examples=40)
def test_a_drawing_is_well_formed_whatever_is_in_it(texts):
    from xml.etree import ElementTree as ET

    lines = [[Run(text, 0, max(1, len(text)))] for text in texts]
    about = About("".join(texts), "", "all", date(2026, 1, 1), date(2026, 1, 1), is_covered=False)
    root = ET.fromstring(as_svg(lines, about, colour="#000000", ground="#ffffff"))
    assert {one.tag.partition("}")[2] for one in root.iter()} <= {
        *("svg", "title", "desc", "rect", "g", "text")
    }


def test_pieces_of_a_line_stand_in_their_cells():
    line = Text("  李小龙  a b   ").append("■", "bold #ff0000 on #00ff00")
    assert styled_runs(line) == [
        Run("李小龙", 2, 6),
        Run("a b", 10, 3),
        Run("", 16, 1, ground="#00ff00"),
        Run("■", 16, 1, "#ff0000", is_bold=True),
    ]


def test_lines_of_text_keep_their_columns():
    told = as_text(["  a   ■", "", "\x1b[31m b"], ABOUT).decode()
    assert told.startswith("  a   ■\n\n[31m b\n\nquestion: Who?\n")


@pytest.mark.parametrize(
    ("department", "name"),
    [
        ("Lanternfield College", "Lanternfield-College_2026-11-13_roster.csv"),
        ("../../etc: “Ö/ü”\n", "etc-Ö-ü_2026-11-13_roster.csv"),
        ("", "2026-11-13_roster.csv"),
        ("x" * 300, f"{'x' * 60}_2026-11-13_roster.csv"),
    ],
)
def test_a_proposed_name_is_one_file_in_the_folder(department, name, monkeypatch, tmp_path):
    monkeypatch.setattr(files, "_folder", lambda: tmp_path)
    assert files.proposed(department, date(2026, 11, 13), "roster", ".csv") == tmp_path / name
