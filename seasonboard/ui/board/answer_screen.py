"""A screen that asks one question and keeps the last answer in sight."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any, ClassVar, Generic, TypeVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.reactive import var
from textual.widgets import Input

from seasonboard.answers.questions import Question
from seasonboard.answers.source import AnswerSource
from seasonboard.errors import SeasonboardError
from seasonboard.scope import Scope
from seasonboard.sentence import Phrase, sentence
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.keys import key
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.saving.save_windows import SavableScreen
from seasonboard.ui.widgets.key_line import KeyLine
from seasonboard.ui.widgets.lines import StateLine, TitleLine, TooSmall
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.widgets.sentence import MORE, ScopeSentence

AnswerT = TypeVar("AnswerT")

ASKING = "asking · x stops it"
ASKING_OLD = "asking; below stands the last answer · x stops it"
STOPPED = "stopped · r asks again"
STOPPED_OLD = "stopped; below stands the last answer · r asks again"
REFUSED = "not answered"
REFUSED_OLD = "not answered; below stands the last answer"


@dataclass(frozen=True, slots=True)
class Request:
    """One asking: its number, and what was asked for."""

    number: int
    scope: Scope
    options: object = None


class AskingScreen(SavableScreen, Generic[AnswerT]):
    """A question with its answer; a subclass asks it and draws it."""

    QUESTION: ClassVar[Question[Any, Any]]
    HELP: ClassVar[str]
    PAGE: "ClassVar[staticmethod[[Any, Paper], Sequence[Block]]]"
    """Draws the page of an answer."""
    USES: ClassVar[frozenset[str] | None] = None
    """Parts of the scope that the answer depends on; None: all of them."""
    AUTO_FOCUS = "Page"
    BINDINGS: ClassVar[list[BindingType]] = [
        key("r", "ask", "ask again", "Ask this question again", "board.ask", is_quiet=True),
        key("x", "cancel", "stop", "Stop the question that is running", "board.cancel",
            is_quiet=True),
    ]  # fmt: skip

    scope: var[Scope | None] = var(None, init=False)

    @dataclass
    class Answered(Message):
        """A reply, with what was asked, so that a late one can be dropped."""

        request: Request
        outcome: Any

    @dataclass
    class Fuller(Message):
        """The same answer with more to it."""

        request: Request
        answer: Any

    def __init__(self, answer_source: AnswerSource, stop: Callable[[], None]) -> None:
        """Ask `answer_source`; `stop` ends all questions that run, those of other screens too."""
        super().__init__()
        self.answer_source = answer_source
        self.stop = stop
        self.answer: AnswerT | None = None
        options = self.QUESTION.options()
        self.options: Any = options() if options else None
        self._problem: SeasonboardError | None = None
        self._asked = 0
        self._pending: Request | None = None
        self._is_due = False
        self._is_ready = False

    def ask_for(self, request: Request) -> AnswerT:
        """Get the answer; runs in a thread."""
        answer: AnswerT = self.answer_source.ask(self.QUESTION, request.scope, request.options)
        return answer

    def draw(self, answer: AnswerT, paper: Paper) -> Sequence[Block]:
        """Return the page of an answer."""
        return self.PAGE(answer, paper)

    def compose(self) -> ComposeResult:
        """Put the sentence on top, the page under it."""
        yield TitleLine()
        yield ScopeSentence()
        yield StateLine()
        yield Page()
        yield Input(placeholder="find, then ↵ for the next, Esc to leave", id="find", compact=True)
        yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Show what is open, and ask for the first time."""
        self.query_one(TitleLine).board = self.QUESTION.name
        self._name_what_is_open()
        self._is_ready = True
        self._draw_anew()
        self.watch_scope(self.scope)

    def _name_what_is_open(self) -> None:
        line, source = self.query_one(StateLine), self.answer_source
        line.store_label, line.is_covered = source.store_label, source.is_covered

    def curtain_moved(self) -> None:
        """Forget what is shown, drop every reply still to come, and ask anew."""
        if not self._is_ready:
            return
        self.answer = self._problem = self._pending = None
        self._asked += 1
        self._is_due = True
        find = self.query_one("#find", Input)
        find.value = ""
        find.remove_class("-shown")
        self._name_what_is_open()
        self.query_one(StateLine).news = ("", "")
        self._tell("", "")
        self._draw_anew()
        if self in self.app.screen_stack:
            self.action_ask()

    def has_answered(self) -> None:
        """Do what follows a reply; nothing here."""

    def watch_scope(self, scope: Scope | None) -> None:
        """Ask again for another scope, at once or when the screen is next in sight."""
        if scope is None or not self._is_ready or self.answer_source.scope_values.is_empty:
            return
        phrases = sentence(scope, self.answer_source.scope_values, self.USES)
        self.query_one(ScopeSentence).phrases = (*phrases, Phrase("…", MORE))
        self._is_due = True
        if self in self.app.screen_stack:
            self.action_ask()

    def ask_anew(self) -> None:
        """Ask again, at once or when next in sight: the store holds something else by now."""
        self._draw_anew()
        self.watch_scope(self.scope)

    def go_over(self, answer_source: AnswerSource) -> None:
        """Ask another store from here on; what was answered before is gone."""
        self.answer_source = answer_source
        self.answer = self._pending = None
        if self._is_ready:
            self._name_what_is_open()
            self._draw_anew()

    def tell_news(self, news: str, hint: str) -> None:
        """Tell what was written, on the line under the sentence."""
        if self._is_ready:
            self.query_one(StateLine).tell(news, hint)

    def on_screen_resume(self) -> None:
        """Ask what is still to be asked."""
        if self._is_due:
            self.action_ask()

    def action_ask(self) -> None:
        """Ask; the last answer stays in sight, marked as old."""
        if self.scope is None or self.answer_source.scope_values.is_empty:
            return
        if self._pending is not None:
            self.stop()
        self._is_due = False
        self._asked += 1
        self._pending = Request(self._asked, self.scope, self.options)
        self._tell(ASKING, ASKING_OLD, is_asking=True)
        self._fetch(self._pending)

    def ask_with(self, options: object) -> None:
        """Ask with other options; not again with the same, or with none."""
        if options is not None and options != self.options:
            self.options = options
            self.action_ask()

    def ask_with_next(self, option: str, choices: Sequence[object]) -> None:
        """Take the next choice of one option, after the last one the first, and ask."""
        after = choices.index(getattr(self.options, option)) + 1
        self.ask_with(replace(self.options, **{option: choices[after % len(choices)]}))

    @work(thread=True, exclusive=True, group="answer")
    def _fetch(self, request: Request) -> None:
        outcome: Any
        try:
            outcome = self.ask_for(request)
        except SeasonboardError as problem:
            outcome = problem
        except Exception as bug:  # noqa: BLE001 - a bug in one answer must not end the board
            outcome = written_down(bug, self.QUESTION.asks)
        self.post_message(self.Answered(request, outcome))
        if self.QUESTION.counts_checks and not isinstance(outcome, SeasonboardError):
            self._count_checks(request, outcome)

    def _count_checks(self, request: Request, answer: Any) -> None:  # noqa: ANN401 - of any question
        """Count the data checks that touch it: in a new scope that takes as long again.

        Where that fails or is stopped, the answer stands as it is.
        """
        from seasonboard.answers.checks.counting import with_doubts

        try:
            doubts = self.answer_source.doubts(request.scope, self.QUESTION.name)
            fuller = with_doubts(answer, doubts)
        except SeasonboardError:
            return
        except Exception as bug:  # noqa: BLE001 - a bug in one answer must not end the board
            written_down(bug, self.QUESTION.asks)
            return
        self.post_message(self.Fuller(request, fuller))

    def on_asking_screen_fuller(self, message: Fuller) -> None:
        """Show the fuller answer, unless something else was asked meanwhile."""
        message.stop()
        if message.request.number == self._asked and self._pending is None:
            self.answer = message.answer
            self._draw_anew()

    def on_asking_screen_answered(self, message: Answered) -> None:
        """Show the reply to the last asking; drop every other."""
        message.stop()
        if message.request != self._pending:
            return
        self._problem = self._pending = None
        if isinstance(message.outcome, SeasonboardError):
            self._problem = message.outcome
            self._tell(REFUSED, REFUSED_OLD)
        else:
            self.answer = message.outcome
            self._tell("", "", is_old=False)
        self._draw_anew()
        self.has_answered()

    def _tell(
        self, first: str, later: str, *, is_asking: bool = False, is_old: bool = True
    ) -> None:
        line = self.query_one(StateLine)
        line.state = first if self.answer is None else later
        line.is_asking = is_asking
        self.query_one(Page).is_old = is_old and self.answer is not None

    def _draw_anew(self) -> None:
        self.query_one(Page).draw = self._page

    def _page(self, paper: Paper) -> Sequence[Block]:
        if self.answer_source.scope_values.is_empty:
            return page_parts.nothing_recorded(self.QUESTION.asks, paper)
        problem = self._problem
        refusal = page_parts.refusal(problem.what, problem.hint, paper) if problem else []
        if self.answer is None:
            return [*refusal, *page_parts.question(self.QUESTION.asks, paper)]
        return [*refusal, *self.draw(self.answer, paper)]

    def give_way(self) -> None:
        """Take a running question as stopped, and ask it again when next in sight."""
        if self._pending is not None:
            self._pending = None
            self._is_due = True
            self._tell(STOPPED, STOPPED_OLD)

    def action_cancel(self) -> None:
        """Stop the running question; the last answer stays."""
        if self._pending is not None:
            self.stop()
            self._is_due = False
