"""The window in which a release is shown before it is made, figure by figure."""

from datetime import date
from typing import TYPE_CHECKING

from rich.text import Text
from textual import work

from seasonboard.errors import SeasonboardError
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import clean
from seasonboard.ui.windows.text_window import TextWindow

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.releases.making import ReleasePlan
    from seasonboard.releases.reading import ReleaseMemory

TITLE = "The figures that outsiders would be told"
COUNTING = "Counting every kind of guard. This takes a few seconds for each …"
READ_ONLY = "This store cannot be written to: the release can be looked at and not made."


class ReleaseScreen(TextWindow[str | None]):
    """Shows the next release and makes it; gives the key of the release that was made."""

    HELP = (
        "Every figure that outsiders would be told, for each kind of guard. Enter releases them: "
        "they are frozen in the store, and every document for outsiders quotes them. Esc leaves "
        "everything as it is."
    )
    FOOT = "↵ releases them · Esc leaves"
    BINDINGS = bindings(
        key("enter", "release", "release", "Release these figures", "release.make"),
        key("escape", "dismiss(None)", "leave", "Release nothing", "release.leave"),
    )

    def __init__(self, answer_source: "AnswerSource", today: date) -> None:
        """Plan the release of `today`."""
        super().__init__(Text(COUNTING), "release")
        self._answer_source = answer_source
        self._today = today
        self._plan: ReleasePlan | None = None

    def on_mount(self) -> None:
        """Count in a thread."""
        self._count()

    @work(thread=True, exclusive=True, group="release")
    def _count(self) -> None:
        from seasonboard.releases.making import plan_release

        source = self._answer_source
        outcome = outcome_of(lambda: plan_release(source, self._memory(), self._today), TITLE)
        self.app.call_from_thread(self._show, outcome)

    def _memory(self) -> "ReleaseMemory":
        from seasonboard.releases.reading import ReleaseMemory

        return ReleaseMemory(self._answer_source.releases_path)

    def _show(self, outcome: "ReleasePlan | SeasonboardError") -> None:
        if not self.is_attached:
            return
        if isinstance(outcome, SeasonboardError):
            text = Text(f"{outcome.what} {outcome.hint}")
        else:
            from seasonboard.releases.text import plan_lines

            self._plan = outcome
            text = Text(TITLE, style="bold")
            for line in plan_lines(outcome):
                text.append(f"\n{clean(line)}", "not bold")
        self.show(text)

    def action_release(self) -> None:
        """Make the release that is shown."""
        if self._plan is None:
            return
        if self._answer_source.entry_writer is None:
            self.notify(READ_ONLY, markup=False)
            return
        self._make(self._plan)

    @work(thread=True, exclusive=True, group="release")
    def _make(self, plan: "ReleasePlan") -> None:
        from seasonboard.releases.making import make_release

        def make() -> str:
            make_release(self._answer_source, self._memory(), plan)
            return plan.release.key

        outcome = outcome_of(make, "releasing")
        if isinstance(outcome, SeasonboardError):
            self.app.call_from_thread(self._show, outcome)
        else:
            self.app.call_from_thread(self.dismiss, outcome)
