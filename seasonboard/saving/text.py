"""Text that does nothing where it is pasted or opened: no control code, no formula."""

import re
import unicodedata

_JOINERS = "\u200c\u200d"
"""Kept: letters of some scripts, and emoji, are joined or parted by them."""
_SIGNS = "=+-@\uff1d\uff0b\uff0d\uff20"
"""What a spreadsheet may take for a formula; the wide ones count in East Asian settings."""
_WITHIN = re.compile(rf"([;|][ \"]*)('*[{re.escape(_SIGNS)}])")
"""What a spreadsheet that parts cells by semicolons or bars would take for one."""
_NUMBER = re.compile(r"[+-]?[0-9]+(?:[.,][0-9]+)?")


def harmless(text: str) -> str:
    """Return text as one line without codes that steer a terminal or turn the writing round."""
    return without_codes(text).strip()


def without_codes(text: str) -> str:
    """Return text as one line without such codes; blanks around it stay."""
    return text if text.isascii() and text.isprintable() else "".join(map(_kept, text))


def _kept(letter: str) -> str:
    if letter in "\t\n\r\x0b\x0c\x85\u2028\u2029":
        return " "
    if letter in _JOINERS:
        return letter
    is_nothing = ord(letter) & 0xFFFE == 0xFFFE or 0xFDD0 <= ord(letter) <= 0xFDEF
    return "" if is_nothing or unicodedata.category(letter) in {"Cc", "Cf", "Cs"} else letter


def guarded(text: str) -> str:
    """Return text that no spreadsheet runs: an apostrophe stands before what begins a formula.

    So it does after a semicolon or a bar, where other countries' spreadsheets begin a new cell.
    """
    clean = harmless(text)
    begins = clean.lstrip("'").lstrip()[:1]
    is_live = begins != "" and begins in _SIGNS and not _NUMBER.fullmatch(clean)
    within = _WITHIN.sub(r"\1'\2", clean)
    return f"'{within}" if is_live else within
