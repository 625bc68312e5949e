"""Days, times of day and durations as single cells and headings write them."""

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import polars as pl

from seasonboard.store.intake.text_columns import folded

HALF_TIMES = {"AM": "09:00", "PM": "16:00"}
"""What is put for a half day whose hour a file does not give; told whenever it is."""

NOON = "12:00"
"""What is put for a time of day that is not known; told whenever it is."""

UNKNOWN_TIMES = ("tba", "tbd", "tbc", "time tba", "time tbd", "to be announced", "?")

_CLOCK = re.compile(
    r"^(\d{1,2})(?:[:.h](\d{2})(?::(\d{2}))?)?\s*(?:([ap])(?:\.?\s*m)?\.?)?"
    r"(?:\s*(?:-|–|to)\s*\d{1,2}(?:[:.]\d{2})?\s*(?:[ap]\.?m\.?)?)?\s*(?:[ecmp][sd]?t)?$",
    re.IGNORECASE,
)
_WORDS = {"noon": "12:00", "12 noon": "12:00", "midday": "12:00", "midnight": "00:00"}
_HALVES = dict.fromkeys(("am", "a m", "morning"), "AM")
_HALVES |= dict.fromkeys(("pm", "p m", "afternoon", "evening"), "PM")
_DURATION = re.compile(r"^(\d{1,3}):([0-5]\d)(?::([0-5]\d))?$")
_INSTANT = r"(?:\d{4}-\d\d-\d\d[T ])?\d{1,2}:\d\d(?::\d\d)?(?:\s*[ap]\.?m\.?)?"
_SPAN = re.compile(rf"^({_INSTANT})\s*(?:-|–|to)?\s+({_INSTANT})$", re.IGNORECASE)
_PARTS = re.compile(
    r"^(?:(\d+(?:[.,]\d+)?)\s*(?:h|hrs?|hours?)\.?)?\s*(?:(\d+(?:[.,]\d+)?)\s*(?:m|mins?|minutes?)?\.?)?$",
    re.IGNORECASE,
)


def time_of(text: str) -> str:
    """Return a time of day as `HH:MM`; nothing where the text is none.

    A bare hour counts only with am or pm; of a span, “4:00-5:30 PM”, the start counts.
    """
    bare = text.strip().casefold()
    if bare in _WORDS:
        return _WORDS[bare]
    parts = _CLOCK.match(bare)
    if not parts or (parts[2] is None and parts[4] is None and "m" not in bare):
        return ""
    hour, minute = int(parts[1]), int(parts[2] or 0)
    letter = parts[4] or (re.search(r"([ap])\.?m", bare) or [None, None])[1]
    if letter:
        if not 1 <= hour <= 12:
            return ""
        hour = hour % 12 + (12 if letter == "p" else 0)
    if hour > 23 or minute > 59 or (parts[2] is None and letter is None):
        return ""
    return f"{hour:02d}:{minute:02d}"


def half_of(text: str) -> str:
    """Return `AM` or `PM` of a cell that names only the half of the day; else nothing."""
    return _HALVES.get(folded(text), "")


def hours_of(text: str) -> float | None:
    """Return a duration in hours; None where the text is no duration with units or a colon."""
    bare = text.strip()
    if span := _SPAN.match(bare):
        return _between(span[1], span[2])
    if parts := _DURATION.match(bare):
        return int(parts[1]) + int(parts[2]) / 60 + int(parts[3] or 0) / 3600
    parts = _PARTS.match(bare)
    if not parts or not re.search(r"[a-z]", bare, re.IGNORECASE):
        return None
    hours, minutes = (float((part or "0").replace(",", ".")) for part in parts.groups())
    return hours + minutes / 60


def _between(start: str, end: str) -> float | None:
    """Return the hours from one instant or time of day to another; over midnight where it must."""
    try:
        times = [dt.datetime.fromisoformat(one.replace(" ", "T")) for one in (start, end)]
    except ValueError:
        clocks = [time_of(one) for one in (start, end)]
        if not all(clocks):
            return None
        times = [dt.datetime.fromisoformat(f"2000-01-01T{clock}") for clock in clocks]
        times[1] += dt.timedelta(days=times[1] < times[0])
    hours = (times[1] - times[0]).total_seconds() / 3600
    return hours if hours >= 0 else None


def with_plain_durations(text: pl.DataFrame, name: str, unit: str) -> pl.DataFrame:
    """Return text whose durations stand as plain numbers of a unit, `hours` or `minutes`."""
    factor = {"hours": 1, "minutes": 60}.get(unit)
    if factor is None or text.schema[name] != pl.String:
        return text
    values = text[name].unique().drop_nulls()
    marks = r"[:a-zA-Z]" if unit == "hours" else "[a-zA-Z]"  # 60:30 may be minutes and seconds
    unplain = values.filter(values.str.contains(marks)).to_list()
    numbers = {
        one: f"{hours * factor:.6g}" for one in unplain if (hours := hours_of(one)) is not None
    }
    return text.with_columns(pl.col(name).replace(numbers)) if numbers else text


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
