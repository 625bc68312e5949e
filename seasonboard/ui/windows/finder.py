"""One line to find anything by: departments, teams, athletes, guards, sessions."""

from collections.abc import Callable
from functools import partial

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from seasonboard.answers import words
from seasonboard.answers.finder import FinderMatches, Hit, Thing, narrowed
from seasonboard.errors import SeasonboardError
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.board.row_sources import opened_by
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.widgets.lines import TooSmall
from seasonboard.ui.windows.rows import RowsScreen

_WHAT = 11
_NOTHING_TYPED = "Type a part of a name or key, or several parts in any order."
_KEYS = "↵ opens it · ↑ ↓ walk · Esc leaves"


class Finder(ModalScreen[Hit | None]):
    """Finds while it is typed; gives what was chosen, or nothing."""

    HELP = (
        "Every word typed must stand somewhere in a line, in any order, capitals and accents. ↵ "
        "opens an athlete's records, those of a guard's athlete, or who was in a session; a "
        "department or team is put into the sentence; a lot or printer shows its guards."
    )
    BINDINGS = bindings(
        key("escape", "dismiss(None)", "Leave", "Leave it as it is", "finder.leave"),
        key("down", "walk(1)", "Next", "To the next line found", "finder.next"),
        key("up", "walk(-1)", "Before", "To the line before", "finder.before"),
    )

    def __init__(self, find: Callable[[str], FinderMatches]) -> None:
        """Find with `find`, which runs in a thread."""
        super().__init__()
        self._find = find
        self._matches = FinderMatches("", (), 0)
        self._is_asking = False
        self._is_taken = False

    def compose(self) -> ComposeResult:
        """Put what is found under what is typed."""
        with Vertical(classes="window wide"):
            yield Static(Text("Find anything"), classes="title")
            yield Input(placeholder="a name, a key, a day", compact=True, id="typed")
            yield Static(Text(_NOTHING_TYPED), id="count", classes="quiet")
            yield OptionList(markup=False, compact=True)
            yield Static(Text(_KEYS), classes="quiet")
        yield TooSmall()

    def on_mount(self) -> None:
        """Type at once; the list is walked from there."""
        self.query_one(OptionList).can_focus = False
        self.query_one(Input).focus()
        self._ask()

    @on(Input.Changed)
    def _typed(self) -> None:
        self._is_taken = False
        self._ask()

    def _ask(self) -> None:
        """Ask for what is typed now, one question at a time: the last one is what counts."""
        if not self._is_asking:
            self._is_asking = True
            self._fetch(self.query_one(Input).value)

    @work(thread=True, group="find")
    def _fetch(self, typed: str) -> None:
        outcome = outcome_of(lambda: self._find(typed), "finding")
        self.call_later(self._show, typed, outcome)

    def _show(self, typed: str, outcome: FinderMatches | SeasonboardError) -> None:
        """List what was found; where more was typed meanwhile, ask for that instead."""
        self._is_asking = False
        if typed != self.query_one(Input).value:
            self._ask()
            return
        if isinstance(outcome, SeasonboardError):
            text = f"{clean(outcome.what)} {clean(outcome.hint)}"
            self._matches = FinderMatches(typed, (), 0)
        else:
            text = _count(outcome)
            self._matches = outcome
        options = self.query_one(OptionList)
        options.clear_options()
        options.add_options(Option(_line(hit)) for hit in self._matches.hits)
        options.highlighted = 0 if self._matches.hits else None
        self.query_one("#count", Static).update(Text(text))
        if self._is_taken:
            self._take()

    def action_walk(self, by: int) -> None:
        """Go to another line."""
        options = self.query_one(OptionList)
        if options.highlighted is not None:
            options.highlighted = max(0, min(options.highlighted + by, options.option_count - 1))

    @on(Input.Submitted)
    def _take(self) -> None:
        """Give the line under the cursor, as soon as it is the answer to what is typed."""
        number = self.query_one(OptionList).highlighted
        self._is_taken = self._matches.typed != self.query_one(Input).value
        if number is not None and not self._is_taken:
            self.dismiss(self._matches.hits[number])

    @on(OptionList.OptionSelected)
    def _click(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(self._matches.hits[event.option_index])


def find_anything(app: SeasonboardApp) -> None:
    """Ask for a name or key, and open what was meant."""
    answer_source, scope = app.answer_source, app.scope
    if answer_source is None or scope is None:
        return
    if answer_source.is_covered:
        app.notify("The curtain is down: c lifts it, to find by name.", markup=False, timeout=4)
        return
    finder = Finder(lambda typed: answer_source.find(scope, typed))
    app.push_screen(finder, partial(_open, app))


def _open(app: SeasonboardApp, hit: Hit | None) -> None:
    """Open an athlete's records or a session's rows; put a department or team into the scope."""
    if hit is None or app.answer_source is None or app.scope is None:
        return
    if hit.what is Thing.MADE_OF:
        from seasonboard.ui.recall.alike import show_made_of

        show_made_of(app, hit.key)
        return
    source = opened_by(hit, app.answer_source, app.scope)
    if source is None:
        app.scope = narrowed(app.scope, hit)
        return
    board = app.board_shown()
    name, offer = board.QUESTION.name, board.offer
    app.push_screen(RowsScreen(*source, app.stop_asking, board=name, told=offer))


def _count(matches: FinderMatches) -> str:
    if not matches.typed.strip():
        return _NOTHING_TYPED
    if not matches.hits:
        return "Nothing holds all of that."
    more = f"; {words.whole(matches.more)} more: type on to see them" if matches.more else ""
    return f"{words.whole(matches.matching)} found{more}"


def _line(hit: Hit) -> Text:
    text = Text(fit(hit.what, _WHAT), style="italic", no_wrap=True, overflow="ellipsis")
    text.append(clean(hit.name or hit.key), "bold not italic")
    beside = " · ".join(clean(part) for part in (hit.key, hit.beside) if part and part != hit.name)
    return text.append(f"  {beside}", "not italic")
