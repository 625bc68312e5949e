"""Rows as text: a cell, a title, all of them as lines."""

from collections.abc import Sequence
from functools import partial

from rich.cells import cell_len
from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.rows import Cell, Rows
from seasonboard.paging import PageAsked
from seasonboard.ui.layout.format import cell, clean, fit, right


def aligned(text: str, is_number: bool) -> Text:  # noqa: FBT001 - one flag of one helper
    """Return a cell of the table."""
    return Text(text, justify="right" if is_number else "left", no_wrap=True)


def cells(rows: Rows, row: Sequence[Cell]) -> list[str]:
    """Return the cells of one row as they are shown."""
    return [
        cell(value, is_share=column.is_share)
        for value, column in zip(row, rows.columns, strict=True)
    ]


def lines(rows: Rows) -> list[Text]:
    """Return the rows as lines with their columns under each other."""
    table = [[column.heading for column in rows.columns], *map(partial(cells, rows), rows.rows)]
    wide = [max(map(cell_len, column)) for column in zip(*table, strict=True)]
    numbers = [column.is_number for column in rows.columns]
    return [
        Text(
            "  ".join(
                (right if number else fit)(text, width)
                for text, width, number in zip(line, wide, numbers, strict=True)
            )
        )
        for line in table
    ]


def head(rows: Rows, page: PageAsked) -> Text:
    """Return the title of the table, with how many rows were found and are shown, and its lead."""
    count = words.plural(rows.total, "row")
    if page.search.strip():
        count = f"{words.whole(rows.matching)} of {count} found"
    if rows.is_cut and rows.rows:
        first = rows.offset + 1
        last = rows.offset + len(rows.rows)
        count += f" · {words.whole(first)} to {words.whole(last)}"
    text = Text(f" {clean(rows.title)} · {count}", style="bold")
    return text.append("".join(f"\n {clean(line)}" for line in rows.lead), style="not bold")
