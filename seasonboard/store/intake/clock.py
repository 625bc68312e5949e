"""Times of day and durations as people write them: `4 PM`, `noon`, `TBA`, `3:30`, `5 hrs`."""

import datetime as dt
import re

import polars as pl

from seasonboard.store.intake.folding import folded

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
