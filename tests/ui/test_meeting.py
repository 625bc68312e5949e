"""The meeting: the Week one item at a time, and the decisions typed over it."""

from datetime import date
from itertools import cycle

import pytest

from seasonboard.answers.fields import Field, Kind, Table, of
from seasonboard.answers.week.parts import WeekItem
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.week.meeting_page import (
    MeetingDecision,
    department_of,
    in_order,
    item_page,
    summary_page,
)
from seasonboard.ui.week.meeting_screen import MeetingScreen
from tests.ui.board import check, press, text, words
from tests.ui.kept import rows, typing

FIELDS = (
    Field("name", "of the athlete", heading="name"),
    Field("days", "days", Kind.COUNT, heading="days"),
)
DEPARTMENT = Field("department_name", "whose it is", get=of("department"), heading="department")
LONG = "a sentence of whole words that goes on for quite a while " * 3


@pytest.mark.long
async def test_the_week_is_walked_item_by_item_and_decisions_are_kept(board):
    async with typing(board) as pilot:
        items = in_order(pilot.app.screen.answer)
        await press(pilot, "g")
        check(text(pilot), "meeting-80x24")
        for number, item in enumerate(items, 1):
            assert f"{number} of {len(items)}" in text(pilot)
            assert item.title.upper() in text(pilot)
            await press(pilot, "right" if number % 2 else "space")
        assert "None was made." in text(pilot)
        await press(pilot, "left", "t", *"Spares", "ctrl+s")
        assert isinstance(pilot.app.screen, MeetingScreen)
        await press(pilot, "right")
        spares = f"Spares (every department, no day set; over: {items[-1].title})"
        assert spares in words(pilot)
        await press(pilot, "home", "right", "escape")
        assert isinstance(pilot.app.screen, BoardScreen)
        await press(pilot, "g")
        assert f"2 of {len(items)}" in text(pilot)
    (decision,) = rows(board, "decisions")
    assert (decision["text"], decision["department"]) == ("Spares", None)
    assert decision["decided_on"] == date(2026, 9, 3)


def item(count=40, departments=("D",)):
    table = Table("late", of("rows"), (*FIELDS, DEPARTMENT))
    named = zip(range(count), cycle(departments), strict=False)
    rows = tuple({"name": LONG, "days": n, "department": one} for n, one in named)
    return WeekItem(table, "Late orders", LONG, rows, is_ahead=True)


@pytest.mark.parametrize("size", [(56, 11), (76, 20), (116, 36), (196, 56)])
@pytest.mark.parametrize("count", [0, 1, 2, 3, 40])
def test_as_much_is_shown_as_fits_in_whole_words_and_the_rest_is_counted(size, count):
    paper = Paper(*size)
    lines = item_page(item(count), 0, 9, paper).plain.splitlines()
    assert len(lines) <= paper.height
    assert max(len(line) for line in lines) <= paper.width
    words = set(LONG.split()) | {"4", "and", "more", "·", "D", "days", "1", "of", "9", "ahead"}
    printed = {word for line in lines[3:] for word in line.split() if word.isalpha()}
    assert printed <= words
    rows_shown = sum("days" in line for line in lines)
    more = [line for line in lines if line.strip().startswith("and ")]
    assert bool(more) == (rows_shown < count)


def test_the_department_is_proposed_only_where_all_rows_are_of_one():
    assert department_of(item(3)) == "D"
    assert department_of(item(3, departments=("D", "E"))) == ""
    assert department_of(item(0)) == ""
    alone = WeekItem(Table("x", of("rows"), FIELDS), "x", "x", ({"name": "a", "days": 1},))
    assert department_of(alone) == ""


def test_a_long_summary_says_how_many_more_there_are():
    decided = [MeetingDecision("Late orders", f"Do {n}", "", "2026-12-01") for n in range(30)]
    lines = summary_page(decided, Paper(76, 20)).plain.splitlines()
    assert len(lines) <= 20
    assert lines[-1].strip().startswith("and ")
