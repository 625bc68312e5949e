"""Agreeing on the order of prints: on its screen with one key, in a meeting with three."""

from datetime import date

import pytest

from seasonboard.entries import Entry
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.forms.read_only import NotKept
from seasonboard.ui.week.meeting_screen import MeetingScreen
from tests.ui.board import press, text, until, words
from tests.ui.kept import rows, typing

ORDER = "Print in this order (queue of 3 Sep 2026): G0042 shin left."


ASKED = Entry(
    "an order",
    {
        "guards": [{"guard": "G0042", "athlete": "A2", "kind": "shin", "side": "left",
                    "purpose": "return"}],
        "stages": [{"guard": "G0042", "stage": "requested", "reached_at": "2026-09-02T09:00"}],
    },
)  # fmt: skip


@pytest.fixture
def queue(board, monkeypatch):
    """Give the board of a store in which one print waits, on 4 September."""
    monkeypatch.setattr(SeasonboardApp, "today", lambda _: date(2026, 9, 4))
    board.entry_writer.write(ASKED)
    board.look_again()
    return board


async def test_one_key_writes_the_order_down_and_one_takes_it_back(queue):
    async with typing(queue, "capacity") as pilot:
        await press(pilot, "a")
        await until(pilot, lambda: "print order, D" in text(pilot))
        (decision,) = rows(queue, "decisions")
        assert (decision["decision"], decision["department"]) == ("D01", "D")
        assert (decision["text"], decision["decided_on"]) == (ORDER, date(2026, 9, 4))
        await press(pilot, "u", "y")
        await until(pilot, lambda: "taken back" in text(pilot))
    assert rows(queue, "decisions") == []


async def test_a_meeting_sees_the_order_before_it_agrees_in_three_keys(queue):
    async with typing(queue) as pilot:
        await press(pilot, "g", "a")
        await until(pilot, lambda: "Agree on this order" in text(pilot))
        assert ORDER in words(pilot)
        assert rows(queue, "decisions") == []
        await press(pilot, "y")
        await until(pilot, lambda: rows(queue, "decisions") != [])
        await until(pilot, lambda: isinstance(pilot.app.screen, MeetingScreen))
        await press(pilot, "end")
        assert f"{ORDER} (D, no day set; over: the order of prints)" in words(pilot)


async def test_behind_the_curtain_nothing_is_written(queue):
    async with typing(queue, "capacity") as pilot:
        await press(pilot, "c")
        await press(pilot, "a")
        assert isinstance(pilot.app.screen, NotKept)
    assert rows(queue, "decisions") == []
