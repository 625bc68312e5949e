"""The page of the Week screen: a strip of the days, what changed, what is ahead."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.fields import Field
from seasonboard.answers.week import item_tables as tables
from seasonboard.answers.week.report import day_counts
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Opens, Paper, What, paragraph, pictured, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.format import clean, day
from seasonboard.ui.week.day_strip import week_strip

if TYPE_CHECKING:
    from seasonboard.answers.week.parts import WeekAnswer, WeekItem

_MOST_CELLS = 5
"""Cells of a row that are named in place; the table has them all."""
_CHANGED, _WEEK = "week/what changed", Opens(What.WEEK)
_COUNTED_ITEMS = (
    *(tables.PLAYED, tables.PLAYED, tables.INJURIES, tables.RETURNS, tables.STAGES, tables.STAGES),
)
"""What the rows of the days count, in their order: games, practices, injuries and so on."""


def week_page(answer: "WeekAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, the strip of days, changes, what is ahead, what to keep in mind."""
    changed = [item for item in answer.items if not item.is_ahead]
    ahead = [item for item in answer.items if item.is_ahead]
    since = f"{answer.since:%a} {day(answer.since)}"
    sections = (
        partial(_items, "Ahead, and to be decided", ahead, "week/what is ahead"),
        partial(_items, f"Changed since {since}", changed, _CHANGED),
        *page_parts.ends(answer.summary, _CHANGED, _WEEK, caveats_card="week/rewinding"),
    )
    opening = page_parts.opening(answer.summary, paper, _CHANGED, _WEEK)
    return [*opening, GAP, *pictured(_strip(answer, paper)), *in_columns(sections, paper)]


def _strip(answer: "WeekAnswer", paper: Paper) -> list[Block]:
    """Return the days as a block a row, so that Enter opens what that row counts."""
    counts = day_counts(answer.days)
    lines = week_strip([one.day for one in answer.days], counts, paper)
    if not lines:
        return []
    head, rows, below = lines[:1], lines[1 : 1 + len(counts)], lines[1 + len(counts) :]
    blocks = [Block(tuple(head))]
    for (heading, _), line, item in zip(counts, rows, _COUNTED_ITEMS, strict=True):
        blocks.append(Block((line,), f"days {heading}", _CHANGED, Opens(What.WEEK, item.name)))
    return blocks + ([Block(tuple(below))] if below else [])


def _items(named: str, items: Sequence["WeekItem"], card: str, paper: Paper) -> list[Block]:
    blocks = [title(named, paper)]
    for item in items:
        lines = [Text(f" {clean(item.title)}", style=paper.ink.strong)]
        lines += paragraph(item.sentence, paper.width, indent="   ")
        for row in item.rows[: item.summary]:
            words = row_words(item.fields[:_MOST_CELLS], row)
            lines.append(Text(f"     {words}", style=paper.ink.quiet))
            lines[-1].truncate(paper.width, overflow="ellipsis")
        more = len(item.rows) - item.summary
        if item.summary and more > 0:
            lines.append(Text(f"     and {more} more", style=paper.ink.quiet))
        opens = Opens(What.WEEK, item.key)
        blocks.append(Block(tuple(lines), f"item {item.key}", card, opens))
    return blocks


def row_words(fields: Sequence[Field], row: object) -> str:
    """Return what a row holds in one line: figures by their headings, nothing of what is null."""
    return " · ".join(
        (f"{one.heading_of(None)} " if one.kind.is_number else "") + clean(one.read(row))
        for one in fields
        if one.get(row) is not None
    )
