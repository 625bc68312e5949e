"""Two columns on wide paper, and where every line of a page lies.

Lines of two hundred cells are not read: from `WIDE` cells on, the parts of a page stand side by
side, in the order in which they would have stood under each other.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, zip_longest

from rich.text import Text

from seasonboard.ui.layout.blocks import Block, PageColumn, Paper

WIDE = 150
"""Cells from which on a page has two columns."""
GUTTER = 1
"""Cells before every line, in which the cursor is shown."""
_BETWEEN = 2
"""Cells between the left column and the gutter of the right one."""

Section = Callable[[Paper], Sequence[Block]]
"""A part of a page that draws itself as wide as it is told."""


def in_columns(
    sections: Sequence[Section],
    paper: Paper,
    *,
    on_the_left: int | None = None,
    left_share: float = 0.5,
) -> list[Block]:
    """Return the sections under each other, or in two columns on wide paper.

    `on_the_left` is how many stand in the left column; without it, as many as make both columns
    about as long, which takes columns that are equally wide. `left_share` is the left one's width.
    """
    if paper.width < WIDE:
        return [block for section in sections for block in section(paper)]
    room = paper.width - _BETWEEN - GUTTER
    wide = int(room * left_share)
    left = PageColumn(0, wide + GUTTER)
    right = PageColumn(left.width + _BETWEEN, room - wide + GUTTER)
    if on_the_left is None:
        on_the_left = _even([section(replace(paper, width=wide)) for section in sections])
    return [
        replace(block, column=column)
        for column, part in ((left, sections[:on_the_left]), (right, sections[on_the_left:]))
        for section in part
        for block in section(replace(paper, width=column.width - GUTTER))
    ]


def _even(sections: Sequence[Sequence[Block]]) -> int:
    """Return how many sections on the left leave the longer column shortest."""
    heights = [sum(len(block.lines) for block in blocks) for blocks in sections]
    splits = range(1, len(heights) + 1)
    return min(splits, key=lambda split: max(sum(heights[:split]), sum(heights[split:])), default=0)


@dataclass(frozen=True, slots=True)
class Piece:
    """A block's line on a page: its block's number, and the column it stands in."""

    text: Text
    number: int
    column: PageColumn


@dataclass(frozen=True, slots=True)
class PlacedLine:
    """The lines of a page, each of one or two pieces, and the first line of every block."""

    lines: tuple[tuple[Piece, ...], ...]
    tops: tuple[int, ...]


def lay_out(blocks: Sequence[Block], width: int) -> PlacedLine:
    """Return where the lines of blocks lie on a page of `width` cells, gutter included."""
    lines: list[tuple[Piece, ...]] = []
    tops: list[int] = []
    across = PageColumn(0, width)
    for _, band in groupby(enumerate(blocks), key=lambda each: each[1].column is None):
        begin = len(lines)
        stacks: dict[PageColumn, list[Piece]] = {}
        for number, block in band:
            column = block.column or across
            stack = stacks.setdefault(column, [])
            tops.append(begin + len(stack))
            stack += [Piece(line, number, column) for line in block.lines]
        lines += [
            tuple(piece for piece in pieces if piece is not None)
            for pieces in zip_longest(*stacks.values())
        ]
    return PlacedLine(tuple(lines), tuple(tops))
