"""The parts that every page has: question and answer, what was left out, what to keep in mind."""

from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui.layout.blocks import Block, Paper, item, paragraph, title
from seasonboard.ui.layout.opens import INJURIES, Opens, What

if TYPE_CHECKING:
    from seasonboard.answers.base import Summary

READABLE = 120
"""Cells of a line of prose, at most: the eye does not find the next line after a longer one."""


def question(text: str, paper: Paper) -> list[Block]:
    """Return a question whose answer is not there yet."""
    return [Block(paragraph(text, paper.width, paper.ink.strong))]


def opening(summary: "Summary", paper: Paper, *, card: str, opens: Opens | None) -> list[Block]:
    """Return the question and its answer; the answer is the first stop of a page."""
    return [
        *question(summary.question, paper),
        Block(_prose(summary.answer, paper), name="answer", card=card, opens=opens),
    ]


def _prose(text: str, paper: Paper) -> tuple[Text, ...]:
    return paragraph(text, min(paper.width, READABLE))


def left_out(
    summary: "Summary", paper: Paper, *, card: str = "left out", opens: Opens = INJURIES
) -> list[Block]:
    """Return what was recorded but does not count: how many, what and why."""
    lines = [left for left in summary.left_out if left.count]
    if not lines:
        return [
            title("Left out", paper),
            Block((Text(" nothing"),), name="left out 0", card=card, opens=opens),
        ]
    wide = max(len(words.whole(left.count)) for left in lines)
    return [
        title("Left out", paper),
        *(
            Block(
                item(
                    words.whole(left.count).rjust(max(7, wide)),
                    f"{left.what}: {left.why}",
                    paper,
                ),
                name=f"left out {number}",
                card=card,
                opens=opens,
            )
            for number, left in enumerate(lines)
        ),
    ]


def doubts(summary: "Summary", paper: Paper) -> list[Block]:
    """Return the line that names the data checks which touch the answer."""
    lines = paragraph(summary.doubts_line(), paper.width, paper.ink.quiet)
    return [
        Block(
            (Text(""), *lines),
            name="data checks",
            card="checks/data checks",
            opens=Opens(What.CHECKS),
        )
    ]


def caveats(
    summary: "Summary", paper: Paper, *, card: str, without: tuple[str, ...] = ()
) -> list[Block]:
    """Return what to keep in mind, the caution first; `without` what the page says elsewhere."""
    lines = [caveat for caveat in summary.caveats if caveat not in without]
    return [
        title("Keep in mind", paper),
        *(
            Block(item("·", caveat, paper), name=f"caveat {number}", card=card)
            for number, caveat in enumerate(lines)
        ),
    ]


def refusal(what: str, hint: str, paper: Paper) -> list[Block]:
    """Return what could not be answered and what to do about it."""
    lines = (
        *paragraph(what, paper.width, paper.ink.strong),
        *paragraph(hint, paper.width),
        Text(""),
    )
    return [Block(lines)]


def nothing_recorded(asks: str, paper: Paper) -> list[Block]:
    """Return what an empty store's screens say: what is missing, and how to load it."""
    steps = (
        ("", "Nothing is recorded yet, so there is nothing to answer from."),
        ("", ""),
        ("", "Load a folder of tables into a store:"),
        ("bold", "  seasonboard load FOLDER --store FILE"),
        ("", "See the board on an invented season first:"),
        ("bold", "  seasonboard --sample"),
    )
    return [
        *question(asks, paper),
        Block(tuple(Text(f" {text}", style=style) for style, text in steps)),
    ]
