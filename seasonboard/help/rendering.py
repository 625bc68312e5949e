"""Markdown as text for a terminal: wrapped, with bold and underline but no colour."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import StringIO
from typing import ClassVar

from rich.console import Console, ConsoleOptions, RenderResult
from rich.markdown import Heading, Markdown, MarkdownElement
from rich.text import Text

_CODE = re.compile(r"(?<!`)`([^`]+)`(?!`)")


class _LeftHeading(Heading):
    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        """Draw it in one line at the left margin."""
        self.text.justify = "left"
        yield self.text


class _LeftMarkdown(Markdown):
    elements: ClassVar[dict[str, type[MarkdownElement]]] = {
        **Markdown.elements,
        "heading_open": _LeftHeading,
    }


def rendered(markdown: str, width: int, *, styled: bool) -> str:
    """Return Markdown as lines of at most `width` cells, with bold and underline as ANSI codes.

    Without them (`styled` false) code keeps its backticks.
    """
    if not styled:
        markdown = _CODE.sub(r"`` `\1` ``", markdown)
    out = StringIO()
    console = Console(
        file=out,
        width=width,
        force_terminal=styled,
        color_system="standard" if styled else None,
        no_color=True,
    )
    console.print(_LeftMarkdown(markdown.replace("```sh\n", "```text\n"), hyperlinks=False))
    lines = "\n".join(line.rstrip() for line in out.getvalue().splitlines())
    return re.sub(r"\n{3,}", "\n\n", lines).strip("\n") + "\n"


@dataclass(frozen=True, slots=True)
class RenderedTopic:
    """Markdown that draws itself as wide as it is let, in a window of the board."""

    markdown: str

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> Iterator[Text]:
        """Draw it."""
        yield Text.from_ansi(rendered(self.markdown, options.max_width, styled=True))
