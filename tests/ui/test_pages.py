"""Both screens as they are seen, at the sizes people have."""

import pytest

from seasonboard.ui.themes import LIGHT, PROJECTOR
from seasonboard.ui.widgets.page import Page
from tests.ui.board import LARGE, SMALL, check, opened, page, press, text
from tests.ui.stand_in import EMPTY, StandIn, frames, nothing, ticks, without_injuries

SIZES = {"80x24": SMALL, "120x40": LARGE, "200x60": (200, 60)}


@pytest.mark.long
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("screen", ["compare", "games", "pitch"])
async def test_screen_looks_as_agreed(screen, size):
    async with opened(screen=screen, size=SIZES[size]) as pilot:
        check(text(pilot), f"{screen}-{size}")


@pytest.mark.parametrize("screen", ["compare", "games", "pitch"])
async def test_rest_of_a_page_is_reached_by_scrolling(screen):
    async with opened(screen=screen) as pilot:
        await press(pilot, "pagedown")
        check(text(pilot), f"{screen}-80x24-more")
        await press(pilot, "end")
        check(text(pilot), f"{screen}-80x24-end")


@pytest.mark.parametrize("screen", ["compare", "games", "pitch"])
async def test_without_colour_strokes_and_words_tell_the_groups_apart(screen, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with opened(screen=screen) as pilot:
        assert pilot.app.no_color
        assert not page(pilot).ink.tinted
        check(text(pilot), f"{screen}-80x24-no-colour")


async def test_sixteen_colours_are_drawn_like_none(monkeypatch):
    monkeypatch.delenv("COLORTERM")
    monkeypatch.setenv("TERM", "xterm-16color")
    async with opened(screen="games") as pilot:
        assert pilot.app.console.color_system == "standard"
        check(text(pilot), "games-80x24-no-colour")


@pytest.mark.parametrize("screen", ["compare", "games", "pitch"])
async def test_themes_change_colours_only_and_one_key_walks_through_them(screen):
    async with opened(screen=screen) as pilot:
        dark, before = text(pilot), page(pilot).ink
        for theme in (LIGHT, PROJECTOR):
            await press(pilot, "d")
            assert pilot.app.theme == theme
            assert text(pilot) == dark
            assert page(pilot).ink != before
        await press(pilot, "d")
        assert page(pilot).ink == before


@pytest.mark.long
@pytest.mark.parametrize("screen", ["compare", "games", "pitch"])
async def test_an_empty_store_says_how_to_load(screen):
    async with opened(StandIn(scope_values=EMPTY), screen=screen) as pilot:
        assert "seasonboard load FOLDER --store FILE" in text(pilot)
        assert "seasonboard --sample" in text(pilot)
        await press(pilot, "s", "m", "enter", "r", "down", "slash", "escape", "question_mark")
        assert "Keys" in text(pilot)


@pytest.mark.parametrize("name", ["without-injuries", "nothing"])
async def test_what_cannot_be_told_is_told_in_words(name):
    frame = {"without-injuries": without_injuries, "nothing": nothing}[name]()
    async with opened(StandIn(frames(compare_strata=frame))) as pilot:
        shown = text(pilot)
        assert not {"None", "nan", "inf"} & set(shown.split())
        check(shown, f"compare-80x24-{name}")


async def test_curves_that_never_start_say_why():
    few = ticks(3, of_guarded=2, of_bare=3)
    async with opened(StandIn(frames(games_ticks=few)), screen="games") as pilot:
        assert "never 5 at risk at once" in text(pilot)
        check(text(pilot), "games-80x24-too-few")


async def test_nobody_at_risk_is_said():
    async with opened(StandIn(frames(games_ticks=ticks(0))), screen="games") as pilot:
        assert "Nothing to follow yet" in text(pilot)
        await press(pilot, "down", "down", "end", "enter")


async def test_invented_season_is_said_on_every_screen_and_table():
    async with opened() as pilot:
        for keys in ((), ("7",), ("down", "enter")):
            await press(pilot, *keys)
            assert "invented sample season" in text(pilot)


async def test_heading_of_the_ticks_stays_in_sight():
    async with opened(screen="games") as pilot:
        await press(pilot, "end")
        await press(pilot, *["up"] * 8)
        top = text(pilot).splitlines()[4]
        assert "at risk" in top
        assert "uninjured" in top
        assert pilot.app.screen.query_one(Page).block is not None
