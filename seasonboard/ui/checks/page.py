"""The page of the Checks screen: check by check, with the screens that each touches."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.checks.parts import ANSWERS
from seasonboard.answers.checks.report import CHECKS
from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.layout.tables import Head, column, heading, row_line

if TYPE_CHECKING:
    from seasonboard.answers.checks.parts import CheckCount, ChecksAnswer

TOUCH, NO_TOUCH = "●", "·"
KEY = f"{TOUCH} the check touches the screen with that key"
_ROWS = 7


def _touched(counted: "CheckCount") -> str:
    touches = counted.check.touches
    return " ".join(TOUCH if answer in touches else NO_TOUCH for answer in ANSWERS)


_HEADS = (
    column(CHECKS.field("count"), _ROWS),
    column(CHECKS.field("check"), 29),
    Head(
        " ".join(board.key for board in WITH_SCREENS if board.name in ANSWERS),
        2 * len(ANSWERS) - 1,
        cell=_touched,
    ),
    Head(
        *("", 20),
        grows=True,
        least=96,
        most=80,
        cell=lambda counted: ", ".join(dict.fromkeys(counted.check.touches.values())),
    ),
)
_INDENT = " " * (_ROWS + 2)


def checks_page(answer: "ChecksAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, every check, those that found something first with their words."""
    first = answer.doubtful[0].check.name if answer.doubtful else ""
    card = "checks/data checks"
    blocks = page_parts.opening(
        answer.summary, paper, card=card, opens=Opens(What.CHECK, first) if first else None
    )
    sections = (
        partial(_doubtful, answer),
        partial(_clear, answer),
        lambda half: page_parts.caveats(answer.summary, half, card=card),
    )
    return [*blocks, *in_columns(sections, paper)]


def _doubtful(answer: "ChecksAnswer", paper: Paper) -> list[Block]:
    head = heading(_HEADS, paper)
    return [
        GAP,
        *pictured([Block((head,))]),
        *pictured(_check(one, head, paper, is_doubtful=True) for one in answer.doubtful),
        Block(paragraph(KEY, paper.width, paper.ink.quiet)),
    ]


def _clear(answer: "ChecksAnswer", paper: Paper) -> list[Block]:
    if not answer.clear:
        return []
    head = heading(_HEADS, paper)
    checks = (_check(one, head, paper, is_doubtful=False) for one in answer.clear)
    return [title("Found nothing", paper), *checks]


def _check(counted: "CheckCount", head: Text, paper: Paper, *, is_doubtful: bool) -> Block:
    check = counted.check
    text = row_line(_HEADS, counted, paper)
    if not is_doubtful:
        text.stylize(paper.ink.quiet)
    asks = paragraph(check.asks, paper.width, paper.ink.quiet, _INDENT) if is_doubtful else ()
    return Block(
        (text, *asks),
        name=check.name,
        card=f"checks/{check.name}",
        opens=Opens(What.CHECK, check.name) if counted.count else None,
        heading=head,
    )
