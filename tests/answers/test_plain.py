"""Text from outside on one line: letter for letter, but nothing that steers a terminal."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.answers.safe_text import one_line

REORDERING = ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")


@pytest.mark.parametrize(
    "text",
    [
        "Ada Lee", "[/x] Lee", "[bold]Lee[/bold]", "\\[x]", "Zoë Müller-O'Neill", "李小龍", "שרה",
        "e\u0301 combined", "👩‍🏫", "",
    ],
)  # fmt: skip
def test_what_a_person_can_read_stays_as_it_is(text):
    assert one_line(text) == text


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("a\nb", "a b"), ("a\tb", "a b"), ("a\r\nb", "a  b"), ("a\u2028b\u2029c", "a b c"),
        ("\x1b[31mred", "[31mred"), ("be\x07ll", "bell"), ("nul\x00", "nul"),
        ("c1\x9b31m", "c131m"), ("del\x7f", "del"),
    ],
)  # fmt: skip
def test_line_breaks_become_blanks_and_control_codes_go(text, kept):
    assert one_line(text) == kept


@pytest.mark.parametrize(
    "mark",
    [
        "\u061c", "\u200e", "\u200f", *map(chr, range(0x202A, 0x202F)),
        *map(chr, range(0x2066, 0x206A)),
    ],
    ids=lambda mark: f"U+{ord(mark):04X}",
)  # fmt: skip
def test_marks_that_reorder_letters_go(mark):
    """All that have the property Bidi_Control (Unicode Standard Annex 9)."""
    assert one_line(f"evil{mark}txt") == "eviltxt"


@given(st.text())
def test_no_text_keeps_a_control_code_or_becomes_longer(text):
    safe = one_line(text)
    assert len(safe) <= len(text)
    assert one_line(safe) == safe
    assert not any(unicodedata.category(letter) in {"Cc", "Zl", "Zp"} for letter in safe)
    assert not any(unicodedata.bidirectional(letter) in REORDERING for letter in safe)
