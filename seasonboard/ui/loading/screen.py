"""The screen that loads files: which file, questions, the plan, and writing it."""

from dataclasses import dataclass, replace
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from rich.text import Text
from textual import on, work
from textual.message import Message
from textual.widgets import Input, OptionList

from seasonboard.errors import SeasonboardError
from seasonboard.load_options import LoadOptions
from seasonboard.ui.app.entries import StoreChanged, StoreOpened, written
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.loading.file_list import FolderLine
from seasonboard.ui.loading.load_answer import LoadAnswer
from seasonboard.ui.loading.load_attempt import LoadOutcome, attempt_load
from seasonboard.ui.loading.load_dialog import BoardDialog, ShownPlan
from seasonboard.ui.loading.load_questions import LoadQuestion
from seasonboard.ui.loading.paths import completed, typed_path
from seasonboard.ui.loading.plan_text import plan_text, question_text
from seasonboard.ui.loading.readings import AS_NOW, plan_lines
from seasonboard.ui.loading.steps import LoadStep
from seasonboard.ui.loading.target import LoadTarget, StoreOpener, kept_target, new_target
from seasonboard.ui.loading.view import LoadView
from seasonboard.ui.windows.chooser import Choice, ChooserPrompt, choose
from seasonboard.ui.windows.value_entry import NOT_TAKEN

if TYPE_CHECKING:
    from textual import events

    from seasonboard.answers.source import AnswerSource

_BEAT = 0.25
_FEW = 3
"""Sentences of a question that leave room for more lines to choose from."""
AFTER = "on the board u takes it back. Choose another file, or leave with Esc."
NO_ANSWER = "Nothing was written. Correct the file, then Esc."


