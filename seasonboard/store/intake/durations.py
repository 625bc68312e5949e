"""Durations as people write them: `3:30`, `5h12`, `5 hrs`, `40 min`, `04:45:00`."""

import datetime as dt
import re

import polars as pl

from seasonboard.store.intake.time_words import time_of

_CLOCK = re.compile(r"^(\d{1,3}):([0-5]\d)(?::([0-5]\d))?$")
_INSTANT = r"(?:\d{4}-\d\d-\d\d[T ])?\d{1,2}:\d\d(?::\d\d)?(?:\s*[ap]\.?m\.?)?"
_SPAN = re.compile(rf"^({_INSTANT})\s*(?:-|–|to)?\s+({_INSTANT})$", re.IGNORECASE)
_PARTS = re.compile(
    r"^(?:(\d+(?:[.,]\d+)?)\s*(?:h|hrs?|hours?)\.?)?\s*(?:(\d+(?:[.,]\d+)?)\s*(?:m|mins?|minutes?)?\.?)?$",
    re.IGNORECASE,
)


def hours_of(text: str) -> float | None:
    """Return a duration in hours; None where the text is no duration with units or a colon."""
    bare = text.strip()
    if span := _SPAN.match(bare):
        return _between(span[1], span[2])
    if parts := _CLOCK.match(bare):
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
    plain = {
        one: f"{hours * factor:.6g}" for one in unplain if (hours := hours_of(one)) is not None
    }
    return text.with_columns(pl.col(name).replace(plain)) if plain else text
