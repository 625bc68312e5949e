"""A window over a screen that holds one text, scrolled where it is long."""

from typing import ClassVar

from rich.console import RenderableType
from rich.text import Text
from textual.app import ComposeResult
from textual.containers import ScrollableContainer, VerticalScroll
from textual.screen import ModalScreen, ScreenResultType
from textual.widgets import Static

from seasonboard.ui.layout.breadcrumb import breadcrumb
from seasonboard.ui.widgets.lines import TooSmall


class TextWindow(ModalScreen[ScreenResultType]):
    """One text; a subclass has the keys, and says at the foot what they do."""

    FOOT: ClassVar[str] = ""

    def __init__(self, text: RenderableType, breadcrumb_name: str = "") -> None:
        """Show a text; what has a `breadcrumb_name` has the way to it on top."""
        super().__init__()
        self.breadcrumb_name = breadcrumb_name
        self._text = text

    def window(self) -> ScrollableContainer:
        """Return what the text is scrolled in."""
        return VerticalScroll(classes="window wide")

    def compose(self) -> ComposeResult:
        """Put the text into its window."""
        with self.window() as window:
            if self.breadcrumb_name:
                window.border_title = Text(breadcrumb(self.app.screen_stack))
            window.border_subtitle = self.FOOT
            yield Static(self._text, id="text")
        yield TooSmall()

    def show(self, text: RenderableType) -> None:
        """Show another text in its place."""
        self.query_one("#text", Static).update(text)
