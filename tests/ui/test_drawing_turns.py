"""Turns drawn on the board by keys alone: the plan, the question, what is frozen, a jump."""

from datetime import date

import pytest

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.ui.windows.confirm import AskScreen
from seasonboard.ui.windows.rows import RowsScreen
from tests.ui.board import check, fill, page, press, text
from tests.ui.kept import rows, typing


@pytest.fixture
def accepted(board, tmp_path):
    """All three accepted a shin guard; nothing was ever printed."""
    offers = "offer,athlete,kind,offered_on,answer\n" + "".join(
        f"O{number},A{number},shin,2026-09-01,accepted\n" for number in (1, 2, 3)
    )
    (tmp_path / "offers.csv").write_text(offers)
    board.entry_writer.load([tmp_path / "offers.csv"], UnattendedLoad())
    board.look_again()
    return board


@pytest.mark.long
async def test_the_plan_is_shown_asked_about_and_then_frozen(accepted):
    async with typing(accepted, "orders") as pilot:
        await press(pilot, "l", "t")
        await fill(pilot, department="College D", prints_per_week="none", seed="7")
        await press(pilot, "ctrl+s")
        shown = text(pilot)
        assert "is not a whole number" in shown
        assert "is needed, or why none is" in shown
        await fill(pilot, prints_per_week="1", ready_days="6", board_number="B 12")
        check(text(pilot), "form-draw-80x24")
        await press(pilot, "ctrl+s")
        assert isinstance(pilot.app.screen, AskScreen)
        check(text(pilot), "form-draw-plan-80x24")
        assert rows(accepted, "turns") == []
        await press(pilot, "escape", "ctrl+s", "y")
        assert "draw T01, 2 turns, review board: B 12" in text(pilot)
        frozen = rows(accepted, "turns")
        assert {row["athlete"] for row in frozen} == {"A2", "A3"}, "A1 wore one already"
        assert {row["drawn_on"] for row in frozen} == {date(2026, 9, 3)}
        check(text(pilot), "orders-drawn-turns-80x24")
        page(pilot).go_to_name("turns")
        await press(pilot, "enter")
        assert isinstance(pilot.app.screen, RowsScreen)
        await press(pilot, "escape", "l", "j")
        await fill(pilot, place="T01 turn 1")
        await fill(pilot, jump_reason="left early")
        await press(pilot, "ctrl+s", "ctrl+s")
        assert "jumped turn" in text(pilot)
    jumped = [row for row in rows(accepted, "turns") if row["jump_reason"]]
    assert [(row["turn"], row["jumped_on"]) for row in jumped] == [(1, date(2026, 9, 3))]
