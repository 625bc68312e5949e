"""Counts and lists as notes and problems say them."""

from collections.abc import Iterable
from itertools import islice

SHOWN = 5
"""So many row numbers stand in a note about many rows."""


def counted(many: int, one: str, more: str) -> str:
    """Return a count with its words: `1 row is`, `1,200 rows are`."""
    return f"{many:,} {one if many == 1 else more}"


def quoted(words: Iterable[object]) -> str:
    """Return words in quotation marks, commas between them."""
    return ", ".join(f"“{word}”" for word in words)


def first_few(items: Iterable[object], most: int = SHOWN) -> str:
    """Return the first items, and dots where there are more."""
    shown = [str(item) for item in islice(items, most + 1)]
    return ", ".join(shown[:most]) + (", …" if len(shown) > most else "")
