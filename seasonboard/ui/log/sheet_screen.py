"""Attendance, second step: the sheet of one session, by exception."""

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual import events, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Static

from seasonboard.answers import words
from seasonboard.answers.log.parts import LogSession, LogSheet
from seasonboard.answers.log.sheet_entry import proposed, when
from seasonboard.answers.source import AnswerSource
from seasonboard.entries import Written
from seasonboard.errors import SeasonboardError
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.layout.format import clean
from seasonboard.ui.log.drafts import Draft, Drafts
from seasonboard.ui.log.sessions_page import kept_words
from seasonboard.ui.log.sheet_bindings import SHEET_KEYS
from seasonboard.ui.log.sheet_list import SheetList
from seasonboard.ui.log.sheet_saving import SheetSaving
from seasonboard.ui.widgets.key_line import KeyLine
from seasonboard.ui.widgets.lines import TooSmall
from seasonboard.ui.windows.confirm import AskScreen, Reply

if TYPE_CHECKING:
    from textual.timer import Timer

PAUSE = 0.2
"""Seconds after a key until the draft is kept."""
TAKE_UP, ANEW = "y", "n"
SAVE, LEAVE, THROW = "s", "d", "t"


class SheetScreen(SheetSaving):
    """Everybody of a session, full unless changed; kept as a draft until it is saved."""

    IS_ENTRY = True

    AUTO_FOCUS = "SheetList"
    HELP = (
        "Everybody is full and wears what they wore last time; only who is not needs a key. Who "
        "has an open injury is proposed out, or limited when they took part since, and marked "
        "“proposed”. At the left: + is new, ~ changes a recorded row, = stands there already, "
        "nothing: not written. ● full, ◐ limited, ○ out, · not recorded; ◆ guard worn, ◇ not. "
        "Type a jersey number to jump to it. After l and o the letter of the reason: i injury, l "
        "illness, s selection, p personal, o other. A recorded row can be changed but not taken "
        "out; u takes a whole entry back. What is not saved is kept as a draft on this machine."
    )
    BINDINGS: ClassVar[list[BindingType]] = SHEET_KEYS

    @dataclass
    class Opened(Message):
        """The sheet, or why there is none, and the draft of it."""

        outcome: LogSheet | SeasonboardError
        draft: Draft | None = None

    @dataclass
    class DraftLost(Message):
        """The draft could not be kept."""

        why: str

    def __init__(
        self,
        answer_source: AnswerSource,
        session: LogSession,
        early: list[events.Key] | None = None,
    ) -> None:
        """Open the sheet of a session; `early` are keys that were meant for it already."""
        super().__init__([] if early is None else early)
        self._answer_source = answer_source
        self._session = session
        self.entry_writer = answer_source.entry_writer
        self._drafts = Drafts(answer_source.store_label)
        self._number = 0
        self._timer: Timer | None = None
        self._has_warned = False

    def compose(self) -> ComposeResult:
        """Put title and counts over the lines, what is said of one line under them."""
        yield Static(classes="sheet-title")
        yield Static(Text(" opening …", style="bold"), id="tally")
        yield SheetList()
        yield Static(id="detail")
        yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Ask for the sheet."""
        self.say("")
        self._open()

    def say(self, state: str) -> None:
        """Write the title, and what is going on."""
        one = self._session
        team = self.sheet.team_name if self.sheet else one.team
        new = " · new session" if one.is_new else ""
        label = f" · {one.label}" if one.label else ""
        at = one.local_start
        title = f" {at:%a} {when(one)} {one.setting} · {team}{label}{new}"
        title += f" · {state}" if state else ""
        self.query_one(".sheet-title", Static).update(Text(clean(title), no_wrap=True))

    @work(thread=True, exclusive=True, group="sheet")
    def _open(self) -> None:
        outcome: LogSheet | SeasonboardError
        try:
            outcome = self._answer_source.log_sheet(self._session)
        except SeasonboardError as problem:
            outcome = problem
        except Exception as bug:  # noqa: BLE001 - told in a sentence, like every other reason
            outcome = written_down(bug, "opening a sheet")
        self.post_message(self.Opened(outcome, self._drafts.find(self._session.session)))

    def on_sheet_screen_opened(self, message: Opened) -> None:
        """Show the sheet; offer the draft."""
        outcome = message.outcome
        if isinstance(outcome, SeasonboardError):
            self.notify(
                clean(outcome.hint), title=clean(outcome.what), severity="error", markup=False
            )
            self.dismiss(False)
            return
        self.sheet = outcome
        self.marks = proposed(outcome)
        self.say("")
        self.show()
        if message.draft is not None:
            self._offer(message.draft)
        else:
            self.press_early()

    def _offer(self, draft: Draft) -> None:
        lines = words.plural(len(draft.marks), "line")
        title = f"Draft of {kept_words(draft)}, {lines} changed: take it up?"
        replies = (Reply(TAKE_UP, "take it up"), Reply(ANEW, "throw it away, begin anew"))

        def take(reply: str | None) -> None:
            if reply == TAKE_UP:
                self._take_up(draft)
            elif reply == ANEW:
                self._forget()
            else:
                self.dismiss(False)

        self.app.push_screen(AskScreen(title, (), replies), take)

    def _take_up(self, draft: Draft) -> None:
        here = {athlete: mark for athlete, mark in draft.marks.items() if athlete in self.marks}
        self.marks |= here
        self.touched = frozenset(here)
        gone = draft.marks.keys() - here.keys()
        if gone:
            told = f"No longer on the sheet, and left out of the draft: {', '.join(sorted(gone))}."
            self.notify(clean(told), markup=False)
        self.show()

    def changed(self) -> None:
        """Keep the draft soon."""
        if self._timer is not None:
            self._timer.stop()
        self._timer = self.set_timer(PAUSE, self._keep)

    def _draft(self) -> Draft:
        self._number += 1
        touched = {athlete: self.marks[athlete] for athlete in self.touched}
        return Draft(self._session, datetime.now().astimezone(), touched)

    @property
    def _is_waiting(self) -> bool:
        """Say whether a change is not in the draft yet."""
        return self._timer is not None

    def _keep(self) -> None:
        self._timer = None
        draft = self._draft()
        self._keep_in_thread(draft, self._number)

    @work(thread=True, group="draft")
    def _keep_in_thread(self, draft: Draft, number: int) -> None:
        try:
            self._drafts.keep(draft, number)
        except OSError as error:
            self.post_message(self.DraftLost(str(error)))

    def on_sheet_screen_draft_lost(self, message: DraftLost) -> None:
        """Say once that a crash would lose the sheet."""
        if not self._has_warned:
            self._has_warned = True
            told = f"The draft cannot be kept, so a crash would lose this sheet: {message.why}"
            self.notify(clean(told), severity="warning", markup=False)

    def _keep_now(self) -> None:
        if self._is_waiting and self._timer is not None:
            self._timer.stop()
            self._timer = None
            draft = self._draft()
            try:
                self._drafts.keep(draft, self._number)
            except OSError as error:
                self.on_sheet_screen_draft_lost(self.DraftLost(str(error)))

    def _forget(self) -> None:
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        self._number += 1
        self._drafts.remove(self._session.session, self._number)

    def on_unmount(self) -> None:
        """Keep what is not in the draft yet, however the board is left."""
        self._keep_now()

    def saved(self, written: Written) -> None:
        """Remove the draft and leave."""
        self._forget()
        told = f"Saved: {words.plural(written.new, 'new row')}, {written.changed:,} changed. "
        self.app.notify(told + "u takes it back.", markup=False)
        self.dismiss(True)

    def action_leave(self) -> None:
        """Leave; what was changed and not saved is asked about once."""
        if self.is_busy:
            return
        if self.sheet is None or self.marks == proposed(self.sheet):
            if self.touched:
                self._forget()
            self.dismiss(False)
            return
        replies = (
            Reply(SAVE, "save it"),
            Reply(LEAVE, "leave it as a draft"),
            Reply(THROW, "throw it away"),
        )
        self.app.push_screen(AskScreen("This sheet is not saved.", (), replies), self._left)

    def _left(self, reply: str | None) -> None:
        if reply == SAVE:
            self.action_save()
        elif reply == LEAVE:
            self._keep_now()
            self.dismiss(False)
        elif reply == THROW:
            self._forget()
            self.dismiss(False)
