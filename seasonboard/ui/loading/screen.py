"""The screen that loads files: a path, questions, the plan, and writing it."""

from dataclasses import dataclass, replace
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from seasonboard.errors import SeasonboardError
from seasonboard.load_options import LoadOptions
from seasonboard.ui.app.entries import StoreChanged, StoreOpened, written
from seasonboard.ui.forms.fields import Choices
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.loading.bindings import LOAD_BINDINGS, LOAD_CSS
from seasonboard.ui.loading.load_attempt import LoadOutcome, attempt_load
from seasonboard.ui.loading.load_dialog import BoardDialog, ShownPlan
from seasonboard.ui.loading.load_questions import LoadAnswer, LoadQuestion
from seasonboard.ui.loading.paths import completed, typed_path
from seasonboard.ui.loading.plan_text import plan_text, question_text
from seasonboard.ui.loading.steps import TITLES, LoadStep
from seasonboard.ui.loading.target import LoadTarget, StoreOpener, kept_target, new_target
from seasonboard.ui.windows.value_entry import NOT_TAKEN

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource

_BEAT = 0.25
AFTER = "on the board u takes it back. Type another path, or leave with Esc."
NO_ANSWER = "Nothing was written. Correct the file, then Esc."
NOTHING_NEW = "Nothing is new or changed; there is nothing to write."


