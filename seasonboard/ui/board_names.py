"""The screens there are: their names and keys, without loading them."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BoardName:
    """One screen: how the app calls it, the key that shows it, its title and its question.

    `short` is its title where eleven of them share 80 cells.
    """

    name: str
    key: str
    title: str
    asks: str
    brief: str = ""

    @property
    def short(self) -> str:
        """Return the title for narrow terminals."""
        return self.brief or self.title


BOARDS: tuple[BoardName, ...] = (
    BoardName("week", "1", "Week", "What changed this week, and what must be decided?"),
    BoardName("roster", "2", "Roster", "Who can play the next game, and in what guard?"),
    BoardName("orders", "3", "Orders", "What is on its way, and will it be there in time?"),
    BoardName("turnaround", "4", "Turnaround", "How long does a guard take?", "Turn"),
    BoardName("remakes", "5", "Remakes", "What came back, and why?"),
    BoardName("compare", "6", "Compare", "Are guarded athletes hurt less?"),
    BoardName("games", "7", "Games", "How many games are played before an injury?"),
    BoardName("take-up", "8", "Take-up", "Who was offered a guard, and who wears it?", "Take"),
    BoardName("departments", "9", "Departments", "How is each client doing?", "Depts"),
    BoardName("pitch", "p", "Pitch", "What can we promise the next department?"),
    BoardName("checks", "0", "Checks", "What in the records is doubtful?"),
)
"""Every screen, in the order of the title line."""
