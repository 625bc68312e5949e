"""Tables inside a page: columns that fit the width, one block a row."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from rich.text import Text

from seasonboard.answers.fields import Field, Table
from seasonboard.ui.layout.blocks import Block, Opens, Paper
from seasonboard.ui.layout.format import clean, fit, right

_LEAST = 7
"""Cells that a column of words keeps."""


@dataclass(frozen=True, slots=True)
class Head:
    """One column: its heading, its cells across, and whether it holds figures.

    A column with `grows` takes the room that is left, up to `most` cells, so that the eye finds
    the figures beside a name; one with `least` is shown only on paper at least so wide. `cell`
    gives what stands in it of a row.
    """

    heading: str
    width: int
    is_number: bool = False
    grows: bool = False
    least: int = 0
    most: int = 44
    cell: Callable[[Any], str | Text] = str


def column(field: Field, width: int, answer: object = None, **more: Any) -> Head:  # noqa: ANN401
    """Return a described field as a column of a page.

    Args:
        field: What stands in it, and its heading.
        width: Its cells across.
        answer: What the heading is made from, where it depends on the answer.
        more: `grows`, `least`, `most`, or another `heading` or `is_number`, as of `Head`.
    """
    drawn = {"is_number": field.kind.is_number, "cell": field.read, **more}
    text = drawn.pop("heading", None)
    return Head(field.heading_of(answer) if text is None else text, width, **drawn)


def columns(table: Table, answer: object = None, **widths: int) -> list[Head]:
    """Return several described fields as columns of these widths."""
    return [column(table.field(name), width, answer) for name, width in widths.items()]


def table_blocks(  # noqa: PLR0913 - each says one thing of it
    heads: Sequence[Head],
    rows: Iterable[Any],
    paper: Paper,
    stop: Callable[[Any], tuple[str, str, Opens | None]],
    *,
    above: Sequence[Text] = (),
    lines: Callable[[Any, Text], Iterable[Text]] = lambda _, line: (line,),
    stays: bool = True,
) -> list[Block]:
    """Return a table: the headings, and a block a row; nothing without rows.

    Args:
        heads: The columns.
        rows: The rows.
        paper: What to draw on.
        stop: Gives of a row the name, the card and what Enter opens of its block.
        above: What stands above the rows, where it is more than the headings.
        lines: Gives the lines of a row and of its line, where they are more than that line.
        stays: Whether the headings stay in sight while the table is scrolled.
    """
    head = heading(heads, paper)
    blocks = [
        Block((*lines(row, row_line(heads, row, paper)),), *stop(row), head if stays else None)
        for row in rows
    ]
    return [Block((*above,) or (head,)), *blocks] if blocks else []


def fitted(heads: Sequence[Head], paper: Paper) -> tuple[list[int], dict[int, int]]:
    """Return the columns there is room for, and how wide each of them is.

    Where there is too little room, columns that grow shrink first, then the other words; figures
    keep their width, so that none is read without its end.
    """
    columns = [column for column, head in enumerate(heads) if paper.width >= head.least]
    widths = {column: heads[column].width for column in columns}
    room = paper.width - 1 - sum(width + 1 for width in widths.values())
    growing = [column for column in columns if heads[column].grows]
    spare = max(0, room)
    for number, column in enumerate(sorted(growing, key=lambda column: heads[column].most)):
        share = -(-spare // (len(growing) - number))
        growth = min(share, max(0, heads[column].most - widths[column]))
        widths[column] += growth
        spare -= growth
    words = [column for column in columns if not heads[column].is_number]
    for column in (*growing, *(column for column in words if column not in growing)):
        given = min(max(0, -room), max(0, widths[column] - _LEAST))
        widths[column] -= given
        room += given
    return columns, widths


def heading(heads: Sequence[Head], paper: Paper) -> Text:
    """Return the headings as one quiet line."""
    columns, widths = fitted(heads, paper)
    cells = (_aligned(heads[column].heading, heads[column], widths[column]) for column in columns)
    text = Text(" " + " ".join(cells), style=paper.ink.quiet)
    text.truncate(paper.width)
    return text


def row_line(heads: Sequence[Head], row: object, paper: Paper) -> Text:
    """Return a row as a line of the paper's width, each cell by its column."""
    columns, widths = fitted(heads, paper)
    text = Text(" ")
    for column in columns:
        cell = heads[column].cell(row)
        if isinstance(cell, Text):
            padded = cell.copy()
            padded.truncate(widths[column], pad=True)
            text.append_text(padded)
        else:
            text.append(_aligned(clean(cell), heads[column], widths[column]))
        text.append(" ")
    text.truncate(paper.width)
    return text


def _aligned(text: str, head: Head, width: int) -> str:
    return right(text, width) if head.is_number else fit(text, width)
