"""Colours can be read, by anybody: measured on what is drawn, not only on what is meant.

Contrast as in W3C, Web Content Accessibility Guidelines 2.2, definitions “relative luminance” and
“contrast ratio”; success criteria 1.4.3 (text 4.5:1) and 1.4.11 (pictures 3:1).
"""

import colorsys
import re
from pathlib import Path

import pytest
from rich.color import Color as RichColor
from rich.color import ColorSystem
from textual.color import Color
from textual.screen import ModalScreen

from seasonboard.answers.games.parts import GamesOptions
from seasonboard.answers.pitch.options import PitchOptions
from seasonboard.answers.questions import COMPARE, GAMES, PITCH
from seasonboard.ui import themes
from seasonboard.ui.compare.page import compare_page
from seasonboard.ui.games.page import games_page
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.pitch.page import pitch_page
from seasonboard.ui.themes import COLOURS, DARK, LIGHT, PLAIN, PROJECTOR, ink, next_theme
from tests.ui.board import press
from tests.ui.stand_in import StandIn, lines_of

TEXT = ("text", "quiet", "guarded", "bare", "accent")
LINES = ("guarded", "bare", "hairline")
GROUNDS = ("ground", "guarded-tint", "bare-tint", "both-tint", "chosen")
STYLESHEET = Path(themes.__file__).parent / "app" / "seasonboard.tcss"


def _luminance(colour):
    """Relative luminance of a colour `#rrggbb`."""
    parsed = Color.parse(colour)

    def linear(channel):
        share = channel / 255
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(channel) for channel in (parsed.r, parsed.g, parsed.b))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, two):
    """Contrast ratio, (L1 + 0.05) / (L2 + 0.05) with the lighter one on top."""
    darker, lighter = sorted((_luminance(one), _luminance(two)))
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize(
    ("one", "two", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),
        ("#ffffff", "#ffffff", 1.0),
        ("#767676", "#ffffff", 4.54),
        ("#777777", "#ffffff", 4.48),
        ("#ff0000", "#ffffff", 4.0),
        ("#0000ff", "#ffffff", 8.59),
    ],
)
def test_contrast_is_that_of_the_guidelines_on_known_pairs(one, two, ratio):
    """The extremes are W3C's own; the rest are much quoted values, from memory."""
    assert contrast(one, two) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize("name", COLOURS)
def test_words_stand_out_by_four_and_a_half_and_lines_by_three_on_every_ground(name):
    """On a projector words do by seven on the plain one."""
    colours = COLOURS[name]
    for ground in GROUNDS:
        for word in TEXT:
            assert contrast(colours[word], colours[ground]) >= 4.5, (word, ground)
            assert contrast(colours[word], colours["ground"]) >= 7 or name != PROJECTOR, word
        for line in LINES:
            assert contrast(colours[line], colours[ground]) >= 3, (line, ground)
    assert contrast(colours["chosen-text"], colours["chosen"]) >= 4.5


@pytest.mark.parametrize("name", COLOURS)
def test_pairs_of_the_stylesheet_can_be_read(name):
    rules = re.findall(r"\{([^}]*)\}", STYLESHEET.read_text("utf-8"))
    pairs = [
        (ground[1], word[1])
        for rule in rules
        if (ground := re.search(r"background: \$([a-z-]+);", rule))
        and (word := re.search(r"(?<!-)color: \$([a-z-]+);", rule))
    ]
    assert len(pairs) > 10
    for ground, word in pairs:
        assert contrast(COLOURS[name][word], COLOURS[name][ground]) >= 4.5, (word, ground)


def _drawn(screen):
    """Return text, colour and ground of everything on screen, reversed styles turned round.

    Under a window, only the window: what lies behind it is veiled because it is not in use.
    """
    strips = screen._compositor.render_strips()
    windows = list(screen.query(".window, CommandPalette > Vertical"))
    if isinstance(screen, ModalScreen) and windows:
        x, y, width, height = windows[0].region
        strips = [row.crop(x, x + width) for row in strips[y : y + height]]
    for segment in (segment for row in strips for segment in row):
        style = segment.style
        if segment.text.strip() and style and style.color and style.bgcolor:
            pair = [style.color.get_truecolor().hex, style.bgcolor.get_truecolor().hex]
            word, ground = reversed(pair) if style.reverse else pair
            yield segment.text.strip(), word, ground


