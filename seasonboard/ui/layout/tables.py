"""Tables inside a page: columns that fit the width, one block a row."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from typing import Any

from rich.text import Text

from seasonboard.answers.fields import Field, Table
from seasonboard.ui.layout.blocks import Block, Opens, Paper
from seasonboard.ui.layout.format import clean, fit, right, wrap

_LEAST = 7
"""Cells that a column of words keeps."""


@dataclass(frozen=True, slots=True)
class Head:
    """One column: its heading, its cells across, and whether it holds figures.

    A column with `grows` takes the room that is left, up to `most` cells, so that the eye finds
    the figures beside a name; one with `least` is shown only on paper at least so wide. `cell`
    gives what stands in it of a row; where that is longer than a column that `wraps`, its rest
    stands on the lines below.
    """

    heading: str
    width: int
    is_number: bool = False
    grows: bool = False
    least: int = 0
    most: int = 44
    wraps: bool = False
    cell: Callable[[Any], str | Text] = str


def column(field: Field, width: int, answer: object = None, **more: Any) -> Head:  # noqa: ANN401
    """Return a described field as a column of a page.

    Args:
        field: What stands in it, and its heading.
        width: Its cells across.
        answer: What the heading is made from, where it depends on the answer.
        more: `grows`, `least`, `most`, `wraps`, or another `heading` or `is_number`, as of `Head`.
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
    head, room = heading(heads, paper), fitted(heads, paper)
    blocks = []
    for row in rows:
        line, *rest = _row_lines(heads, row, paper, room)
        blocks.append(Block((*lines(row, line), *rest), *stop(row), head if stays else None))
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


def _row_lines(
    heads: Sequence[Head], row: object, paper: Paper, room: tuple[list[int], dict[int, int]]
) -> list[Text]:
    """Return a row as lines of the paper's width, each cell by its column."""
    columns, widths = room
    cells = [_cell_lines(heads[column], row, widths[column]) for column in columns]
    lines = []
    for parts in zip_longest(*cells):
        text = Text(" ")
        for column, part in zip(columns, parts, strict=True):
            text.append_text(part or Text(" " * widths[column])).append(" ")
        text.truncate(paper.width)
        lines.append(text)
    return lines


def _cell_lines(head: Head, row: object, width: int) -> list[Text]:
    cell = head.cell(row)
    if isinstance(cell, Text):
        padded = cell.copy()
        padded.truncate(width, pad=True)
        return [padded]
    lines = wrap(clean(cell), width) if head.wraps else [clean(cell)]
    return [Text(_aligned(line, head, width)) for line in lines]


def _aligned(text: str, head: Head, width: int) -> str:
    return right(text, width) if head.is_number else fit(text, width)
