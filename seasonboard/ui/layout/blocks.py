"""What a page is made of: blocks of finished lines, where the cursor rests, what Enter opens."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from rich.text import Text

from seasonboard.ui.layout.format import clean, wrap
from seasonboard.ui.themes import PLAIN, Ink


class What(StrEnum):
    """The tables there are behind the lines of pages."""

    ATHLETE = "athlete"
    ATHLETES = "athletes"
    AVAILABILITY = "availability"
    CHECK = "check"
    CHECKS = "checks"
    DEPARTMENT = "department"
    DEPARTMENTS = "departments"
    GROUP = "group"
    INJURIES = "injuries"
    ORDERS = "orders"
    PROSPECT = "prospect"
    REMADE = "remade"
    ROSTER = "roster"
    STEPS = "steps"
    STRATA = "strata"
    TABLE = "table"
    TAKE_UP = "take-up"
    TEAM = "team"
    TICK = "tick"
    WEEK = "week"


@dataclass(frozen=True, slots=True)
class Opens:
    """A table behind a line; `key` says of which athlete, group, tick and so on."""

    what: What
    key: str = ""


INJURIES = Opens(What.INJURIES)
"""The injuries that an answer was counted from."""


@dataclass(frozen=True, slots=True)
class Paper:
    """What there is to draw on: cells across, cells down, and the styles to draw with."""

    width: int
    height: int
    ink: Ink = PLAIN


@dataclass(frozen=True, slots=True)
class PageColumn:
    """A column of a page: the cell in which its gutter is, and its width, gutter included."""

    x: int
    width: int


@dataclass(frozen=True, slots=True)
class Block:
    """Lines that belong together.

    Attributes:
        lines: The lines, each at most as wide as the paper.
        name: What finds the block again when the page is drawn anew; the cursor rests where one is.
        card: The method card of the number it shows.
        opens: What Enter opens; None: there are no rows behind it.
        heading: The heading that stays in sight while the block's table is scrolled.
        is_picture: Whether it is part of the page's picture, which can be saved alone.
        column: The column it stands in; without one it goes across the page.
    """

    lines: tuple[Text, ...]
    name: str = ""
    card: str = ""
    opens: Opens | None = None
    heading: Text | None = None
    is_picture: bool = False
    column: PageColumn | None = None


Draw = Callable[[Paper], Sequence[Block]]
"""Something that draws a page."""

GAP = Block((Text(""),))
"""An empty line."""


def paragraph(text: str, width: int, style: str = "", indent: str = " ") -> tuple[Text, ...]:
    """Return a text as wrapped lines; lines after the first start under the first."""
    lines = wrap(clean(text), width - len(indent))
    return tuple(Text(indent + line, style=style) for line in lines)


def note(text: str, paper: Paper, indent: str = " ") -> tuple[Text, ...]:
    """Return a text as wrapped quiet lines."""
    return paragraph(text, paper.width, paper.ink.quiet, indent)


def item(mark: str, text: str, paper: Paper, style: str = "") -> tuple[Text, ...]:
    """Return wrapped lines that hang under their mark: a bullet, a count, a name."""
    lines = wrap(clean(text), paper.width - len(mark) - 2)
    hang = " " * len(mark)
    return tuple(
        Text.assemble((" " + (hang if number else mark) + " ", paper.ink.quiet), (line, style))
        for number, line in enumerate(lines)
    )


def pictured(blocks: Iterable[Block]) -> list[Block]:
    """Return blocks as parts of the page's picture."""
    return [replace(block, is_picture=True) for block in blocks]


def for_a_room(blocks: Sequence[Block]) -> list[Block]:
    """Return the question, the answer and the picture of a page; without a picture, all of it."""
    first = next((nth for nth, block in enumerate(blocks) if block.is_picture), len(blocks))
    return [*blocks[:first], *(block for block in blocks[first:] if block.is_picture)]


def title(text: str, paper: Paper) -> Block:
    """Return a heading inside a page."""
    return Block((Text(""), Text(f" {text}", style=paper.ink.strong)))
