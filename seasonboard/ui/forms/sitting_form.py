"""A form whose values are taken over for the sitting and written nowhere."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import ClassVar, Generic, TypeVar

from seasonboard.answers.source import AnswerSource
from seasonboard.errors import IntakeError
from seasonboard.ui.forms.form import FormLists, FormValues, InputForm
from seasonboard.ui.forms.form_screen import FormScreen
from seasonboard.ui.forms.form_values import (
    FormDraft,
    SaveOutcome,
    with_needed,
    with_proposals,
    with_refused,
)

TakenT = TypeVar("TakenT")


class TakenForm(FormScreen, Generic[TakenT]):
    """Fields that make one value, which is handed over when all of them can be read."""

    KEYS: ClassVar[str] = "Tab next · ↑↓ choose · ↵ takes it · ^s done · Esc leaves · * is needed"

    def __init__(
        self,
        form: InputForm,
        answer_source: AnswerSource,
        start: Mapping[str, str],
        *,
        read: Callable[[FormValues], TakenT],
        take: Callable[[TakenT], None],
    ) -> None:
        """Begin with `start`; `take` gets the value that `read` makes.

        `read` is called in a thread too, and raises IntakeError with problems named after columns.
        """
        super().__init__(form, answer_source, start)
        self._read = read
        self._take_over = take

    def begins_at(self) -> str:
        """Return the first field that is needed and empty, else the first one."""
        fields = self._form.fields
        texts = self._draft.texts
        empty = (one.column for one in fields if one.is_required and not texts.get(one.column))
        return next(empty, fields[0].column)

    def attempt(
        self, draft: FormDraft, form_lists: FormLists, _doubts: tuple[str, ...]
    ) -> SaveOutcome:
        """Read what is typed; runs in a thread."""
        draft = with_needed(with_proposals(replace(draft, problems={}), form_lists))
        if draft.problems:
            return SaveOutcome(draft)
        try:
            self._read(draft.values)
        except IntakeError as refused:
            wrong, others = with_refused(draft, refused.problems)
            return SaveOutcome(wrong, others)
        return SaveOutcome(draft, written=(draft.form.title, 0))

    def has_written(self, label: str, load_no: int) -> None:  # noqa: ARG002
        """Hand the value over; nothing was written."""
        if self.saved is not None:
            self._take_over(self._read(self.saved.values))
