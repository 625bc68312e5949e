"""Says why nothing can be typed in now: what is open is not written to, or names are covered."""

from rich.text import Text

from seasonboard.answers.source import AnswerSource
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.windows.text_window import TextWindow

NO_KEEPER = "The sample season is not written to."
HOW_TO_KEEP = (
    "k opens a copy of it, among your own data, to try everything on.\n\n"
    "To record a season of your own, load its tables into a store, here with f, or with:\n\n"
    "  seasonboard load my_season/ --store my_season.duckdb\n"
    "  seasonboard --store my_season.duckdb"
)
COVERED = "The curtain is down, and what is typed in shows names."
HOW_TO_LIFT = "Lift the curtain with c, and try again."
LEAVES = "↵ or Esc leaves"


def why_not(*, is_covered: bool) -> Text:
    """Return why nothing can be typed in, and what to do about it."""
    what, how = (COVERED, HOW_TO_LIFT) if is_covered else (NO_KEEPER, HOW_TO_KEEP)
    return Text.assemble((f"{what}\n\n", "bold"), how)


class NotKept(TextWindow[bool]):
    """A window that is only read."""

    BINDINGS = bindings(
        key("escape,enter", "dismiss(None)", "Leave", "Leave", "not_kept.leave"),
        key("f", "load", "Load", "Load files into a store", "not_kept.load"),
        key("k", "app.copy_sample", "Copy", "Open a copy of the sample season", "not_kept.copy"),
    )

    def __init__(self, answer_source: AnswerSource) -> None:
        """Say it of the store of `answer_source`, or that its names are covered."""
        super().__init__(why_not(is_covered=answer_source.is_covered).append(f"\n\n{LEAVES}"))
        self._answer_source = answer_source

    def action_load(self) -> None:
        """Go to where a store is named and files are loaded into it."""
        from seasonboard.ui.loading.screen import LoadScreen

        if not self._answer_source.is_covered:
            self.app.switch_screen(LoadScreen(self._answer_source))
