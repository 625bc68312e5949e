"""Attendance, first step: which session?"""

from collections.abc import Sequence
from datetime import date

from rich.text import Text
from textual import events, on, work
from textual.app import ComposeResult
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.answers.log.answer import new_session
from seasonboard.answers.log.parts import LogSession, LogSessions, LogTeam
from seasonboard.answers.log.session_start import Start, read_start, usual_start
from seasonboard.answers.source import AnswerSource
from seasonboard.errors import SeasonboardError
from seasonboard.scope import Scope
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.blocks import Block, Paper, paragraph
from seasonboard.ui.layout.format import clean
from seasonboard.ui.log.drafts import Drafts, SheetDraft
from seasonboard.ui.log.sessions_page import listed_sessions, sessions_page
from seasonboard.ui.widgets.key_line import KeyLine
from seasonboard.ui.widgets.lines import TooSmall
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.windows.chooser import Choice, ChooserPrompt, choose
from seasonboard.ui.windows.value_entry import EntryScreen, ValuePrompt, ValueStep

TITLE = "Attendance of which session?"
NO_TEAM = "No team of this scope has a roster yet: load roster.csv first, or widen the scope."
_DAY, _HALF_HOUR, _TURN = 1, 100, 1000
_STEPS = (
    ValueStep("day +", "up", _DAY),
    ValueStep("day −", "down", -_DAY),
    ValueStep("½ h +", "pageup", _HALF_HOUR),
    ValueStep("½ h −", "pagedown", -_HALF_HOUR),
    ValueStep("turn", "f2", _TURN),
)


class SessionsScreen(ModalScreen[bool]):
    """Lists sessions, the one likely meant under the cursor; opens the sheet of one."""

    AUTO_FOCUS = "Page"
    HELP = (
        "The sessions of the scope by today, the last one on top. The cursor begins on a draft, "
        "else on today's session without attendance, else on the last one without. ✎ is a sheet "
        "that was begun and not saved, ○ a session without attendance, ● one with it. w✓: wear is "
        "recorded for everybody; w✗: not for everybody; w?: nobody said."
    )
    BINDINGS = bindings(
        key("enter", "open", "open sheet", "Write this session down", "log_sessions.open"),
        key("n", "new", "new session", "Make a session not listed", "log_sessions.new"),
        key("question_mark", "app.help", "help", "What is on this screen", "log_sessions.help",
            display="?"),
        key("escape,q", "dismiss(False)", "leave", "Back to the page", "log_sessions.leave",
            display="Esc"),
    )  # fmt: skip

    def __init__(self, answer_source: AnswerSource, scope: Scope, today: date) -> None:
        """List the sessions of a scope by a day."""
        super().__init__()
        self._answer_source = answer_source
        self._scope = scope
        self._today = today
        self._sessions: LogSessions | None = None
        self._listed: tuple[LogSession, ...] = ()
        self._drafts: dict[str, SheetDraft] = {}
        self._is_wanted = False
        self._is_left = False
        self._early: list[events.Key] = []

    def compose(self) -> ComposeResult:
        """Put the title over the list."""
        yield Static(Text(f" {TITLE}"), classes="sheet-title")
        yield Page()
        yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Ask for the sessions."""
        self._ask()

    @work(thread=True, exclusive=True, group="sessions")
    def _ask(self) -> None:
        outcome = outcome_of(
            lambda: self._answer_source.log_sessions(self._scope, self._today), TITLE
        )
        self.call_later(self._show, outcome, Drafts(self._answer_source.store_label).all())

    def _show(
        self, outcome: LogSessions | SeasonboardError, drafts: tuple[SheetDraft, ...]
    ) -> None:
        """Show the list."""
        page = self.query_one(Page)
        if isinstance(outcome, SeasonboardError):
            text = f"{outcome.what} {outcome.hint}"
            page.draw = lambda paper: [Block(paragraph(text, paper.width, "bold"))]
            self._is_left = False
            return
        self._sessions = outcome
        self._drafts = {draft.session.session: draft for draft in drafts}
        self._listed, begin = listed_sessions(outcome, self._drafts)
        page.draw = self._draw
        if begin is not None:
            page.go_to(begin)
        if self._is_wanted:  # pressed before the list was there
            self.action_open()

    def _draw(self, paper: Paper) -> Sequence[Block]:
        names = self._sessions.names if self._sessions else {}
        return sessions_page(self._listed, self._drafts, names, paper)

    @on(Page.Opened)
    def _clicked_open(self) -> None:
        self.action_open()

    def on_key(self, event: events.Key) -> None:
        """Hand on what is typed right after ↵: it is meant for the sheet."""
        if self._is_left and event.key not in {"escape", "q"}:
            event.stop()
            self._early.append(event)
        elif event.key == "enter":
            self._is_left = True

    @property
    def _here(self) -> LogSession | None:
        """Return the session under the cursor."""
        block = self.query_one(Page).block
        return next((one for one in self._listed if block and one.session == block.name), None)

    def action_open(self) -> None:
        """Open the sheet of the session under the cursor; before the list is there, once it is."""
        self._is_wanted = self._sessions is None
        here = self._here
        if here is not None:
            self._open(here)
        else:
            self._is_left = self._is_wanted

    def _open(self, session: LogSession) -> None:
        from seasonboard.ui.log.sheet_screen import SheetScreen

        sheet = SheetScreen(self._answer_source, session, self._early)
        self.app.push_screen(sheet, self._sheet_left)

    def _sheet_left(self, has_written: bool | None) -> None:  # noqa: FBT001 - given by the screen
        self._is_left = False
        self._early = []
        if has_written:
            self.dismiss(True)
        else:
            self._ask()

    def action_new(self) -> None:
        """Make a session: of which team, when, a game or a practice."""
        sessions = self._sessions
        if sessions is None:
            return
        if not sessions.teams:
            self.notify(NO_TEAM, markup=False)
            return
        if len(sessions.teams) == 1:
            self._ask_start(sessions, sessions.teams[0])
            return
        here = self._here
        choices = [Choice(one.team, one.name, one.team) for one in sessions.teams]
        chosen = frozenset({here.team} if here else ())
        by_key = {one.team: one for one in sessions.teams}
        prompt = ChooserPrompt("A new session of which team?", choices, chosen)
        choose(self.app, prompt, lambda team: self._ask_start(sessions, by_key[team]))

    def _ask_start(self, sessions: LogSessions, team: LogTeam) -> None:
        usual = usual_start(team.team, self._today, sessions.sessions)
        explain = f"Day, time by the clock of {team.time_zone}; f2 turns game and practice."
        title = f"A new session of {clean(team.name)}, {clean(team.season)}"
        prompt = ValuePrompt(title, usual.text, explain, _STEPS)

        def take(start: Start | None) -> None:
            if start is not None:
                self._open(new_session(team, start.at, start.setting, sessions.sessions))

        self.app.push_screen(EntryScreen(prompt, read_start, _moved), take)


def _moved(text: str, by: int) -> str:
    try:
        start = read_start(text)
    except SeasonboardError:
        return text
    if by == _TURN:
        return start.turned().text
    if abs(by) == _HALF_HOUR:
        return start.moved(minutes=30 if by > 0 else -30).text
    return start.moved(days=by).text
