"""The title line: every screen can be found and reached, at every width."""

import pytest

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.all_screens import SCREENS
from tests.ui.board import opened, press, text


def test_every_board_has_its_screen_its_key_and_its_question():
    assert [board.name for board in WITH_SCREENS] == list(SCREENS)
    assert len({board.key for board in WITH_SCREENS}) == len(WITH_SCREENS)
    for board in WITH_SCREENS:
        assert board.asks == SCREENS[board.name].QUESTION.asks


@pytest.mark.parametrize("width", [120, 200])
async def test_names_and_keys_of_all_screens_stand_in_the_title(width):
    async with opened(size=(width, 24)) as pilot:
        told = text(pilot).splitlines()[0]
        close = told.replace(" ", "")
        assert all(f"{board.key}{board.title}" in close for board in WITH_SCREENS)


async def test_at_80_cells_the_names_are_short_and_stand_apart():
    async with opened(size=(80, 24)) as pilot:
        told = text(pilot).splitlines()[0].split()
        assert told == [f"{board.key}{board.short}" for board in WITH_SCREENS]


@pytest.mark.parametrize("width", [60, 70])
async def test_keys_of_all_screens_stand_in_a_narrow_title_with_the_name_of_this_one(width):
    async with opened(size=(width, 24)) as pilot:
        told = text(pilot).splitlines()[0]
        assert all(board.key in told for board in WITH_SCREENS)
        assert "6 Compare" in told


@pytest.mark.parametrize("width", [60, 80, 120])
async def test_every_screen_is_reached_with_a_click_on_its_key(width):
    async with opened(size=(width, 24)) as pilot:
        for name in ("games", "compare"):
            key = next(board.key for board in WITH_SCREENS if board.name == name)
            await pilot.click(offset=(text(pilot).splitlines()[0].index(key), 0))
            await press(pilot)
            assert name == pilot.app.screen.QUESTION.name


async def test_place_is_said_at_every_width():
    for width in (60, 80, 120, 200):
        async with opened(size=(width, 24)) as pilot:
            assert "invented sample season" in text(pilot)


async def test_letters_are_no_keys_of_screens():
    async with opened() as pilot:
        before = pilot.app.screen
        await press(pilot, "g", "c")
        assert pilot.app.screen is before