@pytest.mark.long
@pytest.mark.parametrize("size", [(120, 40)])
@pytest.mark.parametrize("screen", ["compare", "games", "pitch"])
async def test_everything_drawn_can_be_read(pilot, screen):
    """Page, table, card, help, list, entry and palette, cell by cell."""
    for name in COLOURS:
        pilot.app.theme = name
        seen = 0
        for keys in (
            *((), ("down", "down"), ("enter",), ("escape", "m"), ("escape", "question_mark")),
            *(("escape", "s"), ("right", "enter"), ("escape", "escape", "slash"), ("escape",)),
            ("ctrl+p",),
            ("escape", "home"),
        ):
            await press(pilot, *keys)
            for told, word, ground in _drawn(pilot.app.screen):
                seen += 1
                needed = 4.5 if any(letter.isalnum() for letter in told) else 3
                assert contrast(word, ground) >= needed, (keys, told, word, ground)
        assert seen > 500


@pytest.mark.parametrize("name", COLOURS)
def test_groups_are_the_published_blue_and_orange_or_their_darker_shades(name):
    """Okabe & Ito (2008): sky blue #56B4E9, blue #0072B2, orange #E69F00, vermilion #D55E00."""
    colours = COLOURS[name]
    published = ("#56b4e9", "#e69f00") if name == DARK else ("#0072b2", "#d55e00")
    for colour, original in zip((colours["guarded"], colours["bare"]), published, strict=True):
        if name == DARK:
            assert colour == original
        assert abs(_hue(colour) - _hue(original)) < 4
        assert _luminance(colour) <= _luminance(original)


def _hue(colour):
    red, green, blue = Color.parse(colour).normalized
    return colorsys.rgb_to_hsv(red, green, blue)[0] * 360


def _is_vivid(colour):
    red, green, blue = Color.parse(colour).normalized
    return colorsys.rgb_to_hsv(red, green, blue)[1] > 0.25


def test_no_theme_has_the_colours_of_a_traffic_light():
    """Neither a red nor a green among the words and lines: no state can be told by those three."""
    for name, colours in COLOURS.items():
        hues = [_hue(colours[word]) for word in (*TEXT, *LINES) if _is_vivid(colours[word])]
        assert hues
        assert not [hue for hue in hues if 70 <= hue <= 170], name
        assert not [hue for hue in hues if hue <= 15 or hue >= 345], name


@pytest.mark.parametrize("name", COLOURS)
def test_a_page_says_the_same_with_and_without_colour(name):
    for question, page, options in (
        (PITCH, pitch_page, PitchOptions()),
        (COMPARE, compare_page, None),
        (GAMES, games_page, GamesOptions()),
    ):
        answer = StandIn().answered(question, options)
        inks = (ink(COLOURS[name], tinted=False), PLAIN)
        coloured, plain = (lines_of(page(answer, Paper(110, 40, one))) for one in inks)
        assert coloured == plain


@pytest.mark.parametrize("name", COLOURS)
def test_in_sixteen_colours_words_and_lines_still_stand_apart_from_the_ground(name):
    """The palette of xterm as Rich knows it; grounds are one there, so that none is needed."""

    def sixteen(colour):
        number = RichColor.parse(colour).downgrade(ColorSystem.STANDARD)
        return number.get_truecolor().hex

    colours = COLOURS[name]
    for word in (*TEXT, *LINES):
        assert contrast(sixteen(colours[word]), sixteen(colours["ground"])) >= 2, word


def test_one_key_walks_through_all_themes_and_begins_again():
    walk = [DARK]
    for _ in COLOURS:
        walk.append(next_theme(walk[-1]))
    assert walk == [DARK, LIGHT, PROJECTOR, DARK]
    assert next_theme("textual-light") == DARK
