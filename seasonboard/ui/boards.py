"""The screens there are: their names and keys, without loading them."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BoardName:
    """One screen: how the app calls it, the key that shows it, its title and its question."""

    name: str
    key: str
    title: str
    asks: str


BOARDS: tuple[BoardName, ...] = (
    BoardName("compare", "c", "Compare", "Are guarded athletes hurt less?"),
    BoardName("games", "g", "Games", "How many games are played before an injury?"),
)
"""Every screen, in the order of the title line."""
