"""The rows behind a number: plain tables that a reader shows, copies or saves."""

from dataclasses import dataclass, replace

from polars import selectors

from seasonboard.paging import PageAsked, PageFound
from seasonboard.terms import searchable

Cell = str | int | float | None


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table; figures stand right-aligned, shares are shown as percentages."""

    name: str
    heading: str
    is_number: bool = False
    is_share: bool = False


@dataclass(frozen=True, slots=True)
class Rows:
    """A page of a table: `offset` rows come before it, `matching` match what was searched for.

    `lead` are lines that stand above the rows.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    total: int
    matching: int
    offset: int = 0
    lead: tuple[str, ...] = ()

    @property
    def is_cut(self) -> bool:
        """Say whether there are more matching rows than these."""
        return self.matching > len(self.rows)


def page_in_memory(rows: Rows, page: PageAsked) -> Rows:
    """Return a page of rows that are all in memory, by the rules of the store."""
    matching = list(rows.rows)
    wanted = [searchable(word) for word in page.search.split()]
    if wanted:
        lines = [searchable(" ".join(map(_as_text, row))) for row in matching]
        matching = [
            row
            for row, line in zip(matching, lines, strict=True)
            if all(word in line for word in wanted)
        ]
    if page.sort:
        at = [column.name for column in rows.columns].index(page.sort)
        ranked = [row for row in matching if row[at] is not None]
        ranked.sort(key=lambda row: _rank(row[at]), reverse=page.descending)
        matching = ranked + [row for row in matching if row[at] is None]
    cut = tuple(matching[page.offset : page.offset + page.limit])
    return replace(rows, rows=cut, matching=len(matching), offset=page.offset)


def _as_text(cell: Cell) -> str:
    return "" if cell is None else str(cell)


def _rank(cell: Cell) -> tuple[bool, float, str]:
    """Rank figures before words; equal ones keep their order."""
    is_word = isinstance(cell, str)
    return is_word, 0.0 if cell is None or isinstance(cell, str) else float(cell), _as_text(cell)


def page_rows(title: str, columns: tuple[Column, ...], result: PageFound, page: PageAsked) -> Rows:
    """Return a page that the store found, days and instants written as text."""
    cells = result.rows.select(column.name for column in columns).with_columns(
        selectors.date().dt.to_string("%Y-%m-%d")
    )
    rows = tuple(cells.iter_rows())
    return Rows(title, columns, rows, result.total, result.matching, page.offset)
