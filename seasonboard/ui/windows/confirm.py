"""A small window that asks once; each answer has its letter."""

from collections.abc import Sequence
from dataclasses import dataclass

from rich.text import Text

from seasonboard.ui.key_bindings import bindings, key
from seasonboard.ui.layout.format import clean
from seasonboard.ui.windows.text_window import TextWindow


@dataclass(frozen=True, slots=True)
class Reply:
    """One answer: its key, and what it does."""

    key: str
    does: str


class AskScreen(TextWindow[str | None]):
    """Asks a question; gives the key of the answer, or None for Esc."""

    HELP = "A question that waits for its answer. Esc leaves everything as it is."
    BINDINGS = bindings(key("escape", "dismiss(None)", "Leave", "Leave it as it is", "ask.leave"))

    def __init__(self, title: str, sentences: Sequence[str], replies: Sequence[Reply]) -> None:
        """Ask `title`, with further sentences under it; each reply has a key of its own."""
        text = Text(clean(title), style="bold")
        for line in sentences:
            text.append(f"\n{clean(line)}", "not bold")
        text.append("\n")
        for reply in replies:
            shown = "↵" if reply.key == "enter" else reply.key
            text.append(f"\n {shown}  ", "bold").append(reply.does, "not bold")
        super().__init__(text.append("\n Esc  leave it as it is", "not bold"))
        for reply in replies:
            self._bindings.bind(reply.key, f"dismiss('{reply.key}')", reply.does)
