"""Text from outside, made safe to print: letter for letter, but no control code survives."""

import unicodedata

_REORDERING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_BREAKS = {"\t": " ", "\n": " ", "\r": " ", "\u2028": " ", "\u2029": " "}


def one_line(text: str) -> str:
    """Return text without line breaks, control codes and marks that reorder letters.

    Markup, wide letters, combining marks and joined emoji stay as they are.
    """
    if text.isascii() and text.isprintable():
        return text
    kept = (_BREAKS.get(letter, letter) for letter in text)
    return "".join(
        letter
        for letter in kept
        if letter not in _REORDERING and unicodedata.category(letter) != "Cc"
    )
