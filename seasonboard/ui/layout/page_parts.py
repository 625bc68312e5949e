"""The parts that every page has: question and answer, what was left out, what to keep in mind."""

from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui.layout.blocks import (
    INJURIES,
    Block,
    Opens,
    Paper,
    What,
    item,
    note,
    paragraph,
    title,
)
from seasonboard.ui.layout.columns import Section

if TYPE_CHECKING:
    from seasonboard.answers.base import Summary

READABLE = 120
"""Cells of a line of prose, at most: the eye does not find the next line after a longer one."""


def question(text: str, paper: Paper) -> list[Block]:
    """Return a question whose answer is not there yet."""
    return [Block(paragraph(text, paper.width, paper.ink.strong))]


def opening(summary: "Summary", paper: Paper, card: str, opens: Opens | None) -> list[Block]:
    """Return the question and its answer; the answer is the first stop of a page."""
    answer = paragraph(summary.answer, min(paper.width, READABLE))
    return [*question(summary.question, paper), Block(answer, "answer", card, opens)]


def ends(
    summary: "Summary", card: str, opens: Opens = INJURIES, *, caveats_card: str = ""
) -> tuple[Section, Section]:
    """Return the last parts of a page: what was left out, and what to keep in mind.

    `caveats_card` is the method card of what to keep in mind, where it is not that of the first.
    """
    return (
        partial(left_out, summary, card, opens),
        partial(caveats, summary, caveats_card or card),
    )


def left_out(summary: "Summary", card: str, opens: Opens, paper: Paper) -> list[Block]:
    """Return what was recorded but does not count: how many, what and why; no line for nothing."""
    lines = [left for left in summary.left_out if left.count]
    wide = max([7, *(len(words.whole(left.count)) for left in lines)])
    texts = [
        item(words.whole(left.count).rjust(wide), f"{left.what}: {left.why}", paper)
        for left in lines
    ]
    if not texts:
        return []
    blocks = (Block(text, f"left out {n}", card, opens) for n, text in enumerate(texts))
    return [title("Left out", paper), *blocks]


def doubts(summary: "Summary", paper: Paper) -> list[Block]:
    """Return the line that names the data checks which touch the answer."""
    lines = (Text(""), *note(summary.doubts_line(), paper))
    return [Block(lines, "data checks", "checks/data checks", Opens(What.CHECKS))]


def caveats(
    summary: "Summary", card: str, paper: Paper, without: tuple[str, ...] = ()
) -> list[Block]:
    """Return what to keep in mind, the caution first; `without` what the page says elsewhere."""
    lines = [caveat for caveat in summary.caveats if caveat not in without]
    blocks = (
        Block(item("·", caveat, paper), f"caveat {number}", card)
        for number, caveat in enumerate(lines)
    )
    return [title("Keep in mind", paper), *blocks]


def refusal(what: str, hint: str, paper: Paper) -> list[Block]:
    """Return what could not be answered and what to do about it."""
    strong = paragraph(what, paper.width, paper.ink.strong)
    return [Block((*strong, *paragraph(hint, paper.width), Text("")))]


def nothing_recorded(asks: str, paper: Paper) -> list[Block]:
    """Return what an empty store's screens say: what is missing, and the keys that mend it."""
    steps = (
        ("", "Nothing is recorded yet, so there is nothing to answer from."),
        ("", ""),
        ("bold", "  l f   loads a table, a workbook or a folder of them"),
        ("", "By hand one records (l) once there are a department, a team and its athletes."),
        ("", ""),
        ("", "To see the board on an invented season, leave with q and start"),
        ("bold", "  seasonboard --sample"),
    )
    return [
        *question(asks, paper),
        Block(tuple(Text(f" {text}", style=style) for style, text in steps)),
    ]
