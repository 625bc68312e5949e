"""The screen of a meeting: walk through the Week, type decisions as they are made."""

from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual import events, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.answers.capacity.agreement import AGREE, decisions
from seasonboard.answers.questions import CAPACITY
from seasonboard.errors import SeasonboardError
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.capacity.agreeing import NOTHING, AgreesOnPrints, today
from seasonboard.ui.forms.all_forms import form_screen
from seasonboard.ui.forms.form_screen import FormScreen
from seasonboard.ui.forms.record_forms import DECISION
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.layout.format import clean
from seasonboard.ui.themes import ink
from seasonboard.ui.week.meeting_page import (
    MeetingDecision,
    department_of,
    in_order,
    item_page,
    summary_page,
)
from seasonboard.ui.widgets.lines import TooSmall
from seasonboard.ui.windows.confirm import AskScreen

if TYPE_CHECKING:
    from collections.abc import Callable

    from seasonboard.answers.capacity.parts import CapacityAnswer
    from seasonboard.answers.source import AnswerSource
    from seasonboard.answers.week.parts import WeekAnswer
    from seasonboard.scope import Scope

KEYS = " → space next · ← back · t types a decision · a print order · Esc leaves"


@dataclass(slots=True)
class Meeting:
    """Where a meeting is, and what it decided; kept while the board is open."""

    number: int = 0
    decided: list[MeetingDecision] = field(default_factory=list)


class MeetingScreen(AgreesOnPrints, ModalScreen[None]):
    """One item of the Week at a time; after the last one, the decisions made."""

    CSS = """
    MeetingScreen { align: left top; background: $ground; }
    MeetingScreen #item { height: 1fr; padding: 1 2; }
    MeetingScreen #keys { height: 1; color: $quiet; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        key("right,space,pagedown", "walk(1)", "next", "The next item", "meeting.next"),
        key("left,backspace,pageup", "walk(-1)", "back", "The item before", "meeting.back"),
        key("home", "walk(-1000)", "first", "The first item", "meeting.first"),
        key("end", "walk(1000)", "end", "What was decided", "meeting.end"),
        key("t", "decide", "decide", "Type a decision", "meeting.decide"),
        key(
            "a",
            "agree",
            "print order",
            "Show the order of prints, and agree on it",
            "meeting.agree",
        ),
        key("escape,g,q", "dismiss(None)", "leave", "Back to the Week", "meeting.leave"),
    ]

    def __init__(
        self,
        meeting: Meeting,
        answer_source: "AnswerSource",
        answer: "Callable[[], WeekAnswer | None]",
    ) -> None:
        """Walk through what `answer` gives, which may change as decisions are made."""
        super().__init__()
        self._meeting = meeting
        self._answer_source = answer_source
        self._answer = answer

    def compose(self) -> ComposeResult:
        """Give the item all the room there is."""
        yield Static(Text(""), id="item")
        yield Static(Text(KEYS, no_wrap=True), id="keys")
        yield TooSmall()

    def on_resize(self, _: events.Resize) -> None:
        """Draw for the size there is."""
        self.call_after_refresh(self._draw)

    def on_screen_resume(self) -> None:
        """Draw what may have changed meanwhile."""
        self.call_after_refresh(self._draw)

    def _draw(self) -> None:
        answer = self._answer()
        if answer is None:
            return
        page = self.query_one("#item", Static)
        size = page.content_size
        paper = Paper(size.width, size.height, ink(self.app.theme_variables, tinted=False))
        items = in_order(answer)
        number = self._meeting.number = min(max(0, self._meeting.number), len(items))
        if number == len(items):
            decided = self._meeting.decided
            if self._answer_source.is_covered:
                decided = [replace(one, text="covered") for one in decided]
            page.update(summary_page(decided, paper))
        else:
            page.update(item_page(items[number], number, len(items), paper))

    def action_walk(self, by: int) -> None:
        """Go to another item; after the last one stands what was decided."""
        self._meeting.number = max(0, self._meeting.number + by)
        self._draw()

    def action_decide(self) -> None:
        """Type a decision over the item; it is written at once."""
        answer = self._answer()
        if answer is None:
            return
        items = in_order(answer)
        over = items[self._meeting.number] if self._meeting.number < len(items) else None
        departments = answer.summary.scope.departments or ()
        name = department_of(over) if over is not None else ""
        start = {"department": departments[0] if len(departments) == 1 else self._key(name)}
        form = form_screen(DECISION, self._answer_source, **{k: v for k, v in start.items() if v})

        def note_decision(_: object) -> None:
            if isinstance(form, FormScreen) and form.saved is not None:
                texts = form.saved.texts
                parts = (texts.get(one, "") for one in ("text", "department", "due_on"))
                over_what = over.title if over else "the week"
                self._meeting.decided.append(MeetingDecision(over_what, *parts))
                self._draw()

        self.app.push_screen(form, note_decision)

    def action_agree(self) -> None:
        """Ask what is printed first; the list is then shown, and asked about."""
        if (answer := self._answer()) is not None:
            self._ask_for_prints(answer.summary.scope)

    @work(thread=True, exclusive=True, group="prints")
    def _ask_for_prints(self, scope: "Scope") -> None:
        ask = partial(self._answer_source.ask, CAPACITY, scope)
        outcome = outcome_of(ask, "asking what is printed first")
        self.app.call_from_thread(self._show_prints, outcome)

    def _show_prints(self, outcome: "CapacityAnswer | SeasonboardError") -> None:
        """Show the order that would be agreed on, and ask."""
        if isinstance(outcome, SeasonboardError):
            self.app.notify(clean(outcome.hint), title=clean(outcome.what), markup=False)
            return
        texts = [f"{department}: {text}" for department, text in decisions(outcome)]
        if not texts:
            self.app.notify(NOTHING, markup=False)
            return
        lines = [outcome.summary.answer, "", *texts, "", AGREE]
        asked = AskScreen("Agree on this order of prints?", lines, {"y": "write it down"})

        def reply(answer: str | None) -> None:
            if answer == "y":
                self.agree_on(self._answer_source, outcome, today(self))

        self.app.push_screen(asked, reply)

    def has_agreed(self, answer: "CapacityAnswer") -> None:
        """Note what was decided, for the end of the meeting."""
        self._meeting.decided += [
            MeetingDecision("the order of prints", text, department, "")
            for department, text in decisions(answer)
        ]
        self._draw()

    def _key(self, name: str) -> str:
        """Return the key of the department of that name."""
        departments = self._answer_source.scope_values.values.get("department", ())
        return next((one.value for one in departments if name and one.name == name), "")
