"""The page of the Week screen: a strip of the days, what changed, what is ahead."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.format import cell, clean
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.week.day_strip import week_strip

if TYPE_CHECKING:
    from seasonboard.answers.week.parts import DayCounts, WeekAnswer, WeekItem

_ROWS = ("games", "practices", "injuries", "returns", "asked", "fitted")
_WORDS = {"asked": "orders", "fitted": "guards fitted"}
_MOST_CELLS = 5
"""Cells of a row that are named in place; the table has them all."""


def week_page(answer: "WeekAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, the strip of days, changes, what is ahead, what to keep in mind."""
    changed = [item for item in answer.items if not item.is_ahead]
    ahead = [item for item in answer.items if item.is_ahead]
    summary = answer.summary
    since = f"{answer.since:%a} {answer.since.day} {answer.since:%b}"
    return [
        *page_parts.opening(
            answer.summary, paper, card="week/what changed", opens=Opens(What.WEEK)
        ),
        GAP,
        *pictured(_strip(answer.days, paper)),
        *in_columns(
            (
                lambda half: _items("Ahead, and to be decided", ahead, "what is ahead", half),
                lambda half: _items(f"Changed since {since}", changed, "what changed", half),
                lambda half: page_parts.left_out(
                    summary, half, card="week/what changed", opens=Opens(What.WEEK)
                ),
                lambda half: page_parts.caveats(summary, half, card="week/rewinding"),
            ),
            paper,
        ),
    ]


def _items(named: str, items: Sequence["WeekItem"], card: str, paper: Paper) -> list[Block]:
    return [title(named, paper), *(_item(item, f"week/{card}", paper) for item in items)]


def _strip(days: Sequence["DayCounts"], paper: Paper) -> list[Block]:
    rows = [(_WORDS.get(row, row), [getattr(day, row) for day in days]) for row in _ROWS]
    lines = week_strip([day.day for day in days], rows, paper)
    if not lines:
        return []
    return [Block(tuple(lines), name="days", card="week/what changed", opens=Opens(What.WEEK))]


def _item(item: "WeekItem", card: str, paper: Paper) -> Block:
    name = Text(f" {clean(item.title)}", style=paper.ink.strong)
    lines = [*paragraph(item.sentence, paper.width, indent="   ")]
    for row in item.rows[: item.summary]:
        told = " · ".join(
            f"{column.heading} {cell(value)}" if column.is_number else cell(value)
            for value, column in zip(row[:_MOST_CELLS], item.columns, strict=False)
            if value is not None
        )
        text = Text(f"     {told}", style=paper.ink.quiet)
        text.truncate(paper.width, overflow="ellipsis")
        lines.append(text)
    more = len(item.rows) - item.summary
    if item.summary and more > 0:
        lines.append(Text(f"     and {more} more", style=paper.ink.quiet))
    return Block(
        (name, *lines), name=f"item {item.key}", card=card, opens=Opens(What.WEEK, item.key)
    )
