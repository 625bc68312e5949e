"""Says that what is open is not written to, and how to have a store of one's own."""

from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.ui.widgets.lines import TooSmall

if TYPE_CHECKING:
    from seasonboard.answers.board import Asker

LINES = (
    ("bold", "The invented sample season is not written to."),
    ("", ""),
    ("", "To record a season of your own, load its tables into a store:"),
    ("bold", "  seasonboard load FOLDER --store FILE"),
    ("", "and open the board on it:"),
    ("bold", "  seasonboard --store FILE"),
    ("", ""),
    ("", "f loads files into a store of your own, here · ↵ or Esc leaves"),
)


class NotKept(ModalScreen[bool]):
    """A window that is only read."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter", "dismiss(None)", "Leave", tooltip="Leave", id="not_kept.leave"),
        Binding("f", "load", "Load", tooltip="Load files into a store", id="not_kept.load"),
    ]

    def __init__(self, asker: "Asker") -> None:
        """Say it of the store of `asker`."""
        super().__init__()
        self._asker = asker

    def action_load(self) -> None:
        """Go to where a store is named and files are loaded into it."""
        from seasonboard.ui.loading.screen import LoadScreen

        self.app.switch_screen(LoadScreen(self._asker))

    def compose(self) -> ComposeResult:
        """Show the sentences."""
        text = Text("\n").join(Text(line, style=style) for style, line in LINES)
        with Vertical(classes="window wide"):
            yield Static(text)
        yield TooSmall()
