"""Five steps around the board, which can be left at any of them."""

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.key_bindings import bindings, key
from seasonboard.ui.widgets.lines import TooSmall

STEPS = (
    (
        "A question and its answer",
        "Every screen asks one question and answers it in a sentence that can be read aloud. Below "
        "it stand a picture and the numbers it came from. "
        f"The keys {WITH_SCREENS[0].key} to 9, {WITH_SCREENS[-1].key} and p change between the "
        "screens; the line on top names them.",
    ),
    (
        "What is looked at",
        "The sentence on top says for whom and until when the answer holds: departments, teams, "
        "seasons, guards. s leads into it, ← and → to a part, ↵ changes it, for every screen. "
        "“Through” an earlier day shows the board as it was known then.",
    ),
    (
        "Behind a number",
        "↑ and ↓ walk from number to number. ↵ opens the rows it was counted from, ↵ on a row all "
        "that was recorded of its athlete. m says how a number is made, and from there s shows the "
        "question that was put to the store. Esc goes one step back, always.",
    ),
    (
        "Finding",
        "f finds any athlete, guard, session, department or team by a part of its name or key. "
        "/ finds a word on the page. ^p lists every action by its name.",
    ),
    (
        "What it does not say",
        "The board reports what was recorded, with its uncertainty. It never says that a guard is "
        "safe or that somebody is fit to play: licensed medical staff decide that. ? explains each "
        "screen, and its t brings this tour back; , holds the settings; q leaves.",
    ),
)
"""The title and text of each step."""


class TourScreen(ModalScreen[None]):
    """One step at a time."""

    BINDINGS = bindings(
        key("escape,q", "dismiss", "Leave", "Leave the tour", "tour.leave"),
        key("enter,right,space", "go(1)", "Next", "The next step", "tour.next"),
        key("left", "go(-1)", "Before", "The step before", "tour.before"),
    )

    def __init__(self) -> None:
        """Begin with the first step."""
        super().__init__()
        self._at = 0

    def compose(self) -> ComposeResult:
        """Put the step into a window."""
        with VerticalScroll(classes="window"):
            yield Static(id="step")
        yield TooSmall()

    def on_mount(self) -> None:
        """Show the first step."""
        self._show()

    def action_go(self, by: int) -> None:
        """Go to another step; from the last one on, leave."""
        if self._at + by >= len(STEPS):
            self.dismiss()
            return
        self._at = max(0, self._at + by)
        self._show()

    def _show(self) -> None:
        title, told = STEPS[self._at]
        window = self.query_one(VerticalScroll)
        window.border_title = f"{self._at + 1} of {len(STEPS)}"
        is_last = self._at + 1 == len(STEPS)
        window.border_subtitle = "↵ ends it" if is_last else "↵ → next · ← before · Esc leaves"
        text = Text(f"{title}\n\n", style="bold").append(told, "not bold")
        self.query_one("#step", Static).update(text)
