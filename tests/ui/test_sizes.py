"""The board at every size, and back."""

import pytest
from textual.widgets import DataTable

from seasonboard.ui.widgets.lines import TooSmall
from tests.ui.board import opened, page, press, resize, settle, text, until
from tests.ui.stand_in import StandIn


@pytest.mark.long
@pytest.mark.parametrize("screen", ["compare", "games", "pitch"])
async def test_too_small_is_said_and_all_is_back_after_growing(screen):
    async with opened(screen=screen) as pilot:
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
            now = page(pilot).block
            assert block is not None
            assert now is not None
            assert now.name == block.name


@pytest.mark.long
@pytest.mark.parametrize("size", [(1, 1), (20, 6)])
async def test_windows_survive_the_smallest_terminals(size):
    async with opened(size=size) as pilot:
        for key in ("m", "question_mark", "enter", "ctrl+p"):
            await press(pilot, key, "escape")
        await press(pilot, "s", "enter", "escape", "escape", "7", "n", "escape", "q")


@pytest.mark.long
@pytest.mark.parametrize("screen", ["compare", "games", "pitch"])
async def test_no_line_of_a_page_is_cut(screen):
    async with opened(screen=screen) as pilot:
        shown = page(pilot)
        for width, height in ((80, 24), (120, 40), (200, 60)):
            await resize(pilot, width, height)
            await until(pilot, lambda width=width: shown.size.width == width)
            await settle(pilot)
            room = shown.scrollable_content_region.width - 1
            assert all(
                p.text.cell_len <= min(room, p.column.width) for ps in shown._laid.lines for p in ps
            )


async def test_sixty_by_fifteen_is_enough():
    async with opened(size=(60, 15)) as pilot:
        assert not pilot.app.screen.query_one(TooSmall).display
        assert "Are guarded athletes hurt less?" in text(pilot)


async def test_table_fills_the_screen_it_is_given():
    async with opened(StandIn(total=9), size=(120, 40)) as pilot:
        await press(pilot, "enter")
        assert pilot.app.screen.query_one(DataTable).size.height > 30
