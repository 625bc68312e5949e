"""The board: opens what is to be shown, holds the scope, and changes between screens."""

from collections.abc import Callable, Iterable
from functools import partial
from threading import Thread
from typing import TYPE_CHECKING, Any

from rich.text import Text
from textual import events, work
from textual.app import ComposeResult, SystemCommand
from textual.screen import Screen
from textual.widgets import Static
from textual.worker import get_current_worker

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.errors import SeasonboardError
from seasonboard.settings import Start
from seasonboard.ui.all_screens import load_screens, screen_class
from seasonboard.ui.app.bug_report import OPENING_FAILED, outcome_of
from seasonboard.ui.app.curtain import CurtainApp
from seasonboard.ui.app.entries import EntriesApp
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import clean
from seasonboard.ui.themes import BY_NAME, DARK_COLOURS, THEMES, next_theme
from seasonboard.ui.widgets.key_line import KeyLine
from seasonboard.ui.widgets.lines import TooSmall

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.help.topics import MakePart
    from seasonboard.ui.board.board_screen import BoardScreen
    from seasonboard.ui.loading.target import StoreOpener

NOT_OPEN = "The board could not be opened; the page says why, and what to do about it."
NOT_OPENED = 2  # exit status when there was nothing to show
_FIND = "Find an athlete, guard, session, department or team"
_SETTINGS = "What the board starts with: store, season, theme, screen"
_PALETTE = "Find an action by its name"


