"""What would undo the headline, in a window over Compare."""

from collections.abc import Callable

from rich.text import Text

from seasonboard.answers.compare.undo import Undo
from seasonboard.answers.compare.undo_report import TITLE
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.windows.method_card import CardScreen
from seasonboard.ui.windows.text_window import TextWindow


class UndoScreen(TextWindow[None]):
    """The sentences one below the other; their method card is a key away."""

    HELP = (
        "How much would have to be wrong in the records, or to be at work unseen, before the "
        "headline no longer held. It describes, and decides nothing."
    )
    BINDINGS = bindings(
        key("escape,w,q,enter", "dismiss", "Close", "Back to the page", "undo.close"),
        key("m", "method", "method", "How these numbers are made", "undo.method"),
    )
    FOOT = "m how they are made · Esc goes back"

    def __init__(self, undo: Undo, question_text: Callable[[str], str]) -> None:
        """Show what would undo the headline; `question_text` gives the text of a question."""
        text = Text(TITLE, style="bold")
        for sentence in undo.sentences:
            text.append(f"\n\n{sentence}", "not bold")
        super().__init__(text, TITLE)
        self._question_text = question_text

    def action_method(self) -> None:
        """Show the method card."""
        from seasonboard.answers.all_cards import ALL_CARDS

        self.app.push_screen(CardScreen(ALL_CARDS["undo"], self._question_text))
