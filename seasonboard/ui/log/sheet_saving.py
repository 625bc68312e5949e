"""Saving a sheet: checked first, doubts asked about, problems shown at their athletes."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from textual import work
from textual.message import Message

from seasonboard.answers import words
from seasonboard.answers.log.sheet_entry import SheetEntry, sheet_entry
from seasonboard.entries import Entry, EntryWriter, Written
from seasonboard.errors import IntakeError, Problem, SeasonboardError
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.layout.format import clean
from seasonboard.ui.log.sheet_keys import SheetKeys
from seasonboard.ui.log.sheet_list import SheetList
from seasonboard.ui.windows.confirm import AskScreen, Reply

SAVE = "s"
SAVING_FAILED = "The sheet could not be saved through a mistake in the program; the draft is kept."
NOTHING_NEW = "There is nothing to save: all of it stands in the store already."


class SheetSaving(SheetKeys):
    """A sheet that is saved as one entry."""

    @dataclass
    class Checked(Message):
        """What saving would do, or why it cannot be done; nothing is written yet."""

        outcome: Written | SeasonboardError

    @dataclass
    class Saved(Message):
        """What was written, or why nothing was."""

        outcome: Written | SeasonboardError

    entry_writer: EntryWriter | None = None
    _entry: SheetEntry | None = None

    def saved(self, written: Written) -> None:
        """Hear that the sheet was written."""
        raise NotImplementedError

    def action_save(self) -> None:
        """Check the sheet, then write it."""
        if self.sheet is None or self.entry_writer is None or self.is_busy:
            return
        entry = sheet_entry(self.sheet, self.marks)
        if entry.is_empty:
            self.tell(NOTHING_NEW)
            return
        self._entry = entry
        self.told = {}
        self._set_busy("checking …")
        self._check(self.entry_writer.look, entry.entry)

    def _set_busy(self, state: str) -> None:
        self.is_busy = bool(state)
        self.say(state)

    @work(thread=True, exclusive=True, group="check")
    def _check(self, look: Callable[[Entry], Written], entry: Entry) -> None:
        self.post_message(self.Checked(_outcome(look, entry)))

    @work(thread=True, exclusive=True, group="save")
    def _write(self, write: Callable[[Entry], Written], entry: Entry) -> None:
        self.post_message(self.Saved(_outcome(write, entry)))

    def on_sheet_saving_checked(self, message: Checked) -> None:
        """Write what is good; ask about doubts; show problems."""
        self._set_busy("")
        outcome = message.outcome
        if isinstance(outcome, SeasonboardError):
            self._refuse(outcome)
        elif outcome.notes:
            self._show_at_athletes(outcome.notes)
            told = [_sentence(note) for note in outcome.notes]
            many = words.plural(len(told), "doubt")
            asked = AskScreen(f"{many}. Save anyway?", told, (Reply(SAVE, "save it as it is"),))
            self.app.push_screen(asked, self._write_anyway)
        else:
            self._go_on()

    def _write_anyway(self, reply: str | None) -> None:
        if reply == SAVE:
            self._go_on()

    def _go_on(self) -> None:
        if self._entry is not None and self.entry_writer is not None:
            self._set_busy("saving …")
            self._write(self.entry_writer.write, self._entry.entry)

    def on_sheet_saving_saved(self, message: Saved) -> None:
        """Leave once it is written."""
        self._set_busy("")
        outcome = message.outcome
        if isinstance(outcome, SeasonboardError):
            self._refuse(outcome)
        else:
            self.saved(outcome)

    def _refuse(self, problem: SeasonboardError) -> None:
        problems = problem.problems if isinstance(problem, IntakeError) else ()
        if not problems:
            self.notify(
                clean(problem.hint), title=clean(problem.what), severity="error", markup=False
            )
            self.show()
            return
        about_all = self._show_at_athletes(problems)
        many = words.plural(len(problems), "problem")
        self.tell(f"Nothing was saved: {many}. Each stands under its athlete; mend it and save.")
        if about_all:
            self.app.push_screen(AskScreen(f"Nothing was saved: {many}.", about_all, ()))

    def _show_at_athletes(self, problems: Iterable[Problem]) -> list[str]:
        """Show each under its athlete and go to the first; return those about nobody."""
        told: dict[str, list[str]] = {}
        about_all = []
        for problem in problems:
            athlete = self._entry.athlete_of(problem) if self._entry else None
            if athlete is None:
                about_all.append(_sentence(problem))
            else:
                told.setdefault(athlete, []).append(_sentence(problem))
        self.told = told
        self.show()
        here = (
            [one.athlete for one in self.sheet.athletes if one.athlete in told]
            if self.sheet
            else []
        )
        if here:
            self.query_one(SheetList).go_to_name(here[0])
        return about_all

    def say(self, state: str) -> None:
        """Say what is going on."""
        raise NotImplementedError


def _outcome(act: Callable[[Entry], Written], entry: Entry) -> Written | SeasonboardError:
    try:
        return act(entry)
    except SeasonboardError as problem:
        return problem
    except Exception as bug:  # noqa: BLE001 - told in a sentence, like every other reason
        return written_down(bug, "saving a sheet", told=SAVING_FAILED)


def _sentence(problem: Problem) -> str:
    """Return a problem without the name of the entry, which stands on top of the sheet."""
    column = f"{problem.column} " if problem.column else ""
    value = f"“{problem.value}” " if problem.value is not None else ""
    near = f" Did you mean “{problem.nearest}”?" if problem.nearest else ""
    return f"{column}{value}{problem.expected}{near}"
