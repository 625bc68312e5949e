"""The workbook is typed, holds every table, runs nothing and names nobody; openpyxl opens it."""

import io
import re
import zipfile
from datetime import datetime

import openpyxl
import pytest

from seasonboard.documents.model import Column, Table
from seasonboard.documents.writers.xlsx import _name, as_workbook
from tests.documents.conftest import CLEAN, HOSTILE


def opened(document):
    return openpyxl.load_workbook(io.BytesIO(as_workbook(document)))


@pytest.fixture(scope="module")
def book(sheet):
    return opened(sheet)


def test_there_is_a_sheet_for_each_table_and_none_is_hidden(book, sheet):
    assert book.sheetnames[0] == "about"
    assert len(book.sheetnames) == 1 + len(list(sheet.tables()))
    assert {s.sheet_state for s in book} == {"visible"}
    for one in book:
        assert not any(d.hidden for d in one.column_dimensions.values())
        assert not any(d.hidden for d in one.row_dimensions.values())


def test_cells_are_typed_and_unrounded(book, sheet):
    for table, name in zip(sheet.tables(), book.sheetnames[1:], strict=True):
        rows = list(book[name].iter_rows(min_row=3, max_row=2 + len(table.rows), values_only=True))
        assert len(rows) == len(table.rows)
        for given, found in zip(table.rows, rows, strict=True):
            for wanted, cell in zip(given, found, strict=False):
                if isinstance(wanted, bool):
                    assert cell == ("yes" if wanted else "no")
                elif isinstance(wanted, int | float):
                    assert cell == pytest.approx(wanted, rel=1e-15), (name, wanted)
                elif isinstance(wanted, datetime):  # a workbook has no time zones
                    assert cell == wanted.replace(tzinfo=None)
                elif hasattr(wanted, "isoformat"):
                    assert cell.isoformat() == f"{wanted}T00:00:00"
                else:
                    assert (cell or "") == (wanted or "")


def test_properties_name_nobody_and_the_same_document_gives_the_same_bytes(book, sheet):
    found = book.properties
    assert not found.creator
    assert not found.lastModifiedBy
    assert found.created.isoformat() == "2026-11-20T00:00:00"
    assert as_workbook(sheet) == as_workbook(sheet)
    with zipfile.ZipFile(io.BytesIO(as_workbook(sheet))) as parts:
        everything = b"".join(parts.read(name) for name in parts.namelist())
    assert not re.search(rb"/home/|/Users/|/tmp/", everything)


def test_hostile_text_is_text_and_no_formula(hostile):
    book = opened(hostile)
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value]
    assert "f" not in {cell.data_type for cell in cells}
    values = {cell.value for cell in cells}
    assert {*HOSTILE, CLEAN} <= values


def test_names_of_sheets_are_what_a_workbook_takes():
    taken = {"about", "history"}
    wanted = ("About", "History", "a/b:c*[d]?", "x" * 40, "x" * 40, "", "'quoted'", "\u202e")
    for one in wanted:
        name = _name(one, taken)
        taken.add(name.casefold())
        assert 0 < len(name) <= 31
        assert not re.search(r"[\[\]:*?/\\]", name)
        assert name[0] != "'" != name[-1]
    assert len(taken) == 2 + len(wanted)


def test_a_row_that_does_not_fit_is_refused():
    with pytest.raises(ValueError, match="more or fewer"):
        Table("t", "t", (Column("a"),), ((1, 2),))
