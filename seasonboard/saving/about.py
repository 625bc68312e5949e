"""What a saved file says of itself: what was asked, of what, when, and whether names are in it."""

from dataclasses import dataclass
from datetime import date

from seasonboard import __version__
from seasonboard.saving.text import harmless

COVERED = "down: names, jerseys and free text are covered; athletes are codes"
OPEN = "up: names are shown"


@dataclass(frozen=True, slots=True)
class About:
    """Where something that is saved came from; `title` is the question, or the table's title.

    `place` is said where the season is invented; `rows` says which rows these are, of how many.
    """

    title: str
    answer: str
    scope: str
    through: date
    saved_on: date
    is_covered: bool
    place: str = ""
    rows: str = ""

    def lines(self) -> list[tuple[str, str]]:
        """Return what there is to say, each with its heading."""
        told = [
            ("question", self.title),
            ("answer", self.answer),
            ("scope", self.scope),
            ("through", self.through.isoformat()),
            ("rows", self.rows),
            ("data", self.place),
            ("curtain", COVERED if self.is_covered else OPEN),
            ("saved on", self.saved_on.isoformat()),
            ("saved by", f"seasonboard {__version__}"),
        ]
        return [(heading, harmless(text)) for heading, text in told if text]

    def text(self) -> str:
        """Return it as lines of text."""
        return "".join(f"{heading}: {text}\n" for heading, text in self.lines())
