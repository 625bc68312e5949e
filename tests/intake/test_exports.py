"""Every table goes out as CSV, XLSX and Parquet, runs nowhere, and comes back as it was."""

import csv
from pathlib import Path

import openpyxl
import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.errors import StoreError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.saving.text import guarded as guarded_answer
from seasonboard.store.intake.cleaning import escaped, guarded, without_guard
from seasonboard.store.intake.export import (
    MOST_LETTERS,
    MOST_ROWS,
    export_path,
    export_tables,
    write_tables,
    write_workbook,
)
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import Store
from tests.intake.desk import SMALL_SEASON, Desk
from tests.intake.test_corrections import CORRECTED
from tests.reused import ReusedStore

FORMULAS = ['=HYPERLINK("http://127.0.0.1/x","open")', "@team", "+1 knee", "-pain", "=1+1", "'=1+1",
            "''@x", "-3", "+2.5", "＝1+1", "'＠x"]  # fmt: skip
LIVE = ["b;=1+1", "b; =1+1", 'b;"=1+1', "b|@x", "=1;=2", "b;'=1", "b;''=1", "'=1;'=2", "x\n=1+1",
        ";;=", "a;-5", "-5", "+5;6", "b;＝1", "plain; text", "it's; fine", "'", ";'"]  # fmt: skip
FORMATS = ("csv", "xlsx", "parquet")
ODD = [*FORMULAS, "007", "1e5", "1.10", "2026-01-02", "TRUE", "NA", "-", "null", "Total", "Sum 3",
       'said "no", twice', "a; b | c", "_x0041_", "http://127.0.0.1/x", "[bold]x[/]", "<b>&amp;",
       "李小龙 🏐 é", "{x} %s \\n"]  # fmt: skip
NUMBERS = ["0.1", "0.30000000000000004", "2.225", "0.05", "12", "3.3333333333333335"]


@pytest.fixture(scope="module")
def odd(tmp_path_factory: pytest.TempPathFactory) -> Store:
    """Return a store with every column of every table filled, odd texts and numbers among them."""
    texts = [*ODD, *(one for one in LIVE if not one.startswith("'=") and "\n" not in one)]
    frame = pl.DataFrame({"decision": texts, "text": texts}).with_columns(
        decided_on=pl.lit("2026-09-08")
    )
    rows = [f"N{nth},A1,wrist,left,preventive,{number}\n" for nth, number in enumerate(NUMBERS)]
    with ReusedStore() as store:
        desk = Desk(tmp_path_factory.mktemp("odd") / "desk", store)
        desk.season_with()
        desk.load()
        (desk.folder / "guards.csv").unlink()
        desk.load(**CORRECTED)
        desk.load(
            decisions=guarded(frame).write_csv(),
            guards="guard,athlete,kind,side,purpose,print_hours\n" + "".join(rows),
        )
        assert set(texts) <= set(export_tables(store)["decisions"]["text"])
        yield store


@pytest.mark.long
@pytest.mark.parametrize("how", FORMATS)
def test_an_export_changes_nothing_where_it_came_from_and_makes_the_same_store_anew(
    odd: Store, tmp_path: Path, how: str
) -> None:
    tables = {name: len(rows) for name, rows in export_tables(odd).items() if len(rows)}
    files = {one.file for one in write_tables(odd, tmp_path / "out", how)}
    assert len(files) == (1 if how == "xlsx" else len(tables))
    plan = plan_load(odd, [tmp_path / "out"])
    assert plan.is_empty
    assert {one.table: one.same for one in plan.tables} == tables
    with ReusedStore() as other:
        write_load(other, plan_load(other, [tmp_path / "out"]))
        again = export_tables(other)
        for name, frame in export_tables(odd).items():
            assert again[name].rows() == frame.rows(), name


def test_no_cell_of_a_workbook_is_a_formula_and_numbers_are_numbers(odd, tmp_path) -> None:
    """Read with openpyxl, which gives formulas the type `f`, text `s`, numbers `n`."""
    (file,) = {one.file for one in write_tables(odd, tmp_path / "out", "xlsx")}
    book = openpyxl.load_workbook(file)
    kinds = {cell.data_type for sheet in book for row in sheet.iter_rows() for cell in row}
    assert kinds <= {"s", "n"}
    assert not any(cell.hyperlink for row in book["decisions"].iter_rows() for cell in row)
    shown = {row[3].value for row in book["decisions"].iter_rows(min_row=2)}
    assert {'=HYPERLINK("http://127.0.0.1/x","open")', "@team", "-3", "007", "Total"} <= shown
    hours = {row[13].value for row in book["guards"].iter_rows(min_row=2)}
    assert {0.1, 2.225, 12, "0.30000000000000004"} <= hours
    days = {row[1].value for row in book["decisions"].iter_rows(min_row=2)}
    assert days == {"2026-09-08", "2026-09-09"}


def test_no_cell_of_a_csv_begins_like_a_formula(odd: Store, tmp_path: Path) -> None:
    """Read with Python's csv; signed numbers such as -3 are what they look like."""
    for one in write_tables(odd, tmp_path / "out", "csv"):
        with one.file.open(newline="", encoding="utf-8") as lines:
            cells = [cell for row in csv.reader(lines) for cell in row]
        live = [cell for cell in cells if cell[:1] in {"=", "@", "\t", "\r"}]
        live += [
            cell for cell in cells if cell[:1] in {"+", "-"} and cell[1:].strip("0123456789.") != ""
        ]
        assert live in ([], ["-", "-"]), one.table


