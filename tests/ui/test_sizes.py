"""The board at every size, and back: its title line, its pages, its windows."""

import pytest
from textual.widgets import DataTable

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.all_screens import screen_class
from seasonboard.ui.widgets.lines import TooSmall
from tests.ui.board import opened, page, press, resize, settle, text, until
from tests.ui.stand_in import StandIn


def test_every_board_has_its_screen_its_key_and_its_question():
    assert len({board.key for board in WITH_SCREENS}) == len(WITH_SCREENS)
    for board in WITH_SCREENS:
        assert board.asks == screen_class(board.name).QUESTION.asks


async def test_every_screen_is_named_in_the_title_and_reached_by_a_click_at_every_width(pilot):
    for width in (60, 70, 80, 120, 200):
        await resize(pilot, width, 24)
        title = text(pilot).splitlines()[0]
        if width >= 120:
            whole = title.replace(" ", "")
            assert all(f"{board.key}{board.title}" in whole for board in WITH_SCREENS)
        elif width == 80:
            assert title.split() == [f"{board.key}{board.short}" for board in WITH_SCREENS]
        else:
            assert all(board.key in title for board in WITH_SCREENS)
            assert "6 Compare" in title
        for key, name in (("7", "games"), ("6", "compare")):
            await pilot.click(offset=(text(pilot).splitlines()[0].index(key), 0))
            await press(pilot)
            assert name == pilot.app.screen.QUESTION.name
        assert "invented sample season" in text(pilot)
    shown = pilot.app.screen
    await press(pilot, "g", "c")
    assert pilot.app.screen is shown, "letters are no keys of screens"


@pytest.mark.long
@pytest.mark.parametrize("screen", ["compare", "games", "pitch"])
async def test_too_small_is_said_all_is_back_after_growing_and_no_line_is_cut(pilot, screen):
    await press(pilot, "down", "down")
    before, block = text(pilot), page(pilot).block
    for size in ((1, 1), (10, 3), (20, 6), (59, 40), (200, 14)):
        await resize(pilot, *size)
        await until(pilot, lambda: pilot.app.screen.query_one(TooSmall).display)
        await settle(pilot)
        assert text(pilot).startswith("Too small"[: size[0]])
        await resize(pilot, 80, 24)
        await until(pilot, lambda: not pilot.app.screen.query_one(TooSmall).display)
        await settle(pilot)
        assert text(pilot) == before
        assert page(pilot).block.name == block.name
    for size in ((80, 24), (120, 40), (200, 60)):
        await resize(pilot, *size)
        room = page(pilot).scrollable_content_region.width - 1
        pieces = [piece for line in page(pilot)._laid.lines for piece in line]
        assert all(one.text.cell_len <= min(room, one.column.width) for one in pieces)


@pytest.mark.long
@pytest.mark.parametrize("size", [(1, 1), (20, 6)])
async def test_windows_survive_the_smallest_terminals(pilot):
    for key in ("m", "question_mark", "enter", "ctrl+p"):
        await press(pilot, key, "escape")
    await press(pilot, "s", "enter", "escape", "escape", "7", "n", "escape", "q")


@pytest.mark.parametrize("size", [(60, 15)])
async def test_sixty_by_fifteen_is_enough(pilot):
    assert not pilot.app.screen.query_one(TooSmall).display
    assert "Are guarded athletes hurt less?" in text(pilot)


async def test_table_fills_the_screen_it_is_given():
    async with opened(StandIn(total=9), size=(120, 40)) as pilot:
        await press(pilot, "enter")
        assert pilot.app.screen.query_one(DataTable).size.height > 30
