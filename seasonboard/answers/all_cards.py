"""Every method card by its name."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card, read_cards
from seasonboard.answers.questions import COMPARE, GAMES, QUESTIONS

ALL_CARDS: Mapping[str, Card] = {
    **read_cards("claims"),
    **{
        name if question in (COMPARE, GAMES) else f"{question.folder}/{name}": card
        for question in QUESTIONS
        for name, card in question.cards().items()
    },
}
"""Those of the working season carry the folder of their question before their name."""
