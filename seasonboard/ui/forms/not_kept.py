"""Says that what is open is not written to, and how to have a store of one's own."""

from typing import ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.ui.widgets.lines import TooSmall

LINES = (
    ("bold", "The invented sample season is not written to."),
    ("", ""),
    ("", "To record a season of your own, load its tables into a store:"),
    ("bold", "  seasonboard load FOLDER --store FILE"),
    ("", "and open the board on it:"),
    ("bold", "  seasonboard --store FILE"),
    ("", ""),
    ("", "↵ or Esc leaves"),
)


class NotKept(ModalScreen[bool]):
    """A window that is only read."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter", "dismiss(None)", "Leave", tooltip="Leave", id="not_kept.leave"),
    ]

    def compose(self) -> ComposeResult:
        """Show the sentences."""
        text = Text("\n").join(Text(line, style=style) for style, line in LINES)
        with Vertical(classes="window wide"):
            yield Static(text)
        yield TooSmall()
