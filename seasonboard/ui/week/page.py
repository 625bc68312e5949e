"""The page of the Week screen: a strip of the days, what changed, what is ahead."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.fields import Field
from seasonboard.answers.week.report import day_counts
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.format import clean
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.week.day_strip import week_strip

if TYPE_CHECKING:
    from seasonboard.answers.week.parts import DayCounts, WeekAnswer, WeekItem

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
    lines = week_strip([day.day for day in days], day_counts(days), paper)
    if not lines:
        return []
    return [Block(tuple(lines), name="days", card="week/what changed", opens=Opens(What.WEEK))]


def row_words(fields: Sequence[Field], row: object) -> str:
    """Return what a row holds in one line: figures by their headings, nothing of what is null."""
    cells = [one for one in fields if one.get(row) is not None]
    return " · ".join(
        f"{one.heading_of(None)} {clean(one.read(row))}"
        if one.kind.is_number
        else clean(one.read(row))
        for one in cells
    )


def _item(item: "WeekItem", card: str, paper: Paper) -> Block:
    name = Text(f" {clean(item.title)}", style=paper.ink.strong)
    lines = [*paragraph(item.sentence, paper.width, indent="   ")]
    for row in item.rows[: item.summary]:
        words = row_words(item.fields[:_MOST_CELLS], row)
        text = Text(f"     {words}", style=paper.ink.quiet)
        text.truncate(paper.width, overflow="ellipsis")
        lines.append(text)
    more = len(item.rows) - item.summary
    if item.summary and more > 0:
        lines.append(Text(f"     and {more} more", style=paper.ink.quiet))
    return Block(
        (name, *lines), name=f"item {item.key}", card=card, opens=Opens(What.WEEK, item.key)
    )
