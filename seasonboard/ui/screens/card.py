"""A method card in a window over the screen."""

from typing import ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.answers.cards import Card
from seasonboard.ui.widgets.lines import TooSmall


class CardScreen(ModalScreen[None]):
    """How one number is made: what, formula, how to read it, source, question in the store."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "escape,m,q,enter", "dismiss", "Close", tooltip="Back to the page", id="card.close"
        ),
    ]

    def __init__(self, card: Card) -> None:
        """Show `card`."""
        super().__init__()
        self._card = card

    def compose(self) -> ComposeResult:
        """Write the card as one text that can be scrolled."""
        with VerticalScroll(classes="window wide") as window:
            window.border_subtitle = "Esc closes"
            yield Static(card_text(self._card))
        yield TooSmall()


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
