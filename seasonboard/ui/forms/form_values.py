"""A form half filled in: what is typed, what it stands for, and what is wrong with it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from seasonboard.answers.lists import MatchingLines
from seasonboard.entries import Entry, Written
from seasonboard.errors import Problem
from seasonboard.ui.forms.form import FieldKind, FormField, FormLists, InputForm, fitting
from seasonboard.ui.layout.format import clean

_ROUNDS = 3
"""Proposals may hang on proposals: a day on the athlete, a session on both."""

NEEDED = "is needed."
THERE = "is recorded already; nothing was written."


@dataclass(frozen=True, slots=True)
class FormDraft:
    """What stands in the fields of a form.

    Attributes:
        texts: Column → what is typed or shown.
        values: Column → what it stands for; a choice that is still open stands for nothing.
        touched: Columns that a person has filled in; proposals leave them alone.
        problems: Column → what is wrong, in words.
    """

    form: InputForm
    texts: Mapping[str, str] = field(default_factory=dict)
    values: Mapping[str, str] = field(default_factory=dict)
    touched: frozenset[str] = frozenset()
    problems: Mapping[str, str] = field(default_factory=dict)

    def with_text(self, one: FormField, text: str) -> "FormDraft":
        """Return the draft with a text typed into a field."""
        value = "" if one.is_choice and text not in one.words else text.strip()
        return self._with(one.column, text, value, self.touched | {one.column})

    def with_choice(self, one: FormField, value: str, shown: str) -> "FormDraft":
        """Return the draft with a choice made by hand."""
        return self._with(one.column, clean(shown), value, self.touched | {one.column})

    def with_proposal(self, column: str, value: str, shown: str) -> "FormDraft":
        """Return the draft with a value that nobody has typed."""
        return self._with(column, clean(shown), value, self.touched)

    def with_problem(self, column: str, summary: str) -> "FormDraft":
        """Return the draft with a problem under one field."""
        return replace(self, problems={**self.problems, column: summary})

    def is_open(self, one: FormField) -> bool:
        """Say whether something is typed into a choice that stands for nothing yet."""
        column = one.column
        is_typed = bool(self.texts.get(column, "").strip())
        return one.is_choice and is_typed and not self.values.get(column)

    def _with(self, column: str, text: str, value: str, touched: frozenset[str]) -> "FormDraft":
        problems = {name: summary for name, summary in self.problems.items() if name != column}
        return replace(
            self,
            texts={**self.texts, column: text},
            values={**self.values, column: value},
            touched=touched,
            problems=problems,
        )


def with_proposals(draft: FormDraft, form_lists: FormLists, *, but: str = "") -> FormDraft:
    """Return the draft with open choices made where only one fits, and with proposals.

    Args:
        draft: What stands there.
        form_lists: Is asked for lists and proposals.
        but: The column that is being typed into; its choice stays open.
    """
    for one in draft.form.fields:
        if one.column != but and draft.is_open(one):
            draft = _closed(draft, one, form_lists)
    draft = _named(draft, form_lists)
    for _ in range(_ROUNDS):
        before = draft
        for column, value in draft.form.propose(draft.values, form_lists).items():
            is_new = value != draft.values.get(column, "")
            if is_new and column not in draft.touched:
                draft = draft.with_proposal(
                    column, value, shown_for(draft.form, column, value, form_lists)
                )
        if draft.values == before.values:
            break
    return draft


def _named(draft: FormDraft, form_lists: FormLists) -> FormDraft:
    """Return the draft with keys that it began with shown as their lists show them."""
    for one in draft.form.fields:
        column, value = one.column, draft.values.get(one.column, "")
        is_bare = bool(value) and draft.texts.get(column) == value and column not in draft.touched
        if one.holds is FieldKind.LINE and is_bare:
            draft = draft.with_proposal(
                column, value, shown_for(draft.form, column, value, form_lists)
            )
    return draft


def shown_for(form: InputForm, column: str, value: str, form_lists: FormLists) -> str:
    """Return how a value is shown in its field."""
    one = next(each for each in form.fields if each.column == column)
    if one.holds is not FieldKind.LINE or not value:
        return value
    line = form_lists.lists.line_of(one.finds, value)
    return line.shown if line else value


def matching_lines(
    draft: FormDraft, one: FormField, form_lists: FormLists, typed: str
) -> MatchingLines:
    """Return the lines of a field's list that fit what is typed."""
    given = {name: draft.values.get(column, "") for name, column in one.narrowed_by.items()}
    return form_lists.lists.find(one.finds, typed, given)


def _closed(draft: FormDraft, one: FormField, form_lists: FormLists) -> FormDraft:
    text = draft.texts[one.column]
    if one.holds is FieldKind.WORD:
        words, best = fitting(text, one.words)
        if best == 1:
            return draft.with_choice(one, words[0], words[0])
        if one.takes_others and not best:
            return draft.with_choice(one, text.strip(), text.strip())
        near = f" Did you mean “{words[0]}”?" if words and not best else ""
        return draft.with_problem(one.column, _open_words(text, best) + near)
    found = matching_lines(draft, one, form_lists, text)
    same = [line for line in found.lines if line.value == text.strip()]
    if len(same) == 1 or found.matching == 1:
        line = (same or found.lines)[0]
        return draft.with_choice(one, line.value, line.shown)
    return draft.with_problem(one.column, _open_words(text, found.matching))


def _open_words(text: str, fit: int) -> str:
    if not fit:
        return f"“{text}” is not in the list; type other letters."
    return f"“{text}” fits {fit:,} lines; choose one with ↑ ↓ and ↵."


def with_needed(draft: FormDraft) -> FormDraft:
    """Return the draft with a problem under every field that must not be empty and is."""
    for one in draft.form.fields:
        column = one.column
        if one.is_required and not draft.values.get(column) and column not in draft.problems:
            draft = draft.with_problem(column, NEEDED)
    return draft


def with_refused(
    draft: FormDraft, problems: Iterable[Problem]
) -> tuple[FormDraft, tuple[str, ...]]:
    """Return the draft with the intake's problems under their fields, and those without a field."""
    columns = {one.column for one in draft.form.fields}
    others = []
    for problem in problems:
        if problem.column in columns and problem.column not in draft.problems:
            draft = draft.with_problem(problem.column, problem_text(problem))
        else:
            others.append(problem.sentence())
    return draft, tuple(dict.fromkeys(others))


def problem_text(problem: Problem) -> str:
    """Return a problem in the intake's words, without the place, which is the field above it."""
    value = "" if problem.value is None else f"“{problem.value}” "
    near = f" Did you mean “{problem.nearest}”?" if problem.nearest else ""
    return f"{value}{problem.expected}{near}"


def entry_of(draft: FormDraft) -> Entry:
    """Return what the form makes of its values."""
    return draft.form.entry(draft.values, draft.texts)


def clashes(draft: FormDraft, entry: Entry, would: Written) -> bool:
    """Say whether a record that should be new stands on one that is there."""
    rows = sum(len(rows) for rows in entry.tables.values())
    return bool(draft.form.key) and would.new < rows
