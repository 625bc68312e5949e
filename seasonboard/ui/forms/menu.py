"""The menu of everything that can be typed in."""

from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.ui.forms.all import FORMS
from seasonboard.ui.widgets.lines import TooSmall

if TYPE_CHECKING:
    from datetime import date

    from seasonboard.answers.board import Asker
    from seasonboard.scope import Scope


class EntryMenu(ModalScreen[None]):
    """Opens a form by its key."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "dismiss(None)", "Leave", tooltip="Leave", id="menu.leave"),
    ]

    def __init__(self, asker: "Asker", scope: "Scope", today: "date") -> None:
        """Offer what can be recorded in the store of `asker`."""
        super().__init__()
        self._given = (asker, scope, today)

    def compose(self) -> ComposeResult:
        """List the forms."""
        lines = [f" {form.key}  {form.title:<23}{form.asks}" for form in FORMS]
        with Vertical(classes="window wide"):
            yield Static(Text("What is to be recorded?"), classes="title")
            yield Static(Text("\n".join(lines)))
            yield Static(Text("a letter opens its form · Esc leaves"), classes="quiet")
        yield TooSmall()

    def on_key(self, event: events.Key) -> None:
        """Open the form of a letter."""
        for form in FORMS:
            if event.character == form.key:
                event.stop()
                self.app.switch_screen(form.screen(*self._given))
