"""What the Week answer is made of."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

import polars as pl
from polars import selectors

from seasonboard.answers.base import Summary
from seasonboard.answers.options import option
from seasonboard.answers.rows import Cell, Column
from seasonboard.errors import ScopeError

DAYS_BACK = 7
"""Days that are looked back on, unless asked otherwise."""

DAYS_AHEAD = 7
"""Days that are looked ahead to."""


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

    `is_ahead` parts what must be looked at next from what changed. `said` is how many rows are
    read out with it; the rest is only counted.
    """

    key: str
    title: str
    sentence: str
    is_ahead: bool
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    summary: int = 2


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


def cells(frame: pl.DataFrame, columns: Sequence[Column]) -> tuple[tuple[Cell, ...], ...]:
    """Return the rows of the named columns, days written as in `2026-11-14`."""
    named = frame.select(column.name for column in columns)
    return tuple(named.with_columns(selectors.date().dt.to_string("%Y-%m-%d")).iter_rows())


def counted(words: Iterable[tuple[str, int]]) -> str:
    """Return counts as a person says them: `3 scanned, 2 printed`, without those that are 0."""
    return ", ".join(f"{count:,} {word}" for word, count in words if count)
