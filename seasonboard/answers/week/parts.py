"""What the Week answer is made of."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

import polars as pl

from seasonboard.answers.base import Summary
from seasonboard.answers.fields import Field, Table
from seasonboard.answers.options import option
from seasonboard.errors import ScopeError

DAYS_BACK = 7
"""Days that are looked back on, unless asked otherwise."""

DAYS_AHEAD = 7
"""Days that are looked ahead to."""

MOST_DAYS = 14
"""Days that are drawn side by side, at most."""


def read_since(text: str) -> date:
    """Return the day that was typed.

    Raises:
        ScopeError: It is no date.
    """
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        raise ScopeError(
            f"“{text}” is not a date for “since”.", "Write it as 2026-11-07."
        ) from None


@dataclass(frozen=True, slots=True)
class WeekOptions:
    """The last day known at the meeting before; None: seven days before the last day known."""

    since: date | None = option(
        None,
        "--since",
        "Last day already talked about, as 2026-11-07. Without it, seven days before “through”.",
        parse=read_since,
        metavar="DATE",
    )


OPTIONS = WeekOptions


@dataclass(frozen=True, slots=True)
class DayCounts:
    """What happened on one day; injuries on the day they became known."""

    day: date
    games: int
    practices: int
    injuries: int
    returns: int
    asked: int
    fitted: int


@dataclass(frozen=True, slots=True)
class WeekItem:
    """One thing to talk about: a title, a sentence to read aloud, and the rows behind it.

    `table` describes the rows. `is_ahead` parts what must be looked at next from what changed.
    `summary` is how many rows are read out with it; the rest is only counted.
    """

    table: Table
    title: str
    sentence: str
    rows: tuple[Any, ...]
    is_ahead: bool = False
    summary: int = 2

    @property
    def key(self) -> str:
        """Return what it is called by."""
        return self.table.name

    @property
    def fields(self) -> tuple[Field, ...]:
        """Return the fields of its rows that people read."""
        return self.table.read_fields()


@dataclass(frozen=True, slots=True)
class WeekAnswer:
    """The answer of the Week screen: what changed after `since` up to `through`, and what is ahead.

    `days` has every day of that stretch, in order.
    """

    summary: Summary
    since: date
    through: date
    days: tuple[DayCounts, ...]
    items: tuple[WeekItem, ...]

    def item(self, key: str) -> WeekItem:
        """Return one item by its key."""
        return next(item for item in self.items if item.key == key)


def day_words(day: date) -> str:
    """Return a day as a person says it: `Sat 14 Nov 2026`."""
    return f"{day:%a} {day.day} {day:%b %Y}"


def rows_of(frame: pl.DataFrame) -> tuple[dict[str, Any], ...]:
    """Return the rows of a frame, from which the fields of an item take theirs."""
    return tuple(frame.iter_rows(named=True))


def counted(counts: Iterable[tuple[str, int]]) -> str:
    """Return counts as a person says them: `3 scanned, 2 printed`, without those that are 0."""
    return ", ".join(f"{count:,} {word}" for word, count in counts if count)
