"""A lot of guards is found, marked and ticked off by keys alone; Week tells of it until then."""

from datetime import date

import pytest

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.ui.forms.form_screen import FormScreen
from tests.ui.board import check, page, press, text, until
from tests.ui.kept import rows, typing

COUNT = 14


def page_text(pilot):
    """All that stands on the page, in sight or not."""
    return " ".join(line.plain for block in page(pilot).blocks for line in block.lines)


OF_THE_LOT = [f"G1{number:03}" for number in range(COUNT)]


@pytest.fixture
def lot(board, tmp_path):
    """Fourteen guards of lot PA-7 that the three athletes have in use, and one of lot PA-8."""
    made = [(key, "PA-7") for key in OF_THE_LOT] + [("G2000", "PA-8")]
    guards = "guard,athlete,kind,side,purpose,lot\n" + "".join(
        f"{key},A{number % 3 + 1},shin,left,preventive,{of}\n"
        for number, (key, of) in enumerate(made)
    )
    stages = "guard,stage,reached_at\n" + "".join(
        f"{key},fitted,2026-08-25T10:00\n" for key, _ in made
    )
    for name, content in (("guards", guards), ("stages", stages)):
        (tmp_path / f"{name}.csv").write_text(content)
    paths = [tmp_path / "guards.csv", tmp_path / "stages.csv"]
    board.entry_writer.load(paths, UnattendedLoad())
    board.look_again()
    return board


@pytest.mark.long
async def test_fourteen_guards_are_found_marked_and_ticked_off_in_under_thirty_keys(lot):
    pressed = 0

    async def keys(pilot, *names):
        nonlocal pressed
        pressed += len(names)
        await press(pilot, *names)

    async with typing(lot, "orders") as pilot:
        pilot.app.today = lambda: date(2026, 9, 3)
        await keys(pilot, "f", *"pa-7", "enter")
        shown = text(pilot)
        assert "14 guards made of lot PA-7: 14 in use." in " ".join(shown.split())
        check(shown, "lot-80x24")
        await keys(pilot, "k")
        assert isinstance(pilot.app.screen, FormScreen)
        check(text(pilot), "form-mark-80x24")
        await keys(pilot, "ctrl+s")
        assert len(rows(lot, "marked_guards")) == COUNT
        await press(pilot, "z")
        check(text(pilot), "lot-marked-80x24")
        await keys(pilot, *"t" * (COUNT + 1))
        assert pressed < 30, pressed
        await until(pilot, lambda: "marks 14 done" in page_text(pilot))
        assert {row["done_on"] for row in rows(lot, "marked_guards")} == {date(2026, 9, 3)}
        await press(pilot, "u", "y", "1")
        assert "13 of 14 guards done" in page_text(pilot)
        assert sum(row["done_on"] is None for row in rows(lot, "marked_guards")) == 1


@pytest.mark.long
async def test_any_row_of_a_guard_leads_to_those_made_like_it(lot):
    async with typing(lot, "orders") as pilot:
        await press(pilot, "enter", "slash", *"g2000", "enter", "k")
        assert "Guards made like G2000" in text(pilot)
        assert "lot PA-8  1 guard" in text(pilot)
        await press(pilot, "enter")
        assert "1 guard made of lot PA-8: 1 in use." in page_text(pilot)
        await press(pilot, "3", "enter", "slash", *"g0041", "enter", "k")
        assert "This row is not of one guard" in text(pilot), "the scope holds no other"


async def test_without_a_mark_nothing_is_ticked_off(lot):
    async with typing(lot, "recall") as pilot:
        await press(pilot, "t", "k")
        assert "Choose first what they are made of" in text(pilot)
        assert rows(lot, "marked_guards") == []
