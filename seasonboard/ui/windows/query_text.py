"""The question behind a number as it is put to the store, with its header."""

from typing import ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import ScrollableContainer
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.ui.layout.breadcrumb import breadcrumb
from seasonboard.ui.layout.format import clean
from seasonboard.ui.widgets.lines import TooSmall


class QueryScreen(ModalScreen[None]):
    """A question's text, line by line; scrolled both ways, for its lines are not broken."""

    HELP = "The question as the store is asked it. Its header says what it gives, row by row."
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q", "dismiss", "Close", tooltip="Back to the card", id="query.close"),
    ]

    def __init__(self, name: str, text: str) -> None:
        """Show the text of the question `name`."""
        super().__init__()
        self.breadcrumb_name = f"queries/{name}.sql"
        self._text = text

    def compose(self) -> ComposeResult:
        """Write the text as it stands in its file, the header quiet."""
        with ScrollableContainer(classes="window full") as window:
            window.border_title = Text(breadcrumb(self.app.screen_stack))
            window.border_subtitle = "↑ ↓ ← → scroll · Esc goes back"
            yield Static(Text(f"{self.breadcrumb_name}\n\n{_lines(self._text)}", no_wrap=True))
        yield TooSmall()


def _lines(text: str) -> str:
    return "\n".join(clean(line) for line in text.splitlines())
