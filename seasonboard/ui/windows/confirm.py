"""A small window that asks once; each answer has its letter."""

from collections.abc import Mapping, Sequence

from rich.text import Text

from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import clean
from seasonboard.ui.windows.text_window import TextWindow


class AskScreen(TextWindow[str | None]):
    """Asks a question; gives the key of the answer, or None for Esc."""

    HELP = "A question that waits for its answer. Esc leaves everything as it is."
    BINDINGS = bindings(key("escape", "dismiss(None)", "Leave", "Leave it as it is", "ask.leave"))

    def __init__(self, title: str, sentences: Sequence[str], replies: Mapping[str, str]) -> None:
        """Ask `title`, with further sentences under it; `replies` say what each key does."""
        text = Text(clean(title), style="bold")
        for line in sentences:
            text.append(f"\n{clean(line)}", "not bold")
        text.append("\n")
        for name, does in replies.items():
            text.append(f"\n {name}  ", "bold").append(does, "not bold")
        super().__init__(text.append("\n Esc  leave it as it is", "not bold"))
        for name, does in replies.items():
            self._bindings.bind(name, f"dismiss('{name}')", does)
