"""What the board does when something was written into its store, or a store was made."""

from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on, work
from textual.app import App
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.reactive import var

from seasonboard.errors import SeasonboardError
from seasonboard.scope import Scope
from seasonboard.ui.format import clean

if TYPE_CHECKING:
    from seasonboard.answers.board import Asker
    from seasonboard.ui.screens.base import BoardScreen

UNDO = "u takes it back"


class StoreChanged(Message):
    """Something was written: every answer of the board is old. `what` tells what it was."""

    def __init__(self, what: str, load_no: int) -> None:
        """Keep what was written, and the number of its load."""
        super().__init__()
        self.said = written(what, load_no)


class StoreOpened(Message):
    """A store was made and opened: the board is over it from here on."""

    def __init__(self, asker: "Asker", what: str, load_no: int) -> None:
        """Keep the new store's answers, and what was written into it."""
        super().__init__()
        self.asker = asker
        self.said = written(what, load_no)


def written(what: str, load_no: int) -> str:
    """Return what tells what was written."""
    return f"written as load {load_no}: {what}"


def look_again(asker: "Asker", scope: Scope) -> Scope:
    """Find out what the store knows by now; return the scope to go on with. Runs in a thread.

    A scope that ended with the last record still does; one of an empty store opens anew.
    """
    before = asker.known
    asker.look_again()
    if before.is_empty:
        return asker.opening_scope()
    last = asker.known.last_day
    if last is not None and scope.through == before.last_day:
        return replace(scope, through=last)
    return scope


class ChangingApp(App[None]):
    """A board whose store can change; a subclass opens it and holds the screens."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("l", "record", "record", show=False, tooltip="Record something", id="app.record"),
    ]

    scope: var[Scope | None] = var(None, init=False)
    asker: "Asker | None" = None

    def boards(self) -> "list[BoardScreen[Any]]":
        """Return the screens that show answers."""
        raise NotImplementedError

    def show_opened(self, asker: "Asker") -> None:
        """Show what was opened, where nothing was open before."""
        raise NotImplementedError

    def action_record(self) -> None:
        """Offer the forms."""
        if self.asker is not None and self.scope is not None:
            from seasonboard.ui.forms.menu import EntryMenu

            today = datetime.now().astimezone().date()
            self.push_screen(EntryMenu(self.asker, self.scope, today))

    @on(StoreChanged)
    def _store_changed(self, message: StoreChanged) -> None:
        """Tell what was written, and ask everything anew."""
        self._look_again(message.said)

    @work(thread=True, exclusive=True, group="look again")
    def _look_again(self, said: str) -> None:
        asker, scope = self.asker, self.scope
        if asker is None or scope is None:
            return
        try:
            grown = look_again(asker, scope)
        except SeasonboardError as problem:
            self.call_from_thread(self.notify, clean(str(problem)), markup=False)
        else:
            self.call_from_thread(self._ask_anew, grown, said)

    @on(StoreOpened)
    def _store_opened(self, message: StoreOpened) -> None:
        """Go over to another store, or to the first one."""
        if self.asker is None:
            self.show_opened(message.asker)
            return
        self.asker = message.asker
        for screen in self.boards():
            screen.go_over(message.asker)
        self._ask_anew(message.asker.opening_scope(), message.said)

    def _ask_anew(self, scope: Scope, said: str) -> None:
        for screen in self.boards():
            screen.tell_news(clean(said), UNDO)
        if scope != self.scope:
            self.scope = scope
            return
        for screen in self.boards():
            screen.watch_scope(scope)
