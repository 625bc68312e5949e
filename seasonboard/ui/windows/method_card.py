"""A method card in a window over the screen."""

from collections.abc import Callable
from typing import ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.answers.cards import Card
from seasonboard.errors import SeasonboardError
from seasonboard.ui.layout.breadcrumb import breadcrumb
from seasonboard.ui.widgets.lines import TooSmall
from seasonboard.ui.windows.query_text import QueryScreen


class CardScreen(ModalScreen[None]):
    """How one number is made: what, formula, how to read it, source, question in the store."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "escape,m,q,enter", "dismiss", "Close", tooltip="Back to the page", id="card.close"
        ),
        Binding("s", "query", "SQL", tooltip="The question as the store is asked", id="card.query"),
    ]

    def __init__(self, card: Card, question_text: Callable[[str], str]) -> None:
        """Show `card`; `question_text` gives the text of the question it names."""
        super().__init__()
        self.breadcrumb_name = card.title
        self._card = card
        self._question_text = question_text

    def compose(self) -> ComposeResult:
        """Write the card as one text that can be scrolled."""
        with VerticalScroll(classes="window wide") as window:
            window.border_title = Text(breadcrumb(self.app.screen_stack))
            window.border_subtitle = "s its query · Esc goes back"
            yield Static(card_text(self._card))
        yield TooSmall()

    def action_query(self) -> None:
        """Show the question as it is put to the store."""
        name = self._card.query
        try:
            text = self._question_text(name)
        except SeasonboardError as problem:
            text = f"{problem.what} {problem.hint}"
        self.app.push_screen(QueryScreen(name, text))


def card_text(card: Card) -> Text:
    """Return a card as text: its title, then its parts under their headings."""
    text = Text(card.title, style="bold")
    parts = (
        ("What", card.what),
        ("Formula", card.formula),
        ("Reading it", card.reading),
        ("Source", card.source),
        ("Question", f"queries/{card.query}.sql"),
    )
    for heading, body in parts:
        text.append(f"\n\n{heading}\n", "bold").append(body.strip(), "not bold")
    return text
