"""A small window that asks once; each answer has its letter."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.ui.layout.format import clean
from seasonboard.ui.widgets.lines import TooSmall


@dataclass(frozen=True, slots=True)
class Reply:
    """One answer: its key, and what it does."""

    key: str
    does: str


class AskScreen(ModalScreen[str | None]):
    """Asks a question; gives the key of the answer, or None for Esc."""

    HELP = "A question that waits for its answer. Esc leaves everything as it is."
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "dismiss(None)", "Leave", tooltip="Leave it as it is", id="ask.leave"),
    ]

    def __init__(self, title: str, told: Sequence[str], replies: Sequence[Reply]) -> None:
        """Ask `title`, with further sentences under it; each reply has a key of its own."""
        super().__init__()
        self._title = title
        self._told = told
        self._replies = replies
        for reply in replies:
            self._bindings.bind(reply.key, f"dismiss('{reply.key}')", reply.does)

    def compose(self) -> ComposeResult:
        """Put the answers under the question."""
        text = Text(clean(self._title), style="bold")
        for line in self._told:
            text.append(f"\n{clean(line)}", "not bold")
        text.append("\n")
        for reply in self._replies:
            text.append(f"\n {_shown(reply.key)}  ", "bold").append(reply.does, "not bold")
        text.append("\n Esc  leave it as it is", "not bold")
        with VerticalScroll(classes="window wide"):
            yield Static(text)
        yield TooSmall()


def _shown(key: str) -> str:
    return "↵" if key == "enter" else key
