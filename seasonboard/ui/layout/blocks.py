"""What a page is made of: blocks of finished lines, some of which the cursor can rest on."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from rich.text import Text

from seasonboard.ui.layout.format import clean, wrap
from seasonboard.ui.layout.opens import Opens
from seasonboard.ui.themes import PLAIN, Ink


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
        name: What finds the block again when the page is drawn anew.
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

    @property
    def is_stop(self) -> bool:
        """Say whether the cursor rests on it."""
        return bool(self.name)


Draw = Callable[[Paper], Sequence[Block]]
"""Something that draws a page."""

GAP = Block((Text(""),))
"""An empty line."""


def paragraph(text: str, width: int, style: str = "", indent: str = " ") -> tuple[Text, ...]:
    """Return a text as wrapped lines; lines after the first start under the first."""
    lines = wrap(clean(text), width - len(indent))
    return tuple(Text(indent + line, style=style) for line in lines)


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


def title(text: str, paper: Paper) -> Block:
    """Return a heading inside a page."""
    return Block((Text(""), Text(f" {text}", style=paper.ink.strong)))
