"""Method cards: what each number is, in plain words; the same text on every screen.

The cards themselves stand beside the answers that they explain, and together in `all_cards.py`.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Card:
    """How one number is made."""

    title: str
    what: str
    formula: str
    reading: str
    source: str
    query: str
