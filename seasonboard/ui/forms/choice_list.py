"""The list under a form: the lines that fit what is typed into the field in focus."""

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from textual import work
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Input

from seasonboard.errors import SeasonboardError
from seasonboard.ui.forms.fields import Choices, FieldLine
from seasonboard.ui.forms.form import Field, Form, FormLists, Holds, fitting
from seasonboard.ui.forms.form_values import Draft, found_for

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource


class ListingScreen(ModalScreen[bool]):
    """A form with the list that its fields choose from; a subclass fills it in."""

    @dataclass
    class Listed(Message):
        """The lines for what was typed into a field."""

        column: str
        typed: str
        lines: tuple[tuple[str, str, str], ...]
        matching: int

    def __init__(self, form: Form, answer_source: "AnswerSource") -> None:
        """Choose from the lists of the store of `answer_source`."""
        super().__init__()
        self._form = form
        self._answer_source = answer_source
        self._draft = Draft(form)
        self._lines: tuple[tuple[str, str, str], ...] = ()
        self._listed = ("", "")  # the column and the letters that the lines are for

    def now(self) -> datetime:
        """Return the instant it is."""
        return datetime.now(UTC)

    @property
    def form_lists(self) -> FormLists:
        """Return what proposals are made from."""
        return FormLists(self._answer_source.lists, self.now())

    @property
    def _here(self) -> Field:
        focused = self.focused
        line = focused.query_ancestor(FieldLine) if isinstance(focused, Input) else None
        return line.one if line is not None else self._form.fields[0]

    def _list(self, one: Field, typed: str) -> None:
        if one.holds is Holds.WORD:
            words, best = fitting(typed, one.words) if typed.strip() else (one.words, 1)
            lines = tuple((word, word, "") for word in words)
            if one.takes_others and not best:
                lines = ((typed.strip(), typed.strip(), "as it is typed"), *lines)
            self._offer(one, lines, len(lines), typed)
        elif one.holds is Holds.LINE:
            if self._listed[0] != one.column:
                self._offer(one, (), 0, typed)
            self._find(one, typed, self._draft, self.form_lists)
        else:
            self._lines = ()
            told = one.hint or ("text" if one.holds is Holds.TEXT else one.holds.value)
            self.query_one(Choices).show(f"{one.title}: {told}", (), -1)

    @work(thread=True, exclusive=True, group="list")
    def _find(self, one: Field, typed: str, draft: Draft, form_lists: FormLists) -> None:
        try:
            found = found_for(draft, one, form_lists, typed)
        except SeasonboardError:
            return  # saving tells what is wrong with the store
        lines = tuple((line.value, line.shown, line.beside) for line in found.lines)
        self.post_message(self.Listed(one.column, typed, lines, found.matching))

    def on_listing_screen_listed(self, message: Listed) -> None:
        """Show the lines, unless something else is typed by now."""
        one = self._here
        text = self._draft.texts.get(one.column, "") if self._draft.is_open(one) else ""
        if message.column == one.column and message.typed == text:
            self._offer(one, message.lines, message.matching, message.typed)

    def _offer(
        self, one: Field, lines: tuple[tuple[str, str, str], ...], many: int, typed: str
    ) -> None:
        self._lines, self._listed = lines, (one.column, typed)
        value = self._draft.values.get(one.column, "")
        none = 0 if typed.strip() else -1
        at = next((n for n, line in enumerate(lines) if value and line[0] == value), none)
        more = f", {many - len(lines):,} more not shown" if many > len(lines) else ""
        summary = f"with “{typed}”{more}" if typed.strip() else f"type to narrow{more}"
        shown = [(shown, beside) for _, shown, beside in lines]
        self.query_one(Choices).show(
            f"{one.title}: {summary if lines else f'none {summary}'}", shown, at
        )
