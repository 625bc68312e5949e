"""Days as headings of a grid write them: `9/5`, `Sat Sep 5`, `2026-09-05`, `21` under a month."""

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seasonboard.store.intake.folding import folded

_WEEKDAY = r"(?:(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s*)?"
_ISO = re.compile(r"^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ]00:00(?::00)?)?\s*(.*)$", re.DOTALL)
_NUMBERS = re.compile(
    rf"^{_WEEKDAY}(\d{{1,2}})[/.](\d{{1,2}})\.?(?:[/.](\d{{4}}|\d{{2}}))?(?!\d)\s*(.*)$",
    re.IGNORECASE | re.DOTALL,
)
_MONTH_FIRST = re.compile(
    rf"^{_WEEKDAY}([a-z]{{3,9}})\.?[\s-]*(\d{{1,2}})(?:st|nd|rd|th)?(?:,?\s*(\d{{4}}))?(?!\d)\s*(.*)$",
    re.IGNORECASE | re.DOTALL,
)
_DAY_FIRST = re.compile(
    rf"^{_WEEKDAY}(\d{{1,2}})(?:st|nd|rd|th)?\.?[\s-]*([a-z]{{3,9}})\.?(?:[\s,-]*(\d{{4}}))?(?!\d)\s*(.*)$",
    re.IGNORECASE | re.DOTALL,
)
_NUMBER = re.compile(rf"^{_WEEKDAY}(\d{{1,2}})(?:\.0)?(?:st|nd|rd|th)?$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class HeadingDay:
    """A day as a heading gives it; what it leaves open is 0. `rest` is what stands behind it.

    `numbers` are the two numbers of a heading such as 5/9, whose order the row settles.
    """

    day: int
    month: int = 0
    year: int = 0
    rest: str = ""
    numbers: tuple[int, int] | None = None


def heading_day(text: str, months: Mapping[str, int]) -> HeadingDay | None:
    """Return the day that a heading names; None when it names none.

    `months` are names of months, folded, and their numbers.
    """
    text = text.strip()
    if parts := _ISO.match(text):
        return HeadingDay(int(parts[3]), int(parts[2]), int(parts[1]), parts[4].strip())
    if parts := _NUMBERS.match(text):
        first, second = int(parts[1]), int(parts[2])
        year = int(parts[3] or 0)
        year += 2000 if 0 < year < 100 else 0
        if 1 <= first <= 31 and 1 <= second <= 31 and min(first, second) <= 12:
            return HeadingDay(0, 0, year, parts[4].strip(), (first, second))
        return None
    for pattern, month, day in ((_MONTH_FIRST, 1, 2), (_DAY_FIRST, 2, 1)):
        parts = pattern.match(text)
        number = months.get(folded(parts[month]), 0) if parts else 0
        if parts and number and 1 <= int(parts[day]) <= 31:
            return HeadingDay(int(parts[day]), number, int(parts[3] or 0), parts[4].strip())
    if (parts := _NUMBER.match(text)) and 1 <= int(parts[1]) <= 31:
        return HeadingDay(int(parts[1]))
    return None


def is_dated(text: str, months: Mapping[str, int]) -> bool:
    """Say whether a text names a day with its month."""
    day = heading_day(text, months)
    return day is not None and bool(day.month or day.numbers)


def month_of(text: str, months: Mapping[str, int]) -> int:
    """Return the month that a band over day numbers names, such as “October 2026”; 0 for none."""
    return next((months[word] for word in folded(text).split() if word in months), 0)


def with_order(days: Sequence[HeadingDay | None]) -> list[HeadingDay | None]:
    """Settle day and month of headings such as 5/9 from the whole row; None is another heading.

    Where nothing settles the order, it is the one in which the days run forward, and of two such
    the American one.
    """
    pairs = [one.numbers for one in days if one and one.numbers]
    swapped = [(second, first) for first, second in pairs]
    order = "mdy"
    if any(first > 12 for first, _ in pairs):
        order = "dmy"
    elif not any(second > 12 for _, second in pairs):
        order = "dmy" if swapped == sorted(swapped) and pairs != sorted(pairs) else "mdy"
    return [_ordered(one, order) if one and one.numbers else one for one in days]


def _ordered(one: HeadingDay, order: str) -> HeadingDay:
    first, second = one.numbers or (0, 0)
    month, day = (first, second) if order == "mdy" else (second, first)
    return HeadingDay(day, month, one.year, one.rest) if month <= 12 else one


def day_in(one: HeadingDay, year: int) -> dt.date | None:
    """Return a day with its month in a year; None where that does not exist."""
    try:
        return dt.date(year, one.month, one.day)
    except ValueError:
        return None
