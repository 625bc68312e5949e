"""A form half filled in: what is typed, what it stands for, what is wrong; and saving it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from seasonboard.answers.lists import MatchingLines
from seasonboard.entries import EntryWriter
from seasonboard.errors import IntakeError, Problem, SeasonboardError
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.forms.form import FieldKind, FormField, FormLists, InputForm, fitting
from seasonboard.ui.layout.format import clean

_ROUNDS = 3
"""Proposals may hang on proposals: a day on the athlete, a session on both."""

NEEDED = "is needed."
THERE = "is recorded already; nothing was written."
CONFIRM = "^s again saves it so."
NOTHING = "Nothing would change: it is recorded so already."


@dataclass(frozen=True, slots=True)
class FormDraft:
    """What stands in the fields of a form, by their columns.

    `texts` are typed or shown, `values` what they stand for: a choice that is still open stands for
    nothing. `touched` are filled in by a person; proposals leave them alone.
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

    def with_proposal(self, column: str, value: str, form_lists: FormLists) -> "FormDraft":
        """Return the draft with a value that nobody has typed, shown as its list shows it."""
        one = next(each for each in self.form.fields if each.column == column)
        is_line = one.holds is FieldKind.LINE and bool(value)
        line = form_lists.lists.line_of(one.finds, value) if is_line else None
        return self._with(column, clean(line.shown if line else value), value, self.touched)

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
        texts, values = {**self.texts, column: text}, {**self.values, column: value}
        return FormDraft(self.form, texts, values, touched, problems)


def with_proposals(draft: FormDraft, form_lists: FormLists, *, but: str = "") -> FormDraft:
    """Return the draft with open choices made where only one fits, and with proposals.

    The choice of the column `but`, which is being typed into, stays open.
    """
    for one in draft.form.fields:
        if one.column != but and draft.is_open(one):
            draft = _closed(draft, one, form_lists)
    for one in draft.form.fields:  # keys that it began with are shown as their lists show them
        column, value = one.column, draft.values.get(one.column, "")
        is_bare = bool(value) and draft.texts.get(column) == value and column not in draft.touched
        if one.holds is FieldKind.LINE and is_bare:
            draft = draft.with_proposal(column, value, form_lists)
    for _ in range(_ROUNDS):
        before = draft
        for column, value in draft.form.propose(draft.values, form_lists).items():
            is_new = value != draft.values.get(column, "")
            if is_new and column not in draft.touched:
                draft = draft.with_proposal(column, value, form_lists)
        if draft.values == before.values:
            break
    return draft


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
    matching = matching_lines(draft, one, form_lists, text)
    same = [line for line in matching.lines if line.value == text.strip()]
    if len(same) == 1 or matching.matching == 1:
        line = (same or matching.lines)[0]
        return draft.with_choice(one, line.value, line.shown)
    return draft.with_problem(one.column, _open_words(text, matching.matching))


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


@dataclass(frozen=True, slots=True)
class SaveOutcome:
    """What became of saving: `draft` has problems under its fields, `refused` are those of none.

    The same `doubts` do not stop a second attempt; `written` are the load's label and number.
    """

    draft: FormDraft
    refused: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    written: tuple[str, int] | None = None

    @property
    def doubt_lines(self) -> tuple[str, ...]:
        """Return the doubts, and how to save all the same."""
        return (*self.doubts, CONFIRM) if self.doubts else ()


def attempt_saving(
    draft: FormDraft, form_lists: FormLists, entry_writer: EntryWriter, shown: tuple[str, ...]
) -> SaveOutcome:
    """Try to save a draft; `shown` are the doubts of the attempt before."""
    outcome = outcome_of(
        lambda: _check_and_write(draft, form_lists, entry_writer, shown), draft.form.title
    )
    if isinstance(outcome, IntakeError):
        wrong, others = with_refused(draft, outcome.problems)
        return SaveOutcome(wrong, others if outcome.problems else (str(outcome),))
    return SaveOutcome(draft, (str(outcome),)) if isinstance(outcome, SeasonboardError) else outcome


def _check_and_write(
    draft: FormDraft, form_lists: FormLists, entry_writer: EntryWriter, shown: tuple[str, ...]
) -> SaveOutcome:
    draft = with_needed(with_proposals(replace(draft, problems={}), form_lists))
    if draft.problems:
        return SaveOutcome(draft)
    entry = draft.form.entry(draft.values, draft.texts)
    would = entry_writer.look(entry)
    is_there = would.new < sum(len(rows) for rows in entry.tables.values())
    if draft.form.key and is_there:
        return SaveOutcome(draft.with_problem(draft.form.key, THERE))
    if not (would.new or would.changed):
        return SaveOutcome(draft, (NOTHING,))
    remark = draft.form.remark(draft.values, form_lists)
    doubts = tuple(filter(None, (remark, *map(problem_text, would.notes))))
    if doubts and doubts != shown:
        return SaveOutcome(draft, doubts=doubts)
    done = entry_writer.write(entry)
    return SaveOutcome(draft, written=(entry.label, done.load_no))
