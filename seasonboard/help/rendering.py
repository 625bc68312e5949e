"""Markdown as plain text for a terminal: wrapped, with bold and underline but no colour."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import StringIO
from typing import ClassVar

from rich import box
from rich.console import Console, ConsoleOptions, RenderResult
from rich.default_styles import DEFAULT_STYLES
from rich.markdown import CodeBlock, Heading, Markdown, MarkdownElement, TableElement
from rich.padding import Padding
from rich.table import Table
from rich.text import Text
from rich.theme import Theme

_BOLD = ("h2", "h3", "strong", "code", "table.header")
_PLAIN = Theme(
    {
        **{name: "none" for name in DEFAULT_STYLES if name.startswith("markdown.")},
        **{f"markdown.{name}": "bold" for name in _BOLD},
        "markdown.h1": "bold underline",
    }
)
_CODE = re.compile(r"(?<!`)`([^`]+)`(?!`)")


class _LeftHeading(Heading):
    """A heading at the left margin."""

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        """Draw it in one line."""
        self.text.justify = "left"
        yield self.text


class _Code(CodeBlock):
    """Code as it is written, a little to the right."""

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        """Draw it."""
        yield Padding(Text(str(self.text).rstrip()), (1, 1))


class _RuledTable(TableElement):
    """A table with a rule under its heads, and columns no wider than they need be."""

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        """Draw it."""
        for drawn in super().__rich_console__(console, options):
            if isinstance(drawn, Table):
                drawn.box = box.SIMPLE_HEAD
                drawn.pad_edge = False
            yield drawn


class _Plain(Markdown):
    """Markdown with our headings and tables."""

    elements: ClassVar[dict[str, type[MarkdownElement]]] = {
        **Markdown.elements,
        "heading_open": _LeftHeading,
        "fence": _Code,
        "table_open": _RuledTable,
    }


def rendered(markdown: str, width: int, *, styled: bool) -> str:
    """Return Markdown as lines of at most `width` cells.

    Args:
        markdown: The text.
        width: Cells across.
        styled: With bold and underline, as ANSI codes; without them code keeps its backticks.
    """
    out = StringIO()
    console = Console(
        file=out,
        width=width,
        theme=_PLAIN,
        force_terminal=styled,
        color_system="standard" if styled else None,
        emoji=False,
    )
    if not styled:
        markdown = _CODE.sub(r"`` `\1` ``", markdown)
    console.print(_Plain(markdown, hyperlinks=False))
    lines = "\n".join(line.rstrip() for line in out.getvalue().splitlines())
    return re.sub(r"\n{3,}", "\n\n", lines).strip("\n") + "\n"


@dataclass(frozen=True, slots=True)
class RenderedTopic:
    """Markdown that draws itself as wide as it is let, in a window of the board."""

    markdown: str

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> Iterator[Text]:
        """Draw it."""
        yield Text.from_ansi(rendered(self.markdown, options.max_width, styled=True))
