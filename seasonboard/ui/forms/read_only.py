"""Says why nothing can be typed in now: what is open is not written to, or names are covered."""

from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.ui.widgets.lines import TooSmall

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource

NO_KEEPER = "The sample season is not written to."
HOW_TO_KEEP = (
    "To record a season of your own, load its tables into a store, here with f, or with:\n\n"
    "  seasonboard load my_season/ --store my_season.duckdb\n"
    "  seasonboard --store my_season.duckdb\n\n"
    "To try the Log on a copy of the sample season, write its tables first:\n\n"
    "  seasonboard sample my_season/ --seed 1"
)
COVERED = "The curtain is down, and what is typed in shows names."
HOW_TO_LIFT = "Lift the curtain with c, and try again."
LEAVES = "↵ or Esc leaves"


def why_not(*, is_covered: bool) -> Text:
    """Return why nothing can be typed in, and what to do about it."""
    what, how = (COVERED, HOW_TO_LIFT) if is_covered else (NO_KEEPER, HOW_TO_KEEP)
    return Text.assemble((f"{what}\n\n", "bold"), how)


class NotKept(ModalScreen[bool]):
    """A window that is only read."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter", "dismiss(None)", "Leave", tooltip="Leave", id="not_kept.leave"),
        Binding("f", "load", "Load", tooltip="Load files into a store", id="not_kept.load"),
    ]

    def __init__(self, answer_source: "AnswerSource") -> None:
        """Say it of the store of `answer_source`, or that its names are covered."""
        super().__init__()
        self._answer_source = answer_source

    def action_load(self) -> None:
        """Go to where a store is named and files are loaded into it."""
        from seasonboard.ui.loading.screen import LoadScreen

        if self._answer_source.is_covered:
            return
        self.app.switch_screen(LoadScreen(self._answer_source))

    def compose(self) -> ComposeResult:
        """Show the sentences."""
        text = why_not(is_covered=self._answer_source.is_covered).append(f"\n\n{LEAVES}")
        with Vertical(classes="window wide"):
            yield Static(text)
        yield TooSmall()
