"""A page of blocks that is scrolled and walked through with a cursor."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from rich.console import RenderableType
from rich.style import Style
from rich.text import Text
from textual import events
from textual.binding import BindingType
from textual.geometry import Region, Size, Spacing
from textual.message import Message
from textual.reactive import reactive, var
from textual.scroll_view import ScrollView
from textual.strip import Strip

from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Block, Draw, Paper, for_a_room
from seasonboard.ui.layout.columns import GUTTER, Piece, PlacedLine, lay_out
from seasonboard.ui.layout.drawing import Drawing
from seasonboard.ui.themes import PROJECTOR, Ink, ink

if TYPE_CHECKING:
    from collections.abc import Sequence

CURSOR = "▌"


class Page(ScrollView, can_focus=True):
    """Blocks drawn for the width there is; the cursor stops at those that have a name."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("down", "next", "Next", "To the next line with a number", "page.next", is_quiet=True),
        key("up", "previous", "Previous", "To the line before", "page.previous", is_quiet=True),
        key("pagedown", "page_down", "Page on", "A screenful on", "page.page_down", is_quiet=True),
        key("pageup", "page_up", "Page back", "A screenful back", "page.page_up", is_quiet=True),
        key("home", "first", "Top", "To the top of the page", "page.first", is_quiet=True),
        key("end", "last", "End", "To the end of the page", "page.last", is_quiet=True),
    ]

    draw: var[Draw | None] = var(None, always_update=True)
    is_old: reactive[bool] = reactive(False)

    @dataclass
    class Opened(Message):
        """Someone wants to see what is behind a block."""

        block: Block

    def __init__(self) -> None:
        """Make an empty page."""
        super().__init__()
        self._blocks: Sequence[Block] = ()
        self._laid = PlacedLine((), ())
        self._cursor = -1
        self._drawing = Drawing()

    @property
    def block(self) -> Block | None:
        """Return the block under the cursor."""
        return self._blocks[self._cursor] if 0 <= self._cursor < len(self._blocks) else None

    @property
    def blocks(self) -> "Sequence[Block]":
        """Return all there is on the page, in sight or not."""
        return self._blocks

    @property
    def ink(self) -> Ink:
        """Return the styles of the present theme; tints only where the terminal shows them."""
        return ink(self.app.theme_variables, tinted=self._has_tints)

    @property
    def _has_tints(self) -> bool:
        """Say whether one ground can be told from another: not in 16 colours."""
        return not self.app.no_color and self.app.console.color_system not in {None, "standard"}

    def on_mount(self) -> None:
        """Draw anew when the theme changes."""
        self.app.theme_changed_signal.subscribe(self, lambda _: self.redraw())

    def on_resize(self) -> None:
        """Draw for the new size."""
        self.redraw()

    def watch_draw(self) -> None:
        """Draw the new page; the cursor stays with the block of its name."""
        self.redraw()

    def redraw(self) -> None:
        """Draw the page for the present size and theme."""
        size = self.scrollable_content_region.size
        if self.draw is None or size.width <= GUTTER:
            return
        name = self.block.name if self.block else ""
        paper = Paper(size.width - GUTTER, size.height, self.ink)
        blocks = self._drawing.blocks(self.draw, paper)
        self._blocks = for_a_room(blocks) if self.app.theme == PROJECTOR else blocks
        self._laid = lay_out(self._blocks, size.width)
        self._cursor = (self._named(name) or self._stops() or [-1])[0]
        self.virtual_size = Size(size.width, len(self._laid.lines))
        self.refresh()

    def _named(self, name: str) -> list[int]:
        return [number for number in self._stops() if self._blocks[number].name == name]

    def _stops(self) -> list[int]:
        return [number for number, block in enumerate(self._blocks) if block.name]

    def render(self) -> RenderableType:
        """Return nothing: lines are rendered one by one."""
        return ""

    def render_line(self, y: int) -> Strip:
        """Return one line of what is in sight."""
        base = self.rich_style
        at = self.scroll_offset.y + y
        width = self.size.width
        if at >= len(self._laid.lines):
            return Strip.blank(width, base)
        strips: list[Strip] = []
        end = 0
        for piece in self._laid.lines[at]:
            column = piece.column
            strips += [Strip.blank(column.x - end, base), self._piece(piece, at, is_top=y == 0)]
            end = column.x + column.width
        strip = Strip.join(strips).adjust_cell_length(width, base).crop(0, width)
        return strip.apply_style(Style(dim=True)) if self.is_old else strip

    def _piece(self, piece: Piece, at: int, *, is_top: bool) -> Strip:
        """Return a block's line; the uppermost one in sight may be covered by its heading."""
        line, number = piece.text, piece.number
        heading = self._blocks[number].heading
        if is_top and heading is not None and at > self._laid.tops[number - 1]:
            line, number = heading, -2
        is_here = number == self._cursor and self.has_focus
        style = self.rich_style
        if is_here and self._has_tints:
            style += Style.parse(f"on {self.app.theme_variables['chosen']}")
        elif is_here:
            style += Style(bold=True)
        mark = Text(CURSOR if is_here else " ")
        mark.append_text(line)
        strip = Strip(mark.render(self.app.console), mark.cell_len)
        strip = strip.adjust_cell_length(piece.column.width).crop(0, piece.column.width)
        return Strip(
            [
                segment._replace(style=style + segment.style if segment.style else style)
                for segment in strip
            ]
        )

    def action_next(self) -> None:
        """Go to the next stop; after the last one, to the end of the page."""
        after = [number for number in self._stops() if number > self._cursor]
        if after:
            self.go_to(after[0])
        else:
            self.scroll_end(animate=False)

    def action_previous(self) -> None:
        """Go to the stop before; before the first one, to the top of the page."""
        before = [number for number in self._stops() if number < self._cursor]
        if before:
            self.go_to(before[-1])
        if len(before) < 2:
            self.scroll_home(animate=False)

    def action_first(self) -> None:
        """Go to the top."""
        self.go_to(next(iter(self._stops()), -1))
        self.scroll_home(animate=False)

    def action_last(self) -> None:
        """Go to the end."""
        self.go_to(next(reversed(self._stops()), -1))
        self.scroll_end(animate=False)

    def action_page_down(self) -> None:
        """Go a screenful on, the cursor with it."""
        self._turn(1)

    def action_page_up(self) -> None:
        """Go a screenful back, the cursor with it."""
        self._turn(-1)

    def _turn(self, by: int) -> None:
        by *= max(1, self.size.height - 2)
        self.scroll_to(y=self.scroll_offset.y + by, animate=False, immediate=True)
        top = self.scroll_offset.y
        in_sight = [
            number
            for number in self._stops()
            if self._laid.tops[number] < top + self.size.height and self._end(number) > top
        ]
        if in_sight:
            self._cursor = in_sight[0] if by > 0 else in_sight[-1]
        self.refresh()

    def _end(self, number: int) -> int:
        """Return the line after a block; a heading that stays covers the first line in sight."""
        block = self._blocks[number]
        covered = 1 if block.heading is not None else 0
        return self._laid.tops[number] + len(block.lines) - covered

    def go_to(self, number: int) -> None:
        """Put the cursor on a block and bring it into sight."""
        if not 0 <= number < len(self._blocks):
            return
        self._cursor = number
        block = self._blocks[number]
        region = Region(0, self._laid.tops[number], 1, max(1, len(block.lines)))
        spacing = Spacing(1 if block.heading is not None else 0, 0, 0, 0)
        self.scroll_to_region(region, spacing=spacing, animate=False, immediate=True, x_axis=False)
        self.refresh()

    def go_to_name(self, name: str) -> None:
        """Put the cursor on the block of a name, if there is one."""
        self.go_to(next(iter(self._named(name)), -1))

    def find(self, text: str, *, again: bool) -> bool:
        """Go to the next block that holds a text; say whether there is one."""
        folded = text.casefold()
        stops = self._stops()
        begin = self._cursor + (1 if again else 0)
        order = [n for n in stops if n >= begin] + [n for n in stops if n < begin]
        for number in order:
            shown = " ".join(line.plain.strip() for line in self._blocks[number].lines)
            if folded in shown.casefold():
                self.go_to(number)
                return True
        return False

    def on_click(self, event: events.Click) -> None:
        """Put the cursor where the mouse was clicked; a second click opens the block."""
        at = event.y + self.scroll_offset.y
        pieces = self._laid.lines[at] if at < len(self._laid.lines) else ()
        for number in (p.number for p in pieces if 0 <= event.x - p.column.x < p.column.width):
            block = self._blocks[number]
            if number == self._cursor and event.chain > 1:
                self.post_message(self.Opened(block))
            elif block.name:
                self.go_to(number)
