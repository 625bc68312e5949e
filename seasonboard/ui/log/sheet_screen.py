"""Attendance, second step: the sheet of one session, by exception."""

from collections.abc import Callable, Iterable
from datetime import datetime
from functools import partial

from rich.text import Text
from textual import events, work
from textual.app import ComposeResult
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.answers import words
from seasonboard.answers.log.parts import LogSession, LogSheet
from seasonboard.answers.log.sheet_entry import SheetEntry, proposed, sheet_entry, when
from seasonboard.answers.source import AnswerSource
from seasonboard.entries import Written
from seasonboard.errors import IntakeError, Problem, SeasonboardError
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.forms.form_values import problem_text
from seasonboard.ui.layout.format import clean
from seasonboard.ui.log.drafts import DraftKeeper, Drafts, SheetDraft
from seasonboard.ui.log.sessions_page import kept_words
from seasonboard.ui.log.sheet_bindings import SHEET_KEYS
from seasonboard.ui.log.sheet_lines import SheetLines
from seasonboard.ui.widgets.key_line import KeyLine
from seasonboard.ui.widgets.lines import TooSmall
from seasonboard.ui.windows.confirm import AskScreen

TAKE_UP, ANEW = "y", "n"
SAVE, LEAVE, THROW = "s", "d", "t"
SAVING_FAILED = "The sheet could not be saved through a mistake in the program; the draft is kept."
NOTHING_NEW = "There is nothing to save: all of it stands in the store already."


