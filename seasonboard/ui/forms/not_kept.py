"""Says why nothing can be typed in now: what is open is not written to, or names are covered."""

from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.ui.widgets.lines import TooSmall

if TYPE_CHECKING:
    from seasonboard.answers.asker import Asker

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


COVERED = (
    ("bold", "The curtain is down, and what is typed in shows names."),
    ("", ""),
    ("", "Lift the curtain with c, and try again."),
    ("", ""),
    ("", "↵ or Esc leaves"),
)


class NotKept(ModalScreen[bool]):
    """A window that is only read."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter", "dismiss(None)", "Leave", tooltip="Leave", id="not_kept.leave"),
        Binding("f", "load", "Load", tooltip="Load files into a store", id="not_kept.load"),
    ]

    def __init__(self, asker: "Asker") -> None:
        """Say it of the store of `asker`, or that its names are covered."""
        super().__init__()
        self._asker = asker

    def action_load(self) -> None:
        """Go to where a store is named and files are loaded into it."""
        from seasonboard.ui.loading.screen import LoadScreen

        if getattr(self._asker, "is_covered", False):
            return
        self.app.switch_screen(LoadScreen(self._asker))

    def compose(self) -> ComposeResult:
        """Show the sentences."""
        lines = COVERED if getattr(self._asker, "is_covered", False) else LINES
        text = Text("\n").join(Text(line, style=style) for style, line in lines)
        with Vertical(classes="window wide"):
            yield Static(text)
        yield TooSmall()
