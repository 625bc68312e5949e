"""What the board does when something was written into its store, or a store was made."""

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from textual import on, work
from textual.app import App
from textual.message import Message
from textual.reactive import var

from seasonboard.errors import SeasonboardError
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.layout.format import clean

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.scope import Scope
    from seasonboard.ui.board.board_screen import BoardScreen

UNDO = "u takes it back"


class StoreChanged(Message):
    """Something was written: every answer of the board is old. `what` tells what it was."""

    def __init__(self, what: str, load_no: int) -> None:
        """Keep what was written, and the number of its load."""
        super().__init__()
        self.summary = written(what, load_no)


class StoreOpened(Message):
    """A store was made and opened: the board is over it from here on."""

    def __init__(self, answer_source: "AnswerSource", what: str, load_no: int) -> None:
        """Keep the new store's answers, and what was written into it."""
        super().__init__()
        self.answer_source = answer_source
        self.summary = written(what, load_no)


def written(what: str, load_no: int) -> str:
    """Return what tells what was written."""
    return f"written as load {load_no}: {what}"


def as_problem(error: Exception, doing: str) -> SeasonboardError:
    """Return why something failed, as a sentence; a mistake in the program is written down."""
    if isinstance(error, SeasonboardError):
        return error
    return written_down(error, doing, told=f"A mistake in the program stopped {doing}.")


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


class ChangingApp(App[None]):
    """A board whose store can change; a subclass opens it and holds the screens."""

    scope: "var[Scope | None]" = var(None, init=False)
    answer_source: "AnswerSource | None" = None
    is_first: bool = False

    def boards(self) -> "list[BoardScreen[Any]]":
        """Return the screens that show answers."""
        raise NotImplementedError

    def show_opened(self, answer_source: "AnswerSource") -> None:
        """Show what was opened, where nothing was open before."""
        raise NotImplementedError

    @on(StoreChanged)
    def _store_changed(self, message: StoreChanged) -> None:
        """Tell what was written, and ask everything anew."""
        self.look_again(message.summary, UNDO)

    @work(thread=True, exclusive=True, group="look again")
    def look_again(self, summary: str = "", hint: str = "") -> None:
        """Find out what the store knows by now, tell what was done, and ask everything anew."""
        answer_source, scope = self.answer_source, self.scope
        if answer_source is None or scope is None:
            return
        try:
            grown = known_again(answer_source, scope)
        except Exception as error:  # noqa: BLE001 - told in a sentence, whatever it is
            self.call_from_thread(self.tell, as_problem(error, "looking again"))
        else:
            self.call_from_thread(self._ask_anew, grown, summary, hint)

    def tell(self, problem: SeasonboardError) -> None:
        """Say why something could not be done."""
        self.notify(clean(problem.hint), title=clean(problem.what), severity="error", markup=False)

    @on(StoreOpened)
    def _store_opened(self, message: StoreOpened) -> None:
        """Go over to another store, or to the first one."""
        if self.answer_source is None:
            self.is_first = False
            self.show_opened(message.answer_source)
            return
        self.answer_source = message.answer_source
        for screen in self.boards():
            screen.go_over(message.answer_source)
        self._ask_anew(message.answer_source.opening_scope(), message.summary, UNDO)

    def _ask_anew(self, scope: "Scope", summary: str, hint: str) -> None:
        for screen in self.boards():
            screen.tell_news(clean(summary), hint)
        if scope != self.scope:
            self.scope = scope
            return
        for screen in self.boards():
            screen.ask_anew()
