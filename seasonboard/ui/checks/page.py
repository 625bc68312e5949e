"""The page of the Checks screen: check by check, with the screens that each touches."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.checks.parts import ANSWERS
from seasonboard.answers.checks.report import CHECKS
from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Opens, Paper, What, note, pictured, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.tables import Head, column, heading, table_blocks

if TYPE_CHECKING:
    from seasonboard.answers.checks.parts import CheckCount, ChecksAnswer

TOUCH, NO_TOUCH = "●", "·"
KEY = f"{TOUCH} the check touches the screen with that key"
_ROWS = 7


_HEADS = (
    column(CHECKS.field("count"), _ROWS),
    column(CHECKS.field("check"), 29),
    Head(
        " ".join(board.key for board in WITH_SCREENS if board.name in ANSWERS),
        2 * len(ANSWERS) - 1,
        cell=lambda one: " ".join(
            TOUCH if answer in one.check.touches else NO_TOUCH for answer in ANSWERS
        ),
    ),
    Head(
        *("", 20),
        grows=True,
        least=96,
        most=80,
        cell=lambda one: ", ".join(dict.fromkeys(one.check.touches.values())),
    ),
)
_INDENT = " " * (_ROWS + 2)


def checks_page(answer: "ChecksAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, every check, those that found something first with their words."""
    first, card = answer.doubtful[:1], "checks/data checks"
    opens = Opens(What.CHECK, first[0].check.name) if first else None
    sections = (
        partial(_doubtful, answer),
        partial(_clear, answer),
        partial(page_parts.caveats, answer.summary, card),
    )
    opening = page_parts.opening(answer.summary, paper, card, opens)
    return [*opening, *in_columns(sections, paper)]


def _doubtful(answer: "ChecksAnswer", paper: Paper) -> list[Block]:
    def lines(one: "CheckCount", line: Text) -> tuple[Text, ...]:
        return (line, *note(one.check.asks, paper, _INDENT))

    table = table_blocks(_HEADS, answer.doubtful, paper, _stop, lines=lines)
    head = Block((heading(_HEADS, paper),))
    return [GAP, *pictured(table or [head]), Block(note(KEY, paper))]


def _clear(answer: "ChecksAnswer", paper: Paper) -> list[Block]:
    def lines(_: "CheckCount", line: Text) -> tuple[Text]:
        line.stylize(paper.ink.quiet)
        return (line,)

    table = table_blocks(_HEADS, answer.clear, paper, _stop, lines=lines)
    return [title("Found nothing", paper), *table[1:]] if table else []


def _stop(one: "CheckCount") -> tuple[str, str, Opens | None]:
    name = one.check.name
    return name, f"checks/{name}", Opens(What.CHECK, name) if one.count else None