class SeasonboardApp(CurtainApp, EntriesApp):
    """A board over one store."""

    TITLE = "seasonboard"
    CSS_PATH = "seasonboard.tcss"
    HORIZONTAL_BREAKPOINTS = [(0, "-too-narrow"), (60, "-wide-enough")]  # noqa: RUF012 - as in App
    VERTICAL_BREAKPOINTS = [(0, "-too-low"), (15, "-high-enough")]  # noqa: RUF012 - as in App
    HELP = "Opening the store. The board is shown as soon as it is open."
    BINDINGS = bindings(
        *(
            key(one.key, f"show_board('{one.name}')", one.title, one.asks, f"board.{one.name}",
                is_quiet=True)
            for one in WITH_SCREENS
        ),
        key("f", "find_anything", "find all", _FIND, "app.find_anything", is_quiet=True),
        key("d", "next_theme", "theme", "Dark, light, or for a projector", "app.next_theme",
            is_quiet=True),
        key("question_mark", "help", "help", "What is on this screen", "app.help", display="?"),
        key("comma", "settings", "settings", _SETTINGS, "app.settings", is_quiet=True, display=","),
        key("q", "quit", "quit", "Leave the board", "app.quit"),
        key("ctrl+q", "quit", "quit", "Leave the board", "app.quit_anywhere", is_quiet=True,
            priority=True),
        key("ctrl+p", "command_palette", "palette", _PALETTE, "app.command_palette", display="^p",
            priority=True),
    )  # fmt: skip

    def __init__(
        self,
        open_board: Callable[[], "AnswerSource"],
        *,
        screen: str = "",
        start: Start | None = None,
        maker: "StoreOpener | None" = None,
        help_part: "MakePart | None" = None,
    ) -> None:
        """Show what `open_board` opens; it runs in a thread, after the first paint.

        Args:
            open_board: Opens what is asked; may raise SeasonboardError.
            screen: The screen shown first; without it, that of the settings.
            start: What is kept from earlier starts.
            maker: Makes stores on the board; None where it cannot.
            help_part: Makes the parts of help that come from screens and commands.
        """
        super().__init__()
        for theme in THEMES:
            self.register_theme(theme)
        start = start or Start()
        self.settings, self.keep = start.settings, start.keep
        self.is_first, self.missing = start.is_first, start.missing
        self.is_tour_due = False
        self.theme = BY_NAME[self.settings.theme]
        self._said = start.said
        self._open_board = open_board
        self._keep_screen = start.keep_screen
        first = screen or self.settings.screen or start.screen
        is_known = any(board.name == first for board in WITH_SCREENS)
        self._first = first if is_known else WITH_SCREENS[0].name
        self._has_failed = False
        self._is_leaving = False
        self._has_loaded = False
        self.maker = maker
        self.help_part = help_part
        self.boards = {}

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """Give the board's own colours to themes that do not name them."""
        return dict(DARK_COLOURS)

    def compose(self) -> ComposeResult:
        """Show that something is being opened."""
        yield Static(Text("\nopening …", style="bold"), id="opening")
        yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Open the store once something is on screen, or ask what to begin with."""
        self.call_after_refresh(self._welcome if self.is_first else self.open_store)
        if self.is_first:
            self._tell_of_settings()

    def _tell_of_settings(self) -> None:
        """Say once what is wrong with the settings, on a screen that stays."""
        if self._said:
            self.notify(clean(self._said), markup=False, timeout=15)
        self._said = ""

    def _welcome(self) -> None:
        from seasonboard.ui.app.welcome import welcome

        welcome(self)

    def action_settings(self) -> None:
        """Change what the board starts with."""
        from seasonboard.ui.windows.settings_menu import show_settings

        show_settings(self)

    @work(thread=True, exclusive=True, group="open")
    def open_store(self) -> None:
        """Open the store; then show it, or why there is none."""
        Thread(target=self._load_first, daemon=True).start()
        outcome = outcome_of(self._open_board, "opening the store", told=OPENING_FAILED)
        if isinstance(outcome, SeasonboardError):
            self.call_later(self._show_first, outcome)
        else:
            self.show_opened(outcome)

    def show_opened(self, answer_source: "AnswerSource") -> None:
        """Go over to what was opened; may be called from a thread."""
        self._load_first()
        self.call_later(self._show_first, answer_source)

    def _load_first(self) -> None:
        """Load the first screen and its answer: beside the opening, which waits for the disk."""
        screen_class(self._first)

    async def _show_first(self, outcome: "AnswerSource | SeasonboardError") -> None:
        """Show the first screen, or why there is none."""
        if isinstance(outcome, SeasonboardError):
            self._has_failed = True
            text = Text("\nThe board cannot be opened.\n\n", style="bold")
            text.append(f"{clean(outcome.what)}\n").append(f"{clean(outcome.hint)}\n", "not bold")
            self.query_one("#opening", Static).update(text.append("\nq quits", "not bold"))
            self._tell_of_settings()
            return
        self.answer_source = outcome
        self.scope = self.first_scope(self.answer_source)
        for board in WITH_SCREENS:
            self.add_mode(board.name, partial(self._make, board.name))
        await self.switch_mode(self._first)
        self._tell_of_settings()
        if self.is_tour_due:
            self.call_after_refresh(self._begin_tour)

    def _begin_tour(self) -> None:
        from seasonboard.ui.windows.tour import TourScreen

        self.is_tour_due = False
        self.push_screen(TourScreen())

    def _make(self, name: str) -> "BoardScreen[Any]":
        assert self.answer_source is not None  # noqa: S101 - modes are added once it is open
        screen = screen_class(name)(self.answer_source, self.stop_asking)
        screen.scope = self.scope
        self.boards[name] = screen
        return screen

    def on_asking_screen_shown(self) -> None:
        """Load what the other screens take, once the first answer stands."""
        if not self._has_loaded:
            self._has_loaded = True
            self._load_the_rest()

    @work(thread=True, group="load")
    def _load_the_rest(self) -> None:
        load_screens(is_over=lambda: get_current_worker().is_cancelled)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Offer what needs an open store once it is open."""
        waiting = {"show_board", "find_anything", "log", "take_back"}
        return action not in waiting or self.answer_source is not None

    def board_shown(self) -> "BoardScreen[Any]":
        """Return the screen of the board that is shown, whatever is opened on it."""
        return self.boards[self.current_mode]

    def action_show_board(self, name: str) -> None:
        """Go to another screen."""
        if self.answer_source is not None:
            self.switch_mode(name)

    def action_find_anything(self) -> None:
        """Find anything by its name or key."""
        from seasonboard.ui.windows.finder import find_anything

        find_anything(self)

    def action_next_theme(self) -> None:
        """Take the next theme: dark, light, for a projector."""
        self.theme = next_theme(self.theme)

    def action_help(self) -> None:
        """Say what is on this screen and what its keys do."""
        from seasonboard.answers.base import CAUTION
        from seasonboard.ui.windows.help import HelpScreen, keys_by_use

        ours = NOT_OPEN if self._has_failed else self.HELP
        text = getattr(self.screen, "HELP", "") or ours
        keys = keys_by_use(self.screen.active_bindings.values(), self.get_key_display)
        self.push_screen(HelpScreen(text, keys, CAUTION))

    def get_system_commands(self, screen: Screen[Any]) -> Iterable[SystemCommand]:
        """Offer every action of the screen by its name."""
        offered: dict[str, SystemCommand] = {}
        for node, binding, enabled, tooltip in screen.active_bindings.values():
            if enabled and tooltip and "palette" not in binding.action:
                name = f"{binding.description}  ({self.get_key_display(binding)})"
                run = partial(self.run_action, binding.action, node)
                offered.setdefault(binding.action, SystemCommand(name, tooltip, run))
        yield from offered.values()

    async def on_event(self, event: events.Event) -> None:
        """Take no key any more once the board is being left: windows would open half made."""
        if not (self._is_leaving and isinstance(event, events.InputEvent)):
            await super().on_event(event)

    async def action_quit(self) -> None:
        """Leave at once; what is running is stopped. A form with something typed asks first."""
        if getattr(self.screen, "holds_back", bool)():
            return
        self._is_leaving = True
        if self.answer_source is None:
            self.exit(return_code=0 if self.workers else NOT_OPENED)
            return
        self.answer_source.stop()
        self._keep_screen(self.current_mode)
        self.exit()

    def on_unmount(self) -> None:
        """Stop what is running, so that no thread holds the program."""
        if self.answer_source is not None:
            self.answer_source.stop()