class LoadScreen(LoadView):
    """Loads files into the store of the board, or into one of the person's own."""

    @dataclass
    class Attempted(Message):
        """A reading came to its end."""

        dialog: BoardDialog
        outcome: LoadOutcome

    def __init__(self, answer_source: "AnswerSource | None" = None) -> None:
        """Load into the store of `answer_source`; if it is not written to, ask for one."""
        self._target: LoadTarget | None = None
        if answer_source is not None and answer_source.entry_writer is not None:
            self._target = kept_target(answer_source.store_label, answer_source.entry_writer)
        super().__init__(LoadStep.PATH)
        self._path: Path | None = None
        self._options = LoadOptions()
        self._earlier: list[LoadOptions] = []
        self._filled_from = LoadStep.ASKED
        self._dialog = BoardDialog()
        self._shown: ShownPlan | None = None
        self._since = 0.0
        self._proposed = "season.duckdb"
        self._lost_if_left: str | None = None

    def on_mount(self) -> None:
        """Ask for the first file."""
        self._beat = self.set_interval(_BEAT, self._live, pause=True)
        self._go(self._step)

    def _go(self, step: LoadStep, sentence: str = "") -> None:
        """Come to a step."""
        self.show_step(step, sentence, self._target.name if self._target else "")
        if step is LoadStep.BUSY:
            self._beat.resume()
        else:
            self._beat.pause()

    def on_resize(self, _event: "events.Resize") -> None:
        """Lay the rows of a plan out anew."""
        if self._step is LoadStep.PLAN and self._shown is not None:
            self.write(plan_text(self._shown, self.text_width))

    # Which file

    def action_complete(self) -> None:
        """Complete the path, and show what it could become."""
        if self._step not in {LoadStep.STORE, LoadStep.PATH}:
            return
        folder = self.files.folder if self._step is LoadStep.PATH else Path()
        text = self.box.value
        grown, names = completed(text, folder)
        self.box.value = grown
        self.box.cursor_position = len(grown)
        if self._step is LoadStep.STORE:
            width = max(20, self.size.width - 2)
            many = [Text(fit(clean(name), width)) for name in names[:200]]
            self.write(Text("\n").join(many) if len(names) > 1 else Text(""))

    @on(Input.Changed)
    def _narrow(self, event: Input.Changed) -> None:
        if self._step is LoadStep.PATH:
            self.files.narrow(event.value)

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        typed = event.value.strip()
        if self._step is LoadStep.PATH:
            self._take_file(self.files.taken(typed))
        elif self._step is LoadStep.STORE and typed:
            self._name_store(typed_path(typed))
        elif self._step is LoadStep.FILL and self._fills is not None and typed:
            before = self._fills.options
            constants = {**before.constants, self._fills.fills: typed}
            self._wish(replace(before, constants=constants))

    @on(OptionList.OptionSelected)
    def _click(self, event: OptionList.OptionSelected) -> None:
        self._take_file(self.files.lines[event.option_index])

    def _take_file(self, line: FolderLine | None) -> None:
        """List a folder, or read a file or a folder of tables."""
        if line is None:
            return
        if line.is_opened:
            self.box.value = ""
            self.files.open(line.path)
            self._go(LoadStep.PATH)
            return
        self._path, self._lost_if_left = line.path, self.box.value
        self._options, self._earlier = LoadOptions(), []
        if self._target is None:
            self._ask_for_store()
        else:
            self._read()

    def _ask_for_store(self, sentence: str = "") -> None:
        """Ask for the file of a store of one's own; typing replaces the one proposed."""
        self.box.value = self.box.value if sentence else self._proposed
        self._go(LoadStep.STORE, sentence)
        self.box.action_select_all()

    def _name_store(self, store: Path) -> None:
        maker: StoreOpener | None = getattr(self.app, "maker", None)
        if maker is None:
            self._ask_for_store("This board cannot make a store; use “seasonboard load”.")
            return
        try:
            self._target = new_target(store, maker)
        except SeasonboardError as problem:
            self._ask_for_store(str(problem))
            return
        self.box.value = ""
        self._read()

    # Reading, and what comes of it

    def _wish(self, options: LoadOptions) -> None:
        """Read the files anew with another wish; Esc takes it back."""
        self._earlier.append(self._options)
        self._options = options
        self._read()

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
        self.say(f"{step} …  {monotonic() - self._since:.0f} s")

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
            self._show_plan(outcome.shown, " ".join(outcome.sentences))
        else:
            self._go(LoadStep.PATH, " ".join(outcome.sentences))

    def _show_plan(self, shown: ShownPlan, sentence: str) -> None:
        """Show a plan; the cursor stands on writing it only where nothing speaks against that."""
        self._shown = shown
        self.set_class(False, "-brief")
        self.show_lines("choose", *plan_lines(shown.plan, self._options))
        if shown.plan.is_empty and not sentence:
            sentence = f"There is nothing to write: {shown.plan.why_nothing}"
        self._go(LoadStep.PLAN, sentence)
        self.write(plan_text(shown, self.text_width))

    def _ask(self, question: LoadQuestion) -> None:
        self.show_lines("choose", (*question.answers, *question.readings))
        self.write(question_text(question))
        self.set_class(len(question.sentences) <= _FEW, "-brief")
        self._go(LoadStep.ASKED, "" if question.answers else NO_ANSWER)

    def _written(self, outcome: LoadOutcome) -> None:
        target = self._target
        assert target is not None and self._path is not None  # noqa: S101, PT018 - it was loaded
        name = self._path.name
        if target.opened is None:
            self.app.post_message(StoreChanged(name, outcome.number))
        else:
            answer_source = target.opened()
            self.app.post_message(StoreOpened(answer_source, name, outcome.number))
            writer = answer_source.entry_writer
            self._target = kept_target(answer_source.store_label, writer) if writer else None
        self.write(Text("\n".join(clean(one) for one in outcome.sentences)))
        self.box.value = ""
        self._go(LoadStep.PATH, f"W{written(name, outcome.number)[1:]}; {AFTER}")

    def _stop(self) -> None:
        """Stop; a mere reading is left at once, since it writes nothing."""
        self._dialog.stop()
        if self._dialog.agreed is None:
            self._dialog = BoardDialog()
            self._go(LoadStep.PATH, "Stopped; the store is as it was.")

    # Keys

    def key_enter(self, event: "events.Key") -> None:
        """Take the line under the cursor."""
        line = self.line
        if line is None:
            return
        event.stop()  # else a list that is opened here would take the key too
        if line.action == "write":
            self.action_write()
        elif line.action == "back":
            self.action_back()
        elif line.meanings:
            self._choose_meaning(line)
        else:
            self._take(line)

    def _take(self, line: LoadAnswer) -> None:
        """Ask for a value that is typed, or read the files as the line wishes."""
        if line.fills:
            self._fills, self._filled_from = line, self._step
            self.box.value = ""
            self._go(LoadStep.FILL)
        elif line.options != self._options:
            self._wish(line.options)
        elif line.without is not None:
            self._wish(line.without)

    def _choose_meaning(self, line: LoadAnswer) -> None:
        choices = [
            Choice(str(number), one.shown, one.beside) for number, one in enumerate(line.meanings)
        ]
        now = frozenset(one.value for one in choices if one.beside == AS_NOW)
        prompt = ChooserPrompt(line.asks, choices, now)
        choose(self.app, prompt, lambda number: self._take(line.meanings[int(number)]))

    def action_leave_out(self) -> None:
        """Leave the sheet or heading under the cursor out, or the sheet that asks."""
        if self.line is not None and self.line.without is not None:
            self._wish(self.line.without)

    def action_write(self) -> None:
        """Write the plan that is shown."""
        shown = self._shown
        if self._step is LoadStep.PLAN and shown is not None and shown.plan.is_worth_writing:
            self._read(shown)

    def action_back(self) -> None:
        """Stop reading, go back a step, or leave."""
        if self._step is LoadStep.BUSY:
            self._stop()
        elif self._step is LoadStep.STORE:
            self.box.value = self._lost_if_left or ""
            self._go(LoadStep.PATH)
        elif self._step is LoadStep.FILL:
            self._go(self._filled_from)
        elif self._step in {LoadStep.ASKED, LoadStep.PLAN} and self._earlier:
            self._options = self._earlier.pop()
            self._read()
        elif self._step in {LoadStep.ASKED, LoadStep.PLAN}:
            self.write(Text(""))
            self._go(LoadStep.PATH)
        else:
            self._leave()

    def _leave(self) -> None:
        """Leave; what was typed is only lost when asked a second time."""
        typed = self.box.value
        if typed in {"", self._lost_if_left}:
            self.dismiss(None)
        else:
            self._lost_if_left = typed
            self.say(NOT_TAKEN)
