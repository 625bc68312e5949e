"""Text from the data made fit for a terminal: safe, one line, and of a known width."""

import unicodedata
from datetime import date

from rich.cells import cell_len, chop_cells, set_cell_size

from seasonboard.answers import words

MISSING = "–"
_CONTROL_PICTURES = 0x2400
_DELETE = 0x7F
_UNKNOWN = "\N{REPLACEMENT CHARACTER}"


def clean(text: str) -> str:
    """Return text as one line that prints as it reads.

    Control characters become their picture (`␛`, `␊`), so that they are seen and do nothing.
    What has no width or turns the direction of writing is dropped: terminals disagree about it,
    and a table would no longer stand in line. Halves of surrogate pairs become `�`.
    """
    return text if text.isascii() and text.isprintable() else "".join(map(_shown, text))


def _shown(letter: str) -> str:
    code = ord(letter)
    if code < 0x20:
        return chr(_CONTROL_PICTURES + code)
    if code == _DELETE:
        return "␡"
    category = unicodedata.category(letter)
    if category in {"Cc", "Cs"}:
        return _UNKNOWN
    if category in {"Zl", "Zp"}:
        return " "
    return "" if category == "Cf" or 0xFE00 <= code <= 0xFE0F else letter


def fit(text: str, width: int) -> str:
    """Return text in exactly `width` cells, left-aligned, cut with `…` where it is too long."""
    if width <= 0:
        return ""
    if cell_len(text) > width:
        return set_cell_size(set_cell_size(text, width - 1).rstrip() + "…", width)
    return set_cell_size(text, width)


def right(text: str, width: int) -> str:
    """Return text right-aligned in `width` cells; longer text is cut with `…`."""
    missing = width - cell_len(text)
    return " " * missing + text if missing >= 0 else fit(text, width)


def short(value: float) -> str:
    """Return a figure with three digits that count, large ones whole: `0.62`, `13.5`, `1,008`."""
    return f"{value:,.0f}" if abs(value) >= 99.95 else f"{value:.3g}".replace("-", "−", 1)


def day(on: date) -> str:
    """Return a day as it is written where its year is plain: `3 Aug`."""
    return f"{on.day} {on:%b}"


def cell(value: str | float | None, *, is_share: bool = False) -> str:
    """Return a table's cell as shown: a dash for nothing, figures by the shared rules."""
    if value is None:
        return MISSING
    if is_share and not isinstance(value, str):
        return words.percent(value)
    if isinstance(value, float):
        return words.number(value)
    return clean(str(value))


def wrap(text: str, width: int) -> list[str]:
    """Return text broken at spaces into lines of at most `width` cells, long words within."""
    width = max(1, width)
    lines = [""]
    for word in text.split():
        pieces = [word] if cell_len(word) <= width else filter(None, chop_cells(word, width))
        for piece in pieces:
            grown = f"{lines[-1]} {piece}" if lines[-1] else piece
            if cell_len(grown) <= width:
                lines[-1] = grown
            else:
                lines.append(piece)
    return lines
