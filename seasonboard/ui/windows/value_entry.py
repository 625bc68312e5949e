"""A small window to type one value into, with steps up and down."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from rich.text import Text
from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.screen import ModalScreen
from textual.widgets import Button, Input, Static

from seasonboard.errors import SeasonboardError
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.widgets.lines import TooSmall

NOT_TAKEN = "What you typed is not taken yet: ↵ takes it, Esc once more leaves it as it was."
ValueT = TypeVar("ValueT")


@dataclass(frozen=True, slots=True)
class ValueStep:
    """A button and its key that move the value by a number."""

    label: str
    key: str
    by: int


@dataclass(frozen=True, slots=True)
class ValuePrompt:
    """What is asked for, what stands there now, and what may be typed."""

    title: str
    text: str
    explain: str
    steps: tuple[ValueStep, ...] = ()


class EntryScreen(ModalScreen[ValueT | None], Generic[ValueT]):
    """Asks for one value; Esc leaves without one."""

    BINDINGS = bindings(key("escape", "leave", "Leave", "Leave it as it is", "entry.leave"))

    def __init__(
        self,
        entry: ValuePrompt,
        read: Callable[[str], ValueT],
        move: Callable[[str, int], str] = lambda text, _by: text,
    ) -> None:
        """Ask for `entry`; `read` makes the value or raises, `move` steps the text."""
        super().__init__()
        self._entry = entry
        self._read = read
        self._move = move
        self._lost_if_left: str | None = None
        for step in entry.steps:
            self._bindings.bind(step.key, f"step({step.by})", step.label, priority=True)

    def compose(self) -> ComposeResult:
        """Put the value over its steps."""
        with Vertical(classes="window"):
            yield Static(Text(self._entry.title), classes="title")
            yield Input(self._entry.text, compact=True, id="value")
            yield Static(Text(self._entry.explain), id="explain", classes="quiet")
            with Horizontal(classes="steps"):
                for number, step in enumerate(self._entry.steps):
                    label = Text(f"{step.label} {_ARROWS.get(step.key, step.key)}")
                    act = f"screen.step({step.by})"
                    yield Button(label, id=f"step-{number}", compact=True, action=act)
            yield Static(Text("↵ takes it · Esc leaves"), classes="quiet")
        yield TooSmall()

    def action_leave(self) -> None:
        """Leave without a value; what was typed is only lost when asked a second time."""
        typed = self.query_one("#value", Input).value
        if typed in (self._entry.text, self._lost_if_left):
            self.dismiss(None)
        else:
            self._lost_if_left = typed
            self.query_one("#explain", Static).update(Text(NOT_TAKEN, style="bold"))

    def action_step(self, by: int) -> None:
        """Move the value; typing replaces it."""
        value = self.query_one("#value", Input)
        value.value = self._move(value.value, by)
        value.action_select_all()

    @on(Input.Submitted)
    def _take(self, event: Input.Submitted) -> None:
        try:
            value = self._read(event.value)
        except SeasonboardError as problem:
            explain = self.query_one("#explain", Static)
            explain.update(Text(f"{problem.what} {problem.hint}", style="bold"))
            self.query_one("#value", Input).add_class("-invalid")
        else:
            self.dismiss(value)


_ARROWS = {"up": "↑", "down": "↓", "pageup": "PgUp", "pagedown": "PgDn", "end": "End"}
