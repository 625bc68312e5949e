"""The screen of a form: type, choose, see what is wrong, save."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from functools import partial
from typing import ClassVar

from rich.text import Text
from textual import events, on, work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from seasonboard.answers.source import AnswerSource
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.app.entries import StoreChanged
from seasonboard.ui.forms.fields import FieldChoices, FieldLine
from seasonboard.ui.forms.form import FormField, FormLists, InputForm
from seasonboard.ui.forms.form_values import FormDraft, SaveOutcome, attempt_saving, with_proposals
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import clean
from seasonboard.ui.widgets.lines import TooSmall

_KEYS = "Tab next · ↑↓ choose · ↵ takes it · ^s saves · Esc leaves · * is needed"
LEAVING = "What was typed is not saved. Again leaves without it; any other key goes on."
ASKING = "looking …"


class FormScreen(ModalScreen[bool]):
    """A form; what it wrote it tells with the message `StoreChanged`."""

    BINDINGS = bindings(
        key("ctrl+s", "save", "save", "Save what is typed", "form.save", priority=True),
        key("escape", "leave", "leave", "Leave without saving", "form.leave", priority=True),
        key("down", "walk(1)", "next", "The next line", "form.next", is_quiet=True, priority=True),
        key("up", "walk(-1)", "previous", "The line before", "form.previous", is_quiet=True,
            priority=True),
        key("tab", "move(1)", "on", "The next field", "form.on", is_quiet=True, priority=True),
        key("shift+tab", "move(-1)", "back", "The field before", "form.back", is_quiet=True,
            priority=True),
    )  # fmt: skip
    KEYS: ClassVar[str] = _KEYS

    def __init__(
        self, form: InputForm, answer_source: AnswerSource, start: Mapping[str, str] | None = None
    ) -> None:
        """Fill in `form`; `start` holds values that are known from where it was opened."""
        super().__init__()
        self._form = form
        self._answer_source = answer_source
        self._draft = FormDraft(form, dict(start or {}), dict(start or {}))
        self._doubts_shown: tuple[str, ...] = ()
        self._is_leaving = False
        self._is_saving = False
        self.saved: FormDraft | None = None

    def now(self) -> datetime:
        """Return the instant it is."""
        return datetime.now(UTC)

    @property
    def form_lists(self) -> FormLists:
        """Return what proposals are made from."""
        return FormLists(self._answer_source.lists, self.now())

    @property
    def _here(self) -> FormField:
        focused = self.focused
        line = focused.query_ancestor(FieldLine) if isinstance(focused, Input) else None
        return line.one if line is not None else self._form.fields[0]

    @property
    def _choices(self) -> FieldChoices:
        return self.query_one(FieldChoices)

    def compose(self) -> ComposeResult:
        """Put the fields over the list they choose from."""
        yield Static(Text(f" {self._form.title}"), id="title")
        with VerticalScroll(id="fields", can_focus=False):
            for one in self._form.fields:
                yield FieldLine(one)
        yield Static(Text(""), id="told")
        yield FieldChoices()
        yield Static(Text(f" {self.KEYS}", no_wrap=True), id="keys")
        yield TooSmall()

    def on_mount(self) -> None:
        """Show what is known, and come to the field where typing begins."""
        self._show()
        self.query_one(f"#field-{self.begins_at()}", Input).focus()

    def begins_at(self) -> str:
        """Return the first field that is empty."""
        columns = [one.column for one in self._form.fields]
        return next((name for name in columns if not self._draft.texts.get(name)), columns[0])

    # What is typed

    @on(Input.Changed)
    def _text_changed(self, event: Input.Changed) -> None:
        line, text = event.input.query_ancestor(FieldLine), event.input.value
        if text == line.known:
            return
        self._change(self._heard())
        if line.one is self._here:
            self._offer(line.one, text)
        else:  # typed ahead: the field was left before its letters came
            self._settle()

    def _heard(self) -> FormDraft:
        """Return the draft with all that is typed by now, also what no message has told yet."""
        draft = self._draft
        for line in self.query(FieldLine):
            if line.box.value != line.known:
                line.known = line.box.value
                draft = draft.with_text(line.one, line.known)
        return draft

    def _change(self, draft: FormDraft) -> None:
        """Take what a person did; what was told before it is over."""
        self._draft = draft
        self._doubts_shown, self._is_leaving = (), False
        self._tell(())
        self._show()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        """Show the list of the field that is come to; settle the others."""
        if isinstance(event.widget, Input):
            one = self._here
            is_open = self._draft.is_open(one)
            self._offer(one, self._draft.texts.get(one.column, "") if is_open else "")
            self._settle()

    def _show(self) -> None:
        self._draft = self._heard()
        for line in self.query(FieldLine):
            column = line.one.column
            line.show(self._draft.texts.get(column, ""), self._draft.problems.get(column, ""))

    def _tell(self, sentences: Sequence[str]) -> None:
        text = Text("\n".join(clean(one) for one in sentences))
        self.query_one("#told", Static).update(text)

    def action_walk(self, by: int) -> None:
        """Go along the list; where there is none, to the next field."""
        if self._here.is_choice and self._choices.are_for(self._here.column):
            self._choices.walk(by)
            self._choose()
        else:
            self.action_move(by)

    def action_move(self, by: int) -> None:
        """Go to the next field, or to the one before."""
        self._stay()
        if by > 0:
            self.focus_next(Input)
        else:
            self.focus_previous(Input)

    def _offer(self, one: FormField, typed: str) -> None:
        self._choices.offer(one, typed, self._draft, self.form_lists)

    def _choose(self) -> None:
        """Take the line under the cursor into the field."""
        line = self._choices.chosen
        self._choices.leave_as_it_is()
        self._change(self._draft.with_choice(self._here, line.value, line.shown))

    @on(Input.Submitted)
    def _take(self, event: Input.Submitted) -> None:
        event.stop()
        one = self._here
        is_for_this = self._choices.are_for(one.column, self._draft.texts.get(one.column, ""))
        if self._draft.is_open(one) and is_for_this:
            self._choose()
        self.focus_next(Input)

    # Choices made, and proposals

    def _settle(self) -> None:
        self._propose(self._draft, self.form_lists, self._here.column)

    @work(thread=True, exclusive=True, group="settle")
    def _propose(self, draft: FormDraft, form_lists: FormLists, but: str) -> None:
        act = partial(with_proposals, draft, form_lists, but=but)
        proposed = outcome_of(act, self._form.title)
        if isinstance(proposed, FormDraft):  # else saving tells what is wrong with the store
            self.call_later(self._show_proposals, draft, proposed)

    def _show_proposals(self, draft: FormDraft, proposed: FormDraft) -> None:
        """Show what was found; what was typed meanwhile stays, and is settled later."""
        if draft == self._heard():
            is_same = proposed.texts == self._draft.texts
            self._draft = proposed
            self._show()
            if not is_same:
                self._offer(self._here, "")

    # Saving and leaving

    def action_save(self) -> None:
        """Save once the letters typed before have come to their fields."""
        self.call_after_refresh(self._save)

    def _save(self) -> None:
        """Check what is typed, and write it."""
        self._is_leaving = False
        self._draft = self._heard()
        if not self._is_saving:
            self._is_saving = True
            self._tell((ASKING,))
            self._try(self._draft, self.form_lists, self._doubts_shown)

    @work(thread=True, exclusive=True, group="save")
    def _try(self, draft: FormDraft, form_lists: FormLists, doubts: tuple[str, ...]) -> None:
        self.call_later(self._attempted, draft, self.attempt(draft, form_lists, doubts))

    def attempt(
        self, draft: FormDraft, form_lists: FormLists, doubts: tuple[str, ...]
    ) -> SaveOutcome:
        """Try to save; runs in a thread."""
        entry_writer = self._answer_source.entry_writer
        assert entry_writer is not None  # noqa: S101 - a form is opened only where there is one
        return attempt_saving(draft, form_lists, entry_writer, doubts)

    def has_written(self, label: str, load_no: int) -> None:
        """Tell the board what was written."""
        self.app.post_message(StoreChanged(label, load_no))

    def _attempted(self, draft: FormDraft, outcome: SaveOutcome) -> None:
        """Leave when it was written; else show why not, or what is doubtful."""
        self._is_saving = False
        if outcome.written is not None:
            self.saved = outcome.draft
            self.has_written(*outcome.written)
            self.dismiss(None)
            return
        if draft == self._draft:
            self._draft = outcome.draft
        self._doubts_shown = outcome.doubts
        self._show()
        self._tell((*outcome.refused, *outcome.doubt_lines))
        wrong = [one.column for one in self._form.fields if one.column in outcome.draft.problems]
        if wrong:
            self.query_one(f"#field-{wrong[0]}", Input).focus()

    def holds_back(self) -> bool:
        """Say whether leaving now would lose something that was typed; if so, ask about it."""
        if not self._draft.touched or self._is_leaving:
            return False
        self._is_leaving = True
        self._tell((LEAVING,))
        return True

    def action_leave(self) -> None:
        """Leave; ask once when something was typed."""
        if not self.holds_back():
            self.dismiss(None)

    def on_key(self, event: events.Key) -> None:
        """Go on typing after all."""
        if event.key != "escape":
            self._stay()

    def _stay(self) -> None:
        if self._is_leaving:
            self._is_leaving = False
            self._tell(())
