"""What is written into the store of the board: the Log, taking back, and answering anew."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import partial
from typing import TYPE_CHECKING, TypeVar

from textual import on, work
from textual.message import Message
from textual.screen import ModalScreen

from seasonboard.errors import SeasonboardError
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.app.scope_choosing import ScopeChoosing
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import clean

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.entries import EntryWriter
    from seasonboard.scope import Scope
    from seasonboard.store_outcomes import UndoneLoad
    from seasonboard.ui.loading.target import StoreOpener

UNDO = "u takes it back"
OWN_COPY = "your own copy of the invented season"
TAKE_BACK = "y"
_NOTHING = "Nothing was written into this store yet; there is nothing to take back."
ResultT = TypeVar("ResultT")


@dataclass
class StoreChanged(Message):
    """Something was written: every answer of the board is old. `what` tells what it was."""

    what: str
    load_no: int


@dataclass
class StoreOpened(Message):
    """A store was made and opened: the board is over it from here on."""

    answer_source: "AnswerSource"
    what: str
    load_no: int


def written(what: str, load_no: int) -> str:
    """Return what tells what was written."""
    return f"written as load {load_no}: {what}"


def entry_names(labels: tuple[str, ...]) -> str:
    """Return what an entry or load was, in words: its labels without the tables they went to."""
    names = dict.fromkeys(label.partition(" › ")[0] for label in labels)
    return ", ".join(names) or "a load without files"


def known_again(answer_source: "AnswerSource", scope: "Scope") -> "Scope":
    """Find out what the store knows by now; return the scope to go on with. Runs in a thread.

    A scope that ended with the last record still does; one of an empty store opens anew.
    """
    before = answer_source.scope_values
    answer_source.look_again()
    if before.is_empty:
        return answer_source.opening_scope()
    last = answer_source.scope_values.last_day
    if last is not None and scope.through == before.last_day:
        return replace(scope, through=last)
    return scope


class EntriesApp(ScopeChoosing):
    """A board that can be written to; a subclass opens the store and holds the screens."""

    BINDINGS = bindings(
        key("u", "take_back", "take back", "Take the last entry or load back", "app.take_back",
            is_quiet=True),
    )  # fmt: skip
    today: Callable[[], date] = staticmethod(lambda: datetime.now().astimezone().date())
    """Gives the day it is by this machine's clock."""
    is_first: bool = False
    maker: "StoreOpener | None" = None

    def show_opened(self, answer_source: "AnswerSource") -> None:
        """Show what was opened, where nothing was open before."""
        raise NotImplementedError

    def tell(self, problem: SeasonboardError) -> None:
        """Say why something could not be done."""
        self.notify(clean(problem.hint), title=clean(problem.what), severity="error", markup=False)

    def _attempt(
        self, act: Callable[[], ResultT], doing: str, go_on: Callable[[ResultT], object]
    ) -> None:
        """Do something in a thread, and go on with what came of it; else say why not."""
        outcome = outcome_of(act, doing, told=f"A mistake in the program stopped {doing}.")
        if isinstance(outcome, SeasonboardError):
            self.call_from_thread(self.tell, outcome)
        else:
            self.call_from_thread(go_on, outcome)

    # Writing down

    def action_log(self) -> None:
        """Open the Log."""
        from seasonboard.ui.log.menu import LogMenu, forms

        if self.answer_source is not None and self.scope is not None and not self._is_covered():
            listed = forms(is_kept=self.answer_source.entry_writer is not None)
            self.push_screen(LogMenu(listed), self._open_form)

    def _is_covered(self) -> bool:
        """Say, in a notice too, whether the curtain is down: what is written needs its names."""
        is_down = self.answer_source is not None and self.answer_source.is_covered
        if is_down:
            self.notify("The curtain is down: c lifts it, to write down.", markup=False, timeout=4)
        return is_down

    def _open_form(self, name: str | None) -> None:
        from seasonboard.ui.log.menu import forms

        form = next((form for form in forms(is_kept=True) if form.name == name), None)
        if form is not None and self.answer_source is not None and self.scope is not None:
            screen = form.screen(self.answer_source, self.scope, self.today())
            self.push_screen(screen, self._form_left)

    def _form_left(self, has_written: bool | None) -> None:  # noqa: FBT001 - given by the screen
        if has_written:
            self.look_again()

    # Taking back

    def action_take_back(self) -> None:
        """Show what was written last, and ask whether it is to be taken back."""
        from seasonboard.ui.forms.read_only import NO_KEEPER

        if self.answer_source is None or self._is_covered():
            return
        if self.answer_source.entry_writer is None:
            self.notify(NO_KEEPER, markup=False)
        else:
            self._find_last(self.answer_source.entry_writer)

    @work(thread=True, exclusive=True, group="take back")
    def _find_last(self, entry_writer: "EntryWriter") -> None:
        ask = partial(self._ask_about, entry_writer)
        self._attempt(entry_writer.last, "finding the last entry", ask)

    def _ask_about(self, entry_writer: "EntryWriter", last: "UndoneLoad | None") -> None:
        """Ask whether the last entry is to be taken back."""
        from seasonboard.ui.windows.confirm import AskScreen

        if last is None:
            self.notify(_NOTHING, markup=False)
            return
        at = last.loaded_at.astimezone()
        lines = (
            entry_names(last.labels),
            f"written {at:%a} {at.day} {at:%b %Y %H:%M}, number {last.load_no}",
            f"{last.new:,} new rows go, {last.changed:,} changed rows get their old cells again.",
            *([last.warning] if last.warning else []),
        )
        replies = {TAKE_BACK: "take it back"}

        def take(reply: str | None) -> None:
            if reply == TAKE_BACK:
                self._take_back(entry_writer, last)

        self.push_screen(AskScreen("Take back what was written last?", lines, replies), take)

    @work(thread=True, exclusive=True, group="take back")
    def _take_back(self, entry_writer: "EntryWriter", last: "UndoneLoad") -> None:
        summary = f"taken back: {entry_names(last.labels)}"
        take_back = partial(entry_writer.take_back, last.load_no)
        self._attempt(take_back, "taking back", lambda _: self.look_again(summary))

    # Answering anew

    @on(StoreChanged)
    def _store_changed(self, message: StoreChanged) -> None:
        """Tell what was written, and ask everything anew."""
        self.look_again(written(message.what, message.load_no), UNDO)

    @work(thread=True, exclusive=True, group="look again")
    def look_again(self, summary: str = "", hint: str = "") -> None:
        """Find out what the store knows by now, tell what was done, and ask everything anew."""
        answer_source, scope = self.answer_source, self.scope
        if answer_source is not None and scope is not None:
            know = partial(known_again, answer_source, scope)
            self._attempt(know, "looking again", partial(self._ask_anew, summary, hint))

    @on(StoreOpened)
    def _store_opened(self, message: StoreOpened) -> None:
        """Go over to another store, or to the first one."""
        summary = written(message.what, message.load_no)
        if self.answer_source is None:
            self.is_first = False
            self.show_opened(message.answer_source)
            self.notify(clean(summary), markup=False)
            return
        self._go_over(summary, UNDO, message.answer_source)

    def _go_over(self, summary: str, hint: str, answer_source: "AnswerSource") -> None:
        self.answer_source = answer_source
        for screen in self.boards.values():
            screen.go_over(answer_source)
        self._ask_anew(summary, hint, answer_source.opening_scope())

    def action_copy_sample(self) -> None:
        """Go over to a copy of the sample season that can be written to."""
        source = self.answer_source
        if self.maker is None or source is None or source.is_covered or source.entry_writer:
            return
        if isinstance(self.screen, ModalScreen):
            self.screen.dismiss(None)
        self.notify("Making a copy of the sample season …", markup=False)
        self._copy_sample(self.maker)

    @work(thread=True, exclusive=True, group="copy")
    def _copy_sample(self, maker: "StoreOpener") -> None:
        go_over = partial(self._go_over, OWN_COPY, "l writes down, u takes back")
        self._attempt(maker.copy_sample, "copying the sample season", go_over)

    def _ask_anew(self, summary: str, hint: str, scope: "Scope") -> None:
        for screen in self.boards.values():
            screen.tell_news(clean(summary), hint)
        if scope != self.scope:
            self.scope = scope
            return
        for screen in self.boards.values():
            screen.ask_anew()
