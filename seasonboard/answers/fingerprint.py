"""Which state a store is in, so that a number on paper can be traced to the records behind it."""

from seasonboard.answers import words
from seasonboard.answers.reader import Reader


def fingerprint(reader: Reader) -> str:
    """Return the store's mark in words: `3fa94c0d21be, 14 loads`; it names no person."""
    (row,) = reader.read("store/fingerprint").iter_rows(named=True)
    return f"{row['fingerprint']}, {words.plural(row['loads'], 'load')}"
