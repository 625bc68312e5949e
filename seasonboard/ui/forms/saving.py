"""One attempt to save a form: settle, check, show what is doubtful, write."""

from dataclasses import dataclass, replace

from seasonboard.entries import EntryWriter
from seasonboard.errors import IntakeError, SeasonboardError
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.forms.form import FormLists
from seasonboard.ui.forms.form_values import (
    THERE,
    FormDraft,
    problem_text,
    with_needed,
    with_proposals,
    with_refused,
)

CONFIRM = "^s again saves it so."
NOTHING = "Nothing would change: it is recorded so already."


@dataclass(frozen=True, slots=True)
class SaveOutcome:
    """What became of it: the draft with problems under their fields, `refused` those of no field.

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
    try:
        return _check_and_write(draft, form_lists, entry_writer, shown)
    except IntakeError as refused:
        wrong, others = with_refused(draft, refused.problems)
        return SaveOutcome(wrong, others if refused.problems else (str(refused),))
    except SeasonboardError as refused:
        return SaveOutcome(draft, (str(refused),))
    except Exception as bug:  # noqa: BLE001 - a bug here must not end the board
        return SaveOutcome(draft, (str(written_down(bug, draft.form.title)),))


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
