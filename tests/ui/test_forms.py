"""Records typed in on the board, by keys alone."""

from datetime import date

import pytest

from seasonboard.answers.board import Board
from seasonboard.ui.entries.form_screen import FormScreen
from seasonboard.ui.screens.base import BoardScreen
from tests.ui.board import check, press, text
from tests.ui.kept import NOW, kept_store, rows, typing


@pytest.fixture
def board(tmp_path, monkeypatch):
    monkeypatch.setattr(FormScreen, "now", lambda _: NOW)
    with kept_store(tmp_path) as kept:
        yield kept


async def test_an_injury_is_typed_in_a_few_letters_each(board):
    async with typing(board) as pilot:
        await press(pilot, "l", "i", *"zoe", "tab", "tab", "tab", *"low", "tab", *"le", "tab")
        await press(pilot, *"bon", "enter", *"bone", "down", "tab", "ctrl+s")
        shown = text(pilot)
        check(shown, "form-injury-80x24")
        assert "Recorded as worn at this site in that session: G0041 (shin, left)." in shown
        assert len(rows(board, "injuries")) == 1
        await press(pilot, "ctrl+s")
        assert isinstance(pilot.app.screen, BoardScreen)
        assert "Written as load 2: injury, Zoë Abbott, lower leg, left" in text(pilot)
    (row,) = [one for one in rows(board, "injuries") if one["injury"] == "I8"]
    assert (row["athlete"], row["occurred_on"], row["session"]) == ("A1", date(2026, 9, 3), "G2")
    assert (row["area"], row["side"], row["tissue"]) == ("lower leg", "left", "bone")
