"""The page of the Checks screen: check by check, with the screens that each touches."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.checks.parts import ANSWERS
from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.tables import Head, heading, line

if TYPE_CHECKING:
    from seasonboard.answers.checks.parts import CheckFound, ChecksAnswer

TOUCH, NO_TOUCH = "●", "·"
KEY = f"{TOUCH} the check touches the screen with that key"
_ROWS = 7
_HEADS = (
    Head("rows", _ROWS, is_number=True),
    Head("check", 29),
    Head(
        " ".join(board.key for board in WITH_SCREENS if board.name in ANSWERS), 2 * len(ANSWERS) - 1
    ),
    Head("", 20, grows=True, least=96, most=80),
)
_INDENT = " " * (_ROWS + 2)


def checks_page(answer: "ChecksAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, every check, those that found something first with their words."""
    first = answer.found[0].check.name if answer.found else ""
    card = "checks/data checks"
    blocks = page_parts.opening(
        answer.summary, paper, card=card, opens=f"check:{first}" if first else ""
    )
    sections = (
        partial(_found, answer),
        partial(_clear, answer),
        lambda half: page_parts.caveats(answer.summary, half, card=card),
    )
    return [*blocks, *in_columns(sections, paper)]


def _found(answer: "ChecksAnswer", paper: Paper) -> list[Block]:
    head = heading(_HEADS, paper)
    return [
        GAP,
        *pictured([Block((head,))]),
        *pictured(_check(each, head, paper, is_told=True) for each in answer.found),
        Block(paragraph(KEY, paper.width, paper.ink.quiet)),
    ]


def _clear(answer: "ChecksAnswer", paper: Paper) -> list[Block]:
    if not answer.clear:
        return []
    head = heading(_HEADS, paper)
    checks = (_check(each, head, paper, is_told=False) for each in answer.clear)
    return [title("Found nothing", paper), *checks]


def _check(each: "CheckFound", head: Text, paper: Paper, *, is_told: bool) -> Block:
    check = each.check
    touched = " ".join(TOUCH if answer in check.touches else NO_TOUCH for answer in ANSWERS)
    cells = (
        words.whole(each.count),
        check.name,
        touched,
        ", ".join(dict.fromkeys(check.touches.values())),
    )
    text = line(_HEADS, cells, paper)
    if not is_told:
        text.stylize(paper.ink.quiet)
    asks = paragraph(check.asks, paper.width, paper.ink.quiet, _INDENT) if is_told else ()
    return Block(
        (text, *asks),
        name=check.name,
        card=f"checks/{check.name}",
        opens=f"check:{check.name}" if each.count else "",
        heading=head,
    )
