"""A page of a long table: which rows are asked for, and what came back."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import polars as pl

MOST_ROWS = 500
"""Rows fetched at once; the total is told beside them."""


@dataclass(frozen=True, slots=True)
class PageAsked:
    """Which rows of a question are wanted; an empty `sort` keeps the question's own order.

    Rows without a value come last either way. All words of `search` must stand in a row, in any
    capitals and accents; empty finds all.
    """

    limit: int
    offset: int = 0
    sort: str = ""
    descending: bool = False
    search: str = ""


FIRST = PageAsked(MOST_ROWS)
"""The first page, unsorted and unsearched."""


@dataclass(frozen=True, slots=True)
class PageFound:
    """The rows of a page, how many match the search, and how many there are in all."""

    rows: "pl.DataFrame"
    matching: int
    total: int