class SheetScreen(ModalScreen[bool]):
    """Everybody of a session, full unless changed; kept as a draft until it is saved."""

    IS_ENTRY = True

    AUTO_FOCUS = "SheetLines"
    HELP = (
        "Everybody is full and wears what they wore last time; only who is not needs a key. Who "
        "has an open injury is proposed out, or limited when they took part since, and marked "
        "“proposed”. At the left: + is new, ~ changes a recorded row, = stands there already, "
        "nothing: not written. ● full, ◐ limited, ○ out, · not recorded; ◆ guard worn, ◇ not. "
        "Type a jersey number to jump to it. After l and o the letter of the reason: i injury, l "
        "illness, s selection, p personal, o other. A recorded row can be changed but not taken "
        "out; u takes a whole entry back. What is not saved is kept as a draft on this machine. "
        "Above the lines: whether wear is recorded for everybody; c changes it. If it is, who has "
        "a guard and no ◆ is written as not wearing it; if not, that stays not known."
    )
    BINDINGS = SHEET_KEYS

    def __init__(
        self,
        answer_source: AnswerSource,
        session: LogSession,
        early: list[events.Key] | None = None,
    ) -> None:
        """Open the sheet of a session; `early` are keys that were meant for it already."""
        super().__init__()
        self._answer_source = answer_source
        self._session = session
        self.lines = SheetLines([] if early is None else early)
        self.drafts = DraftKeeper(Drafts(answer_source.store_label), session.session, self._draft)
        self._entry: SheetEntry | None = None
        self._has_warned = False

    def compose(self) -> ComposeResult:
        """Put title and counts over the lines, what is said of one line under them."""
        yield Static(classes="sheet-title")
        yield Static(Text(" opening …", style="bold"), id="tally")
        yield self.lines
        yield Static(id="detail")
        yield KeyLine()
        yield TooSmall()
        yield self.drafts

    def on_mount(self) -> None:
        """Ask for the sheet."""
        self.say("")
        self._open()

    def say(self, state: str) -> None:
        """Write the title, and what is going on."""
        one = self._session
        team = self.lines.sheet.team_name if self.lines.sheet else one.team
        new = " · new session" if one.is_new else ""
        label = f" · {one.label}" if one.label else ""
        at = one.local_start
        title = f" {at:%a} {when(one)} {one.setting} · {team}{label}{new}"
        title += f" · {state}" if state else ""
        self.query_one(".sheet-title", Static).update(Text(clean(title), no_wrap=True))

    @work(thread=True, exclusive=True, group="sheet")
    def _open(self) -> None:
        outcome = outcome_of(
            lambda: self._answer_source.log_sheet(self._session), "opening a sheet"
        )
        self.call_later(self._show, outcome, self.drafts.drafts.find(self._session.session))

    def _show(self, outcome: LogSheet | SeasonboardError, draft: SheetDraft | None) -> None:
        """Show the sheet; offer the draft."""
        if isinstance(outcome, SeasonboardError):
            self._notify_problem(outcome)
            self.dismiss(False)
            return
        self.lines.sheet = outcome
        self.lines.marks = proposed(outcome)
        self.lines.is_complete = outcome.is_complete
        self.say("")
        self.lines.show()
        if draft is not None:
            self._offer(draft)
        else:
            self.lines.press_early()

    def _notify_problem(self, problem: SeasonboardError) -> None:
        title = clean(problem.what)
        self.notify(clean(problem.hint), title=title, severity="error", markup=False)

    def _offer(self, draft: SheetDraft) -> None:
        lines = words.plural(len(draft.marks), "line")
        title = f"Draft of {kept_words(draft)}, {lines} changed: take it up?"
        replies = {TAKE_UP: "take it up", ANEW: "throw it away, begin anew"}

        def take(reply: str | None) -> None:
            if reply == TAKE_UP:
                self._take_up(draft)
            elif reply == ANEW:
                self.drafts.forget()
            else:
                self.dismiss(False)

        self.app.push_screen(AskScreen(title, (), replies), take)

    def _take_up(self, draft: SheetDraft) -> None:
        here = {who: mark for who, mark in draft.marks.items() if who in self.lines.marks}
        self.lines.marks |= here
        self.lines.is_complete = draft.is_complete
        self.lines.touched = frozenset(here)
        gone = draft.marks.keys() - here.keys()
        if gone:
            text = f"No longer on the sheet, and left out of the draft: {', '.join(sorted(gone))}."
            self.notify(clean(text), markup=False)
        self.lines.show()

    def on_sheet_lines_changed(self) -> None:
        """Keep the draft soon."""
        self.drafts.keep_soon()

    def on_sheet_lines_moved(self) -> None:
        """Tell the counts, and what is known of the line under the cursor."""
        if self.lines.sheet is not None:
            self.query_one("#tally", Static).update(Text(f" {self.lines.counts}", style="bold"))
            self.query_one("#detail", Static).update(self.lines.detail)

    def _draft(self) -> SheetDraft:
        lines = self.lines
        touched = {athlete: lines.marks[athlete] for athlete in lines.touched}
        at = datetime.now().astimezone()
        return SheetDraft(self._session, at, touched, lines.is_complete)

    def on_draft_keeper_lost(self, message: DraftKeeper.Lost) -> None:
        """Say once that a crash would lose the sheet."""
        if not self._has_warned:
            self._has_warned = True
            text = f"The draft cannot be kept, so a crash would lose this sheet: {message.why}"
            self.notify(clean(text), severity="warning", markup=False)

    def action_complete(self) -> None:
        """Say that wear is recorded for everybody, or no longer."""
        if self.lines.sheet is not None and not self.lines.is_busy:
            self.lines.turn_complete()

    def _written(self, sheet: LogSheet) -> SheetEntry:
        return sheet_entry(sheet, self.lines.marks, is_complete=self.lines.is_complete)

    def action_save(self) -> None:
        """Check the sheet, then write it."""
        entry_writer = self._answer_source.entry_writer
        if self.lines.sheet is None or entry_writer is None or self.lines.is_busy:
            return
        entry = self._written(self.lines.sheet)
        if entry.is_empty:
            self.lines.tell(NOTHING_NEW)
            return
        self._entry = entry
        self.lines.problems = {}
        self._set_busy("checking …")
        self._write(partial(entry_writer.look, entry.entry), self._checked)

    def _set_busy(self, state: str) -> None:
        self.lines.is_busy = bool(state)
        self.say(state)

    @work(thread=True, exclusive=True, group="save")
    def _write(self, act: Callable[[], Written], go_on: Callable[..., None]) -> None:
        self.call_later(go_on, outcome_of(act, "saving a sheet", told=SAVING_FAILED))

    def _checked(self, outcome: Written | SeasonboardError) -> None:
        """Write what is good; ask about doubts; show problems."""
        self._set_busy("")
        if isinstance(outcome, SeasonboardError):
            self._refuse(outcome)
        elif outcome.notes:
            self._show_at_athletes(outcome.notes)
            text = [_sentence(note) for note in outcome.notes]
            title = f"{words.plural(len(text), 'doubt')}. Save anyway?"
            prompt = AskScreen(title, text, {SAVE: "save it as it is"})
            self.app.push_screen(prompt, lambda reply: self._go_on() if reply == SAVE else None)
        else:
            self._go_on()

    def _go_on(self) -> None:
        if self._entry is not None and self._answer_source.entry_writer is not None:
            self._set_busy("saving …")
            write = partial(self._answer_source.entry_writer.write, self._entry.entry)
            self._write(write, self._saved)

    def _saved(self, outcome: Written | SeasonboardError) -> None:
        """Remove the draft and leave, once it is written."""
        self._set_busy("")
        if isinstance(outcome, SeasonboardError):
            self._refuse(outcome)
            return
        self.drafts.forget()
        text = f"Saved: {words.plural(outcome.new, 'new row')}, {outcome.changed:,} changed. "
        self.app.notify(text + "u takes it back.", markup=False)
        self.dismiss(True)

    def _refuse(self, problem: SeasonboardError) -> None:
        problems = problem.problems if isinstance(problem, IntakeError) else ()
        if not problems:
            self._notify_problem(problem)
            self.lines.show()
            return
        about_all = self._show_at_athletes(problems)
        many = words.plural(len(problems), "problem")
        self.lines.tell(
            f"Nothing was saved: {many}. Each stands under its athlete; mend it and save."
        )
        if about_all:
            self.app.push_screen(AskScreen(f"Nothing was saved: {many}.", about_all, {}))

    def _show_at_athletes(self, problems: Iterable[Problem]) -> list[str]:
        """Show each under its athlete and go to the first; return those about nobody."""
        text: dict[str, list[str]] = {}
        about_all = []
        for problem in problems:
            athlete = self._entry.athlete_of(problem) if self._entry else None
            if athlete is None:
                about_all.append(_sentence(problem))
            else:
                text.setdefault(athlete, []).append(_sentence(problem))
        self.lines.problems = text
        self.lines.show()
        first = next((one.athlete for one in self.lines.athletes if one.athlete in text), None)
        if first is not None:
            self.lines.go_to_name(first)
        return about_all

    def action_leave(self) -> None:
        """Leave; what was changed and not saved is asked about once."""
        if self.lines.is_busy:
            return
        sheet = self.lines.sheet
        if sheet is None or (self.lines.marks, self.lines.is_complete) == (
            proposed(sheet),
            sheet.is_complete,
        ):
            if self.lines.touched:
                self.drafts.forget()
            self.dismiss(False)
            return
        replies = {SAVE: "save it", LEAVE: "leave it as a draft", THROW: "throw it away"}
        self.app.push_screen(AskScreen("This sheet is not saved.", (), replies), self._left)

    def _left(self, reply: str | None) -> None:
        if reply == SAVE:
            self.action_save()
        elif reply == LEAVE:
            self.drafts.keep_now()
            self.dismiss(False)
        elif reply == THROW:
            self.drafts.forget()
            self.dismiss(False)


def _sentence(problem: Problem) -> str:
    """Return a problem without the name of the entry, which stands on top of the sheet."""
    column = f"{problem.column} " if problem.column else ""
    return column + problem_text(problem)
