"""Compare, Games and Pitch as they are seen, at the sizes people have."""

import pytest

from seasonboard.ui.themes import LIGHT, PROJECTOR
from tests.ui.board import LARGE, check, opened, page, press, resize, text
from tests.ui.counted import draws
from tests.ui.stand_in import StandIn, frames, nothing, ticks, without_injuries

BOARDS = pytest.mark.parametrize("screen", ["compare", "games", "pitch"])


@BOARDS
async def test_screen_looks_as_agreed_to_its_end_at_every_size_and_in_every_theme(pilot, screen):
    dark, ink = text(pilot), page(pilot).ink
    check(dark, f"{screen}-80x24")
    await press(pilot, "d")
    assert pilot.app.theme == LIGHT
    assert text(pilot) == dark
    assert page(pilot).ink != ink
    await press(pilot, "d", "d")
    assert page(pilot).ink == ink
    for key, name in (("pagedown", "more"), ("end", "end")):
        await press(pilot, key)
        check(text(pilot), f"{screen}-80x24-{name}")
    await press(pilot, "home")
    for width, height in (LARGE, (200, 60)):
        await resize(pilot, width, height)
        check(text(pilot), f"{screen}-{width}x{height}")


@BOARDS
async def test_a_projector_shows_question_answer_and_picture_and_all_keys_still_work(pilot, screen):
    picture = [block.lines for block in page(pilot).blocks if block.is_picture]
    await press(pilot, "d", "d")
    assert pilot.app.theme == PROJECTOR
    shown, asks = text(pilot), pilot.app.screen.QUESTION.asks
    assert "7 Games" not in shown and "7Games" not in shown and "q quit" not in shown
    assert asks in shown
    first, *_ = (nth for nth, block in enumerate(page(pilot).blocks) if block.is_picture)
    assert all(block.is_picture for block in page(pilot).blocks[first:])
    assert len(page(pilot).blocks[first:]) == len(picture) > 0
    await press(pilot, "m", "escape", "d")
    assert "q quit" in text(pilot)


@BOARDS
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


@pytest.mark.parametrize(
    ("name", "change", "words"),
    [
        ("compare-80x24-without-injuries", {"compare_strata": without_injuries()}, ""),
        ("compare-80x24-nothing", {"compare_strata": nothing()}, ""),
        (
            "games-80x24-too-few",
            {"games_ticks": ticks(3, of_guarded=2, of_bare=3)},
            "never 5 at risk at once",
        ),
        ("games", {"games_ticks": ticks(0)}, "Nothing to follow yet"),
    ],
    ids=["without injuries", "nothing", "too few", "nobody at risk"],
)
async def test_what_cannot_be_told_is_told_in_words(name, change, words):
    async with opened(StandIn(frames(**change)), screen=name.partition("-")[0]) as pilot:
        shown = text(pilot)
        assert not {"None", "nan", "inf"} & set(shown.split())
        assert words in shown
        if name != "games":
            check(shown, name)
        await press(pilot, "down", "down", "end", "enter")


async def test_drawn_turns_have_a_row_of_their_own_and_say_what_is_missing_first():
    async with opened(
        StandIn(frames(compare_draws=draws(2), draw_draws=draws(2))), screen="compare"
    ) as pilot:
        await press(pilot, "pagedown")
        check(text(pilot), "compare-80x24-drawn-turns")
        page(pilot).go_to_name("drawn turns")
        await press(pilot, "enter")
        assert "draw T01" in text(pilot)


async def test_heading_of_the_ticks_stays_in_sight(games):
    await press(games, "end")
    await press(games, *["up"] * 9)
    top = text(games).splitlines()[4]
    assert "at risk" in top
    assert "uninjured" in top
    assert page(games).block is not None
