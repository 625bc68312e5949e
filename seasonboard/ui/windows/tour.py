"""Five steps around the board, which can be left at any of them."""

from pathlib import Path

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.widgets.lines import TooSmall

_TEXT = Path(__file__).with_name("tour.md").read_text("utf-8")
_KEYS = {"first": WITH_SCREENS[0].key, "last": WITH_SCREENS[-1].key}
STEPS = tuple(
    (title, " ".join(text.split()))
    for title, _, text in (step.partition("\n") for step in _TEXT.format(**_KEYS).split("## ")[1:])
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