@pytest.mark.parametrize("how", FORMATS)
def test_what_would_steer_a_terminal_never_leaves_the_store(tmp_path: Path, how: str) -> None:
    """Intake takes such characters out; a store with them, however it came, spreads none."""
    with ReusedStore() as store:
        store._connection.execute(
            "INSERT INTO store.decisions (decision, decided_on, text, load_no) "
            "VALUES ('D', DATE '2026-09-08', $1, 0)",
            ["\x1b]52;c;x\x07a\x9b31mb\u202ec\x00d\u2028e\nf\tg\rh\u200b"],
        )
        write_tables(store, tmp_path / "out", how)
        plan = plan_load(store, [tmp_path / "out"])
        assert plan.notes == ()
        (decision,) = plan.rows["decisions"].rows(named=True)
        assert decision["text"] == "]52;c;xa31mbcde\nf g\nh"


def test_a_table_that_no_sheet_can_hold_is_refused(tmp_path: Path) -> None:
    rows = pl.DataFrame({"a": pl.repeat("x", MOST_ROWS + 1, eager=True)})
    with pytest.raises(StoreError, match="1,048,576 rows, more than a workbook takes"):
        write_workbook({"wear": rows}, tmp_path / "out.xlsx")
    for text in ("x" * (MOST_LETTERS + 1), "🏐" * (MOST_LETTERS // 2 + 1)):
        with pytest.raises(StoreError, match="wear, a has a longer text"):
            write_workbook({"wear": pl.DataFrame({"a": [text]})}, tmp_path / "out.xlsx")
    longest = pl.DataFrame({"a": ["x" * MOST_LETTERS]})
    write_workbook({"wear": longest}, tmp_path / "out.xlsx")
    cell = openpyxl.load_workbook(tmp_path / "out.xlsx")["wear"]["A2"].value
    assert cell == longest["a"][0]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("made")
    for name in ("departments", "teams"):
        (folder / f"{name}.csv").write_text(SMALL_SEASON[name])
    load_paths(folder / "season.duckdb", [folder], UnattendedLoad())
    return folder / "season.duckdb"


def names(folder: Path) -> list[str]:
    return sorted(one.name for one in folder.iterdir())


def test_an_export_says_what_it_wrote(made: Path, tmp_path: Path) -> None:
    written = export_path(made, tmp_path / "out")
    assert [(one.table, one.rows, one.file.name) for one in written] == [
        ("kinds", 14, "kinds.csv"),
        ("departments", 2, "departments.csv"),
        ("teams", 2, "teams.csv"),
    ]
    assert names(tmp_path) == ["out"]


def test_a_folder_that_holds_something_is_left_alone(made: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    export_path(made, out)
    with pytest.raises(StoreError, match="already holds tables; nothing was written"):
        export_path(made, out, "parquet")
    assert names(out) == ["departments.csv", "kinds.csv", "teams.csv"]
    export_path(made, out, "parquet", force=True)
    assert names(out) == ["departments.parquet", "kinds.parquet", "teams.parquet"]
    (out / "diary.txt").write_text("mine")
    with pytest.raises(StoreError, match=r"holds diary\.txt, which is no table"):
        export_path(made, out, force=True)
    assert names(out)[1] == "diary.txt"
    assert names(tmp_path) == ["out"]


def test_a_place_that_cannot_be_is_told(made: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(StoreError, match="is a file"):
        export_path(made, tmp_path / "file")
    with pytest.raises(StoreError, match="does not exist"):
        export_path(made, tmp_path / "no" / "where")
    with pytest.raises(StoreError, match="no store at"):
        export_path(tmp_path / "none.duckdb", tmp_path / "out")
    assert names(tmp_path) == ["file"]


def test_an_export_that_fails_leaves_the_earlier_one(made, tmp_path, monkeypatch) -> None:
    export_path(made, tmp_path / "out")
    before = {one.name: one.read_bytes() for one in (tmp_path / "out").iterdir()}

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(pl.DataFrame, "write_csv", full)
    with pytest.raises(StoreError, match="No space left on device; nothing was changed"):
        export_path(made, tmp_path / "out", force=True)
    assert {one.name: one.read_bytes() for one in (tmp_path / "out").iterdir()} == before
    assert names(tmp_path) == ["out"]


@pytest.mark.parametrize("text", LIVE)
def test_no_spreadsheet_runs_an_exported_cell_in_any_country(text: str) -> None:
    written = guarded(pl.DataFrame({"note": [text]}))
    cell = written.item()
    for sign in ";|\t\n":
        for part in cell.split(sign):
            bare = part.strip(' "')
            is_number = text == "-5"
            assert is_number or not bare.startswith(("=", "+", "-", "@", "＝")), cell
    assert without_guard(written).item() == text
    assert without_guard(escaped(pl.DataFrame({"note": [text]}))).item() == text


@settings(max_examples=200)
@given(text=st.text(st.sampled_from("'=+-@1.a ,＝＠"), min_size=1))
def test_what_is_guarded_is_given_back_letter_for_letter(text: str) -> None:
    frame = pl.DataFrame({"text": [text]})
    safe = guarded(frame)
    assert without_guard(safe).equals(frame)
    number = text.lstrip("+-").replace(",", ".", 1).replace(".", "", 1).isdigit()
    assert safe["text"][0][0] not in "=@"
    assert safe["text"][0][0] not in "+-" or number


@pytest.mark.parametrize("text", ["-3", "-2.5", "+4", "O'Brien", "'s-Gravenhage", "a=b"])
def test_numbers_and_plain_text_stay_as_they_are(text: str) -> None:
    frame = pl.DataFrame({"text": [text]})
    assert guarded(frame).equals(frame)


def test_an_answer_saved_as_csv_is_guarded_alike() -> None:
    assert guarded_answer("b;=1+1") == "b;'=1+1"
    assert guarded_answer("3; 4") == "3; 4"
