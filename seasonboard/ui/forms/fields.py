"""The lines of a form, and the list under it."""

from collections.abc import Sequence

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Input, Static

from seasonboard.ui.forms.form import FormField
from seasonboard.ui.layout.format import clean, fit

_TITLE = 16


class FieldLine(Vertical):
    """One field: its title, what stands there, and under it what is wrong.

    `known` is the text that the form knows of; letters may be typed that it has not heard of yet.
    """

    DEFAULT_CSS = """
    FieldLine { height: auto; }
    FieldLine Horizontal { height: 1; }
    FieldLine .name { width: 17; color: $quiet; }
    FieldLine Input { width: 1fr; background: $chosen; color: $chosen-text; }
    FieldLine .wrong { display: none; height: auto; padding: 0 0 0 17; color: $accent; }
    FieldLine.-wrong .wrong { display: block; }
    """

    def __init__(self, one: FormField) -> None:
        """Show one field."""
        super().__init__()
        self.one = one
        self.known = ""

    def compose(self) -> ComposeResult:
        """Put the field under its title."""
        mark = "*" if self.one.is_required else " "
        with Horizontal():
            yield Static(Text(fit(f"{mark}{self.one.title}", _TITLE)), classes="name")
            yield Input(id=f"field-{self.one.column}", compact=True)
        yield Static(Text(""), classes="wrong")

    @property
    def box(self) -> Input:
        """Return what is typed into."""
        return self.query_one(Input)

    def show(self, text: str, problem: str) -> None:
        """Show a text and what is wrong with it; what is being typed keeps its cursor."""
        self.known = text
        if self.box.value != text:
            with self.prevent(Input.Changed):
                self.box.value = text
            self.box.cursor_position = len(text)
        self.set_class(bool(problem), "-wrong")
        self.query_one(".wrong", Static).update(Text(clean(problem)))


class Choices(Widget):
    """The lines that fit what is typed, one of them under the cursor; -1: none."""

    DEFAULT_CSS = "Choices { height: 30%; min-height: 7; border-top: solid $hairline; }"

    lines: reactive[tuple[tuple[str, str], ...]] = reactive(())
    head: reactive[str] = reactive("")
    cursor: reactive[int] = reactive(0)

    def show(self, head: str, lines: Sequence[tuple[str, str]], cursor: int) -> None:
        """Show lines (a word, and what stands beside it) under a headline."""
        self.lines, self.head = tuple(lines), head
        self.cursor = min(cursor, len(lines) - 1)

    def render(self) -> Text:
        """Return the headline and as many lines around the cursor as there is room for."""
        width, room = self.size.width, max(1, self.size.height - 1)
        text = Text().append(fit(f" {self.head}", width), "italic")
        first = min(max(0, self.cursor - room // 2), max(0, len(self.lines) - room))
        for number, (word, beside) in enumerate(self.lines[first : first + room], first):
            is_here = number == self.cursor
            line = f" {'▸' if is_here else ' '} {clean(word)}"
            line += f"   {clean(beside)}" if beside else ""
            text.append("\n").append(fit(line, width), "bold" if is_here else "")
        return text
