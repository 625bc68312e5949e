"""What the screen that loads files shows: a line to type into, files, text, lines to take."""

from collections.abc import Sequence
from pathlib import Path

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from seasonboard.ui.forms.fields import Choices
from seasonboard.ui.layout.format import clean
from seasonboard.ui.loading.bindings import LOAD_BINDINGS, LOAD_CSS
from seasonboard.ui.loading.file_list import FileList
from seasonboard.ui.loading.load_answer import LoadAnswer
from seasonboard.ui.loading.steps import TITLES, LoadStep

_TYPED = {LoadStep.STORE, LoadStep.PATH, LoadStep.FILL}
_CHOSEN = {LoadStep.ASKED, LoadStep.PLAN}


class LoadView(ModalScreen[bool]):
    """The parts of the screen, and what each step shows of them."""

    CSS = LOAD_CSS
    BINDINGS = LOAD_BINDINGS

    def __init__(self, step: LoadStep) -> None:
        """Begin at a step."""
        super().__init__()
        self._step = step
        self._answers: tuple[LoadAnswer, ...] = ()
        self._fills: LoadAnswer | None = None

    def compose(self) -> ComposeResult:
        """Put what is asked over what is told."""
        yield Static(Text(" Load files"), id="title")
        yield Static(Text(""), id="asks")
        yield Input(id="path", compact=True)
        yield Static(Text(""), id="told")
        yield FileList()
        with VerticalScroll(id="body"):
            yield Static(Text(""), id="text")
        yield Choices()
        yield Static(Text(""), id="keys")

    @property
    def box(self) -> Input:
        """Return the line that is typed into."""
        return self.query_one(Input)

    @property
    def files(self) -> FileList:
        """Return the list of files."""
        return self.query_one(FileList)

    @property
    def is_typed(self) -> bool:
        """Return whether something is typed at this step."""
        return self._step in _TYPED

    def show_step(self, step: LoadStep, sentence: str = "", into: str = "") -> None:
        """Show what belongs to a step, and a sentence; `into` is where files are loaded to."""
        self._step = step
        self.set_class(step is LoadStep.PATH, "-listing")
        self.box.display = self.is_typed
        (self.box if self.is_typed else self.query_one("#body")).focus()
        if step is LoadStep.PATH:
            self.files.narrow(self.box.value)
        title = f" Load files into {clean(into)}" if into else " Load files"
        self.query_one("#title", Static).update(Text(title, no_wrap=True, overflow="ellipsis"))
        asks = self._asks()
        self.query_one("#asks", Static).update(Text(asks))
        self.query_one("#asks").display = bool(asks)
        self.say(sentence)
        self.query_one("#keys", Static).update(Text(f" {step.value}", no_wrap=True))
        self.query_one(Choices).set_class(step in _CHOSEN and bool(self._answers), "-shown")

    def _asks(self) -> str:
        if self._step is LoadStep.FILL and self._fills:
            example = f", such as {self._fills.example}" if self._fills.example else ""
            return f"One value of {self._fills.fills} for all rows{example}"
        asks = TITLES.get(self._step, "")
        return f"{asks}: {_short(self.files.folder)}" if self._step is LoadStep.PATH else asks

    def show_lines(self, head: str, lines: Sequence[LoadAnswer], cursor: int = 0) -> None:
        """Show the lines that can be taken."""
        self._answers = tuple(lines)
        choices = self.query_one(Choices)
        choices.show(head, [(one.shown, one.beside) for one in lines], cursor if lines else -1)
        choices.styles.height = len(lines) + 2

    @property
    def line(self) -> LoadAnswer | None:
        """Return the line under the cursor, where one can be taken."""
        is_there = self._step in _CHOSEN and bool(self._answers)
        return self._answers[self.query_one(Choices).cursor] if is_there else None

    def say(self, sentence: str) -> None:
        """Tell one sentence."""
        self.query_one("#told", Static).update(Text(clean(sentence)))
        self.query_one("#told").display = bool(sentence)

    def write(self, text: Text) -> None:
        """Tell a text that may be long."""
        self.query_one("#text", Static).update(text)
        self.query_one("#body").scroll_home(animate=False)

    @property
    def text_width(self) -> int:
        """Return how many cells a line of the text has, the bar at its edge aside."""
        return max(20, self.size.width - 3)

    # Keys that only move

    def action_walk(self, by: int) -> None:
        """Go along the files or lines; where there are none, read on."""
        if self._step is LoadStep.PATH:
            self.files.walk(by)
        elif self.line is not None:
            choices = self.query_one(Choices)
            choices.cursor = min(max(0, choices.cursor + by), len(self._answers) - 1)
        else:
            self.query_one("#body").scroll_relative(y=by, animate=False)

    def action_turn(self, by: int) -> None:
        """Read a screenful on or back."""
        if self._step is LoadStep.PATH:
            self.files.walk(by * max(1, self.files.size.height - 1))
        body = self.query_one("#body")
        body.scroll_relative(y=by * max(1, body.size.height - 1), animate=False)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Leave the keys of the line to the line while something is typed."""
        if action == "leave_out":
            return not self.is_typed
        return action != "to_end" or not self.is_typed or not self.box.value

    def action_to_end(self, is_end: bool) -> None:  # noqa: FBT001 - given by the binding
        """Read on to the end, or go back to the top."""
        if self._step is LoadStep.PATH:
            self.files.walk(self.files.option_count * (1 if is_end else -1))
        body = self.query_one("#body")
        (body.scroll_end if is_end else body.scroll_home)(animate=False)


def _short(folder: Path) -> str:
    """Return a folder as it is shown, `~` for the home folder."""
    try:
        return clean(f"~/{folder.relative_to(Path.home())}".removesuffix("/."))
    except (ValueError, RuntimeError):
        return clean(str(folder))
