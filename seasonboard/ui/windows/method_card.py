"""A method card in a window over the screen, and the question it names as the store is asked it."""

from collections.abc import Callable

from rich.text import Text
from textual.containers import ScrollableContainer

from seasonboard.answers.cards import Card
from seasonboard.errors import SeasonboardError
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import clean
from seasonboard.ui.windows.text_window import TextWindow


class CardScreen(TextWindow[None]):
    """How one number is made: what, formula, how to read it, source, question in the store."""

    BINDINGS = bindings(
        key("escape,m,q,enter", "dismiss", "Close", "Back to the page", "card.close"),
        key("s", "query", "SQL", "The question as the store is asked", "card.query"),
    )
    FOOT = "s its query · Esc goes back"

    def __init__(self, card: Card, question_text: Callable[[str], str]) -> None:
        """Show `card`; `question_text` gives the text of the question it names."""
        super().__init__(card_text(card), card.title)
        self._query = card.query
        self._question_text = question_text

    def action_query(self) -> None:
        """Show the question as it is put to the store."""
        try:
            text = self._question_text(self._query)
        except SeasonboardError as problem:
            text = f"{problem.what} {problem.hint}"
        self.app.push_screen(QueryScreen(self._query, text))


def card_text(card: Card) -> Text:
    """Return a card as text: its title, then its parts under their headings."""
    text = Text(card.title, style="bold")
    parts = {
        "What": card.what,
        "Formula": card.formula,
        "Reading it": card.reading,
        "Source": card.source,
        "Question": f"queries/{card.query}.sql",
    }
    for heading, body in parts.items():
        text.append(f"\n\n{heading}\n", "bold").append(body.strip(), "not bold")
    return text


class QueryScreen(TextWindow[None]):
    """A question's text, line by line; scrolled both ways, for its lines are not broken."""

    HELP = "The question as the store is asked it. Its header says what it gives, row by row."
    BINDINGS = bindings(key("escape,q", "dismiss", "Close", "Back to the card", "query.close"))
    FOOT = "↑ ↓ ← → scroll · Esc goes back"

    def __init__(self, name: str, text: str) -> None:
        """Show the text of the question `name` as it stands in its file."""
        path, lines = f"queries/{name}.sql", map(clean, text.splitlines())
        super().__init__(Text("\n".join((path, "", *lines)), no_wrap=True), path)

    def window(self) -> ScrollableContainer:
        """Return what the lines are scrolled in, both ways."""
        return ScrollableContainer(classes="window full")
