"""The years of a season, for dates that are written without one."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

_YEAR = re.compile(r"(?<!\d)(20\d\d)(?:\s*[-–/]\s*(?:20)?(\d\d)(?![-/\d]))?(?!\d)")
_SHORT = re.compile(r"\b(?:fall|autumn|spring|winter|summer)[ _-]*['’]?(\d\d)(?!\d)", re.IGNORECASE)
SECOND_HALF = 7
"""Of a season over two years, months from July on are in the first year."""


@dataclass(frozen=True, slots=True)
class SeasonYears:
    """The year of a date that is written without one; `last` is the second year of two."""

    first: int
    last: int

    def of_month(self, month: int) -> int:
        """Return the year in which the season has a month."""
        return self.first if month >= SECOND_HALF else self.last


def years_in(texts: Iterable[str]) -> SeasonYears | None:
    """Return the year, or the two years, that the first of the texts with one names."""
    for text in texts:
        short = _SHORT.search(text)
        if short and not _YEAR.search(text):
            return SeasonYears(2000 + int(short[1]), 2000 + int(short[1]))
        parts = _YEAR.search(text)
        if parts:
            first = int(parts[1])
            last = first // 100 * 100 + int(parts[2]) if parts[2] else first
            return SeasonYears(first, last if last in {first, first + 1} else first)
    return None
