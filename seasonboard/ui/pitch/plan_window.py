"""The form of a plan's inputs, which shows what each would change while it is typed."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.widgets import Input, Static
from textual.worker import get_current_worker

from seasonboard.answers.pitch.lines import live_lines
from seasonboard.answers.pitch.options import PitchOptions
from seasonboard.errors import SeasonboardError
from seasonboard.ui.forms.plan_form import plan_form, read_plan, typed_plan
from seasonboard.ui.forms.sitting_form import TakenForm
from seasonboard.ui.layout.format import clean

if TYPE_CHECKING:
    from seasonboard.answers.pitch.parts import PitchAnswer
    from seasonboard.answers.source import AnswerSource
    from seasonboard.scope import Scope

_PAUSE = 0.3
"""Seconds without a letter after which the plan is made anew."""
_SEASONS = 500
"""Simulated seasons while typing: enough to see what changes."""


class PlanForm(TakenForm[PitchOptions]):
    """Both plans in one form, over three lines of what comes of them."""

    CSS = "PlanForm #effect { height: auto; max-height: 5; padding: 0 1; text-style: bold; }"

    def __init__(
        self,
        answer: "PitchAnswer | None",
        scope: "Scope",
        options: PitchOptions,
        answer_source: "AnswerSource",
        take: Callable[[PitchOptions], None],
    ) -> None:
        """Begin with `options`; what comes of a change is told from `answer`."""
        read = partial(read_plan, options=options, scope=scope)
        form, start = plan_form(answer), typed_plan(options)
        super().__init__(form, answer_source, start, read=read, take=take)
        self._answer = answer
        self._options_of = read

    def compose(self) -> ComposeResult:
        """Put what comes of the plans over the fields."""
        yield Static(Text(""), id="effect")
        yield from super().compose()

    def on_mount(self) -> None:
        """Show what comes of the plans as they are."""
        super().on_mount()
        if self._answer is not None:
            self._show_effect(live_lines(self._answer))

    @on(Input.Changed)
    def _typed(self) -> None:
        if self._answer is not None and self._answer.again is not None:
            self._follow()

    @work(thread=True, exclusive=True, group="effect")
    def _follow(self) -> None:
        from dataclasses import replace
        from time import sleep

        sleep(_PAUSE)
        worker, answer = get_current_worker(), self._answer
        if worker.is_cancelled or answer is None or answer.again is None:
            return
        try:
            options = self._options_of(self._draft.values)
            lines = live_lines(answer.again(replace(options, seasons=_SEASONS)))
        except SeasonboardError:
            return  # told of its field when it is taken
        if not worker.is_cancelled:
            self.app.call_from_thread(self._show_effect, lines)

    def _show_effect(self, lines: list[str]) -> None:
        if self.is_attached:
            self.query_one("#effect", Static).update(Text("\n".join(map(clean, lines))))