class LoadScreen(ModalScreen[bool]):
    """Loads files into the store of the board, or into one of the person's own."""

    CSS = LOAD_CSS
    BINDINGS = LOAD_BINDINGS

    @dataclass
    class Attempted(Message):
        """A reading came to its end."""

        dialog: BoardDialog
        outcome: LoadOutcome

    def __init__(self, answer_source: "AnswerSource | None" = None) -> None:
        """Load into the store of `answer_source`; if none is written to, into one that is named."""
        super().__init__()
        self._target: LoadTarget | None = None
        if answer_source is not None and answer_source.entry_writer is not None:
            self._target = kept_target(answer_source.store_label, answer_source.entry_writer)
        self._step = LoadStep.PATH if self._target else LoadStep.STORE
        self._path: Path | None = None
        self._options = LoadOptions()
        self._dialog = BoardDialog()
        self._shown: ShownPlan | None = None
        self._answers: tuple[LoadAnswer, ...] = ()
        self._fills: LoadAnswer | None = None
        self._since = 0.0
        self._proposed = "season.duckdb"
        self._lost_if_left: str | None = None

    def compose(self) -> ComposeResult:
        """Put what is asked over what is told."""
        yield Static(Text(" Load files"), id="title")
        yield Static(Text(""), id="asks")
        yield Input(id="path", compact=True)
        yield Static(Text(""), id="told")
        with VerticalScroll(id="body"):
            yield Static(Text(""), id="text")
        yield Choices()
        yield Static(Text(""), id="keys")

    def on_mount(self) -> None:
        """Ask for the first path."""
        self._beat = self.set_interval(_BEAT, self._live, pause=True)
        if self._step is LoadStep.STORE:
            self.query_one(Input).value = self._proposed
        self._go(self._step)

    def _go(self, step: LoadStep, sentence: str = "") -> None:
        """Come to a step."""
        self._step = step
        is_typed = step in {LoadStep.STORE, LoadStep.PATH, LoadStep.FILL}
        box = self.query_one(Input)
        box.display = is_typed
        (box if is_typed else self.query_one("#body")).focus()
        asks = TITLES.get(step, "")
        if step is LoadStep.FILL and self._fills:
            asks = f"One value of {self._fills.fills} for all rows"
        into = f" Load files into {clean(self._target.name)}" if self._target else " Load files"
        self.query_one("#title", Static).update(Text(into, no_wrap=True, overflow="ellipsis"))
        self.query_one("#asks", Static).update(Text(asks))
        self.query_one("#asks").display = bool(asks)
        self._say(sentence)
        self.query_one("#keys", Static).update(Text(f" {step.value}", no_wrap=True))
        self.query_one(Choices).set_class(step is LoadStep.ASKED and bool(self._answers), "-shown")
        if step is LoadStep.BUSY:
            self._beat.resume()
        else:
            self._beat.pause()

    def _say(self, sentence: str) -> None:
        self.query_one("#told", Static).update(Text(clean(sentence)))

    def _write(self, text: Text) -> None:
        self.query_one("#text", Static).update(text)
        self.query_one("#body").scroll_home(animate=False)

    # Typing a path

    def action_complete(self) -> None:
        """Complete the path, and show what it could become."""
        if self._step not in {LoadStep.STORE, LoadStep.PATH}:
            return
        box = self.query_one(Input)
        grown, names = completed(box.value)
        box.value = grown
        box.cursor_position = len(grown)
        width = max(20, self.size.width - 2)
        many = [Text(fit(clean(name), width)) for name in names[:200]]
        self._write(Text("\n").join(many) if len(names) > 1 else Text(""))

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        if not event.value.strip():
            return
        if self._step is LoadStep.STORE:
            self._name_store(typed_path(event.value))
        elif self._step is LoadStep.PATH:
            self._path = typed_path(event.value)
            self._lost_if_left = event.value
            self._options = LoadOptions()
            self._read()
        elif self._step is LoadStep.FILL and self._fills is not None:
            value = {self._fills.fills: event.value.strip()}
            self._options = replace(self._options, constants={**self._options.constants, **value})
            self._read()

    def _name_store(self, store: Path) -> None:
        maker: StoreOpener | None = getattr(self.app, "maker", None)
        if maker is None:
            self._go(LoadStep.STORE, "This board cannot make a store; use “seasonboard load”.")
            return
        try:
            self._target = new_target(store, maker)
        except SeasonboardError as problem:
            self._go(LoadStep.STORE, str(problem))
            return
        self.query_one(Input).value = ""
        self._go(LoadStep.PATH)

    # Reading, and what comes of it

    def _read(self, agreed: ShownPlan | None = None) -> None:
        if self._target is None or self._path is None:
            return
        self._dialog = BoardDialog(self._options, agreed)
        self._since = monotonic()
        self._go(LoadStep.BUSY, "reading …")
        self._attempt(self._target, self._path, self._dialog)

    @work(thread=True, group="load")
    def _attempt(self, target: LoadTarget, path: Path, dialog: BoardDialog) -> None:
        self.post_message(self.Attempted(dialog, attempt_load(target, [path], dialog)))

    def _live(self) -> None:
        """Show that something is being done."""
        step = "stopping" if self._dialog.is_stopped else self._dialog.step or "reading"
        self._say(f"{step} …  {monotonic() - self._since:.0f} s")

    def on_load_screen_attempted(self, message: Attempted) -> None:
        """Show the plan, the question, or what was written."""
        if message.dialog is not self._dialog:
            return  # stopped meanwhile
        outcome = message.outcome
        if outcome.number:
            self._written(outcome)
        elif outcome.question is not None:
            self._ask(outcome.question)
        elif outcome.shown is not None:
            self._shown = outcome.shown
            self._answers = ()
            self._write(plan_text(outcome.shown))
            nothing = "" if outcome.shown.plan.is_worth_writing else NOTHING_NEW
            self._go(LoadStep.PLAN, " ".join(outcome.sentences) or nothing)
        else:
            self._go(LoadStep.PATH, " ".join(outcome.sentences))

    def _ask(self, question: LoadQuestion) -> None:
        self._answers = question.answers
        self._write(question_text(question))
        lines = [(answer.shown, answer.beside) for answer in question.answers]
        self.query_one(Choices).show("choose", lines, 0 if lines else -1)
        self._go(LoadStep.ASKED, "" if lines else NO_ANSWER)

    def _written(self, outcome: LoadOutcome) -> None:
        target = self._target
        assert target is not None and self._path is not None  # noqa: S101, PT018 - it was loaded
        name = self._path.name
        if target.opened is None:
            self.app.post_message(StoreChanged(name, outcome.number))
        else:
            answer_source = target.opened()
            self.app.post_message(StoreOpened(answer_source, name, outcome.number))
            self._target = (
                kept_target(answer_source.store_label, answer_source.entry_writer)
                if answer_source.entry_writer
                else None
            )
        self._write(Text("\n".join(clean(one) for one in outcome.sentences)))
        self.query_one(Input).value = ""
        self._go(LoadStep.PATH, f"W{written(name, outcome.number)[1:]}; {AFTER}")

    def _stop(self) -> None:
        """Stop; a mere reading is left at once, since it writes nothing."""
        self._dialog.stop()
        if self._dialog.agreed is None:
            self._dialog = BoardDialog()
            self._go(LoadStep.PATH, "Stopped; the store is as it was.")

    # Keys

    def action_walk(self, by: int) -> None:
        """Go along the answers; where there are none, read on."""
        if self._step is LoadStep.ASKED and self._answers:
            choices = self.query_one(Choices)
            choices.cursor = min(max(0, choices.cursor + by), len(self._answers) - 1)
        else:
            self.query_one("#body").scroll_relative(y=by, animate=False)

    def action_turn(self, by: int) -> None:
        """Read a screenful on or back."""
        body = self.query_one("#body")
        body.scroll_relative(y=by * max(1, body.size.height - 1), animate=False)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Leave the keys of the line to the line while something is typed."""
        is_typed = self._step in {LoadStep.STORE, LoadStep.PATH, LoadStep.FILL}
        return action != "to_end" or not is_typed or not self.query_one(Input).value

    def action_to_end(self, is_end: bool) -> None:  # noqa: FBT001 - given by the binding
        """Read on to the end, or go back to the top."""
        body = self.query_one("#body")
        (body.scroll_end if is_end else body.scroll_home)(animate=False)

    def key_enter(self) -> None:
        """Take the answer under the cursor."""
        if self._step is not LoadStep.ASKED or not self._answers:
            return
        answer = self._answers[self.query_one(Choices).cursor]
        if answer.fills:
            self._fills = answer
            self.query_one(Input).value = ""
            self._go(LoadStep.FILL)
            return
        self._options = answer.options
        self._read()

    def action_write(self) -> None:
        """Write the plan that is shown."""
        shown = self._shown
        if self._step is LoadStep.PLAN and shown is not None and shown.plan.is_worth_writing:
            self._read(shown)

    def action_back(self) -> None:
        """Stop reading, go back a step, or leave."""
        if self._step is LoadStep.BUSY:
            self._stop()
        elif self._step is LoadStep.FILL:
            self._go(LoadStep.ASKED)
        elif self._step in {LoadStep.ASKED, LoadStep.PLAN}:
            self._write(Text(""))
            self._go(LoadStep.PATH)
        else:
            self._leave()

    def _leave(self) -> None:
        """Leave; what was typed is only lost when asked a second time."""
        typed = self.query_one(Input).value
        if typed in {"", self._proposed, self._lost_if_left}:
            self.dismiss(None)
        else:
            self._lost_if_left = typed
            self._say(NOT_TAKEN)
