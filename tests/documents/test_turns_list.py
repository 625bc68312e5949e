"""The list of drawn turns for the shop holds what `ask turns` holds, in every form."""

import io

import openpyxl
import pytest

from seasonboard.answers.questions import TURNS
from seasonboard.answers.source import AnswerSource
from seasonboard.documents.origin import Making
from seasonboard.documents.turns.document import turns_list
from seasonboard.documents.writers.html import as_html
from seasonboard.documents.writers.xlsx import as_workbook
from seasonboard.scope import read_scope
from tests.documents.conftest import HOSTILE, MADE_ON, columns, table
from tests.queries.build import day, drawn
from tests.queries.test_drawn_turns import turn, with_turns


@pytest.fixture
def source(tmp_path):
    season = drawn("A B C\nG1@3 . . .\n", roster={"B": {"name": HOSTILE[1]}})
    other = {"draw": "T02", "drawn_on": day(2), "board_number": None}
    turns = [
        turn("A", 2),
        turn("B", 1, jumped_on=day(3), jump_reason=HOSTILE[3]),
        turn("C", 1, **other, no_board_reason="no study here"),
    ]
    with with_turns(season, turns).load(tmp_path / "tables") as store:
        yield AnswerSource(store, "a place")


def made(source):
    return turns_list(source, read_scope({}, source.scope_values), Making("turns", MADE_ON))


def test_each_draw_is_a_section_in_the_order_drawn_and_says_what_the_board_said(source):
    document = made(source)
    assert [section.heading for section in document.sections] == ["Draw T02", "Draw T01"]
    told = [section.parts[0].text for section in document.sections]
    assert "no review board needed: no study here" in told[0]
    assert "review board: B 12" in told[1]
    first = table(document, "draw T01")
    assert columns(first, "turn", "athlete", "by now") == [
        (1, HOSTILE[1], "jumped, 3 Sep"),
        (2, "Athlete A", "waits"),
    ]
    asked = source.ask(TURNS, read_scope({}, source.scope_values)).turns
    assert columns(table(document, "turns, all"), "draw", "turn", "athlete") == [
        (one.draw, one.turn, one.athlete) for one in asked
    ]


def test_no_text_gets_out_of_hand_and_the_curtain_covers_names(source):
    page = as_html(made(source)).decode()
    assert "<script>alert(1)" not in page
    book = openpyxl.load_workbook(io.BytesIO(as_workbook(made(source))))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert not [cell for cell in cells if cell.data_type == "f"]
    source.cover(is_down=True)
    covered = as_html(made(source)).decode()
    assert "Athlete A" not in covered
    assert "SUM" not in covered
    assert "The curtain is down" in covered
