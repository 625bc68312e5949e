"""A page of a long table: which rows are asked for, and what came back."""

from dataclasses import dataclass

import polars as pl


@dataclass(frozen=True, slots=True)
class PageAsked:
    """Which rows of a question are wanted.

    Attributes:
        limit: Rows at most.
        offset: Rows to skip.
        sort: The column to sort by; empty keeps the question's own order.
        descending: Largest first; rows without a value come last either way.
        search: Words that must all stand in a row, in any capitals and accents; empty finds all.
    """

    limit: int
    offset: int = 0
    sort: str = ""
    descending: bool = False
    search: str = ""


@dataclass(frozen=True, slots=True)
class PageFound:
    """The rows of a page, how many match the search, and how many there are in all."""

    rows: pl.DataFrame
    matching: int
    total: int
