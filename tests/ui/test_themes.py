"""Colours can be read: contrast by WCAG 2.2, success criteria 1.4.3 and 1.4.11."""

from collections.abc import Mapping

import pytest
from textual.color import Color

from seasonboard.ui.themes import DARK_COLOURS, LIGHT_COLOURS

THEMES = {"dark": DARK_COLOURS, "light": LIGHT_COLOURS}
TEXT = ("text", "quiet", "guarded", "bare", "accent")
LINES = ("guarded", "bare")


def _luminance(colour: str) -> float:
    """Relative luminance, as WCAG 2.2 defines it."""
    parsed = Color.parse(colour)

    def linear(channel: int) -> float:
        share = channel / 255
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(channel) for channel in (parsed.r, parsed.g, parsed.b))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, two: str) -> float:
    """Contrast ratio, (L1 + 0.05) / (L2 + 0.05) with the lighter one on top."""
    darker, lighter = sorted((_luminance(one), _luminance(two)))
    return (lighter + 0.05) / (darker + 0.05)


def test_contrast_of_black_and_white_is_the_standards_own() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("name", THEMES)
def test_text_stands_out_by_four_and_a_half(name: str) -> None:
    colours: Mapping[str, str] = THEMES[name]
    for ground in ("ground", "chosen"):
        for word in TEXT:
            assert contrast(colours[word], colours[ground]) >= 4.5, (word, ground)
    assert contrast(colours["chosen-text"], colours["chosen"]) >= 4.5


@pytest.mark.parametrize("name", THEMES)
def test_lines_stand_out_by_three_on_every_tint(name: str) -> None:
    colours = THEMES[name]
    for ground in ("ground", "guarded-tint", "bare-tint", "both-tint", "chosen"):
        for line in LINES:
            assert contrast(colours[line], colours[ground]) >= 3, (line, ground)
    assert contrast(colours["hairline"], colours["ground"]) >= 3
