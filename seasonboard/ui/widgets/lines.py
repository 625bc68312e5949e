"""The one-line widgets around a page: its title, its state, and the word for small terminals."""

from typing import TYPE_CHECKING

from rich.cells import cell_len
from rich.style import Style
from rich.text import Text
from textual import events
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Static

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.layout.format import clean, fit

if TYPE_CHECKING:
    from textual.timer import Timer

_LEAST = 8
"""Cells below which the name of what is open would say nothing."""
_BEAT = 0.25
_NEWS = 60.0
"""Seconds for which it is told what was written."""
_FRAMES = ("·  ", "·· ", "···", " ··", "  ·", "   ")
CURTAIN = "curtain is down"


class TitleLine(Widget):
    """The screens there are, and which one this is."""

    board: reactive[str] = reactive("")

    def render(self) -> Text:
        """Return the line; on narrow terminals the names stand close, are short, or go."""
        for inner, gap, is_short in ((" ", "  ", False), ("", " ", False), ("", " ", True)):
            text = Text(inner)
            for question in WITH_SCREENS:
                style = self._style(question.name)
                text.append(gap if question is not WITH_SCREENS[0] else "")
                text.append(question.key, style + Style(bold=True))  # told from a name close to it
                text.append(inner + (question.short if is_short else question.title), style)
            if text.cell_len <= self.size.width:
                return text
        text = Text("")
        for question in WITH_SCREENS:
            label = f" {question.title}" if question.name == self.board else ""
            text.append(" ").append(question.key + label, self._style(question.name))
        return text

    def _style(self, name: str) -> Style:
        is_here = name == self.board
        return Style(bold=is_here, reverse=is_here, meta={"board": name})

    async def on_click(self, event: events.Click) -> None:
        """Go to the screen whose name was clicked."""
        board = event.style.meta.get("board")
        if board:
            await self.run_action(f"app.show_board('{board}')")


class StateLine(Widget):
    """The line under the sentence: what is open, and when an answer is asked for or old."""

    state: reactive[str] = reactive("")
    store_label: reactive[str] = reactive("")
    news: reactive[tuple[str, str]] = reactive(("", ""))
    is_covered: reactive[bool] = reactive(False)
    is_asking: reactive[bool] = reactive(False)
    _beat: reactive[int] = reactive(0)

    _silence: "Timer | None" = None

    def on_mount(self) -> None:
        """Prepare the sign of life."""
        self._timer: Timer = self.set_interval(_BEAT, self._step, pause=True)

    def _step(self) -> None:
        self._beat += 1

    def tell(self, news: str, hint: str) -> None:
        """Tell what was written, for a while, where no state is to be told."""
        self.news = (news, hint)
        if self._silence is not None:
            self._silence.stop()
        self._silence = self.set_timer(_NEWS, lambda: setattr(self, "news", ("", "")))

    def watch_is_asking(self) -> None:
        """Show life only while something is asked."""
        if self.is_asking:
            self._timer.resume()
        else:
            self._timer.pause()

    def render(self) -> Text:
        """Return a rule with what is going on written into it, and what is open at its end."""
        width = self.size.width
        text = Text("──")
        if self.is_covered:
            text.append(f" {CURTAIN} ", Style(bold=True, reverse=True)).append("──")
        if self.state:
            sign = _FRAMES[self._beat % len(_FRAMES)] + " " if self.is_asking else ""
            left = width - text.cell_len
            summary = fit(f" {sign}{self.state} ", min(left, cell_len(sign + self.state) + 2))
            text.append(summary, "bold")
        elif self.news[0]:
            news, hint = self.news
            hint = f" · {hint}" if hint else ""
            room = width - cell_len(hint) - 6
            text.append(f" {fit(news, min(cell_len(news), room))}{hint} ", "bold")
        store_label = clean(self.store_label)
        room = width - text.cell_len - 5
        shown = ""
        if store_label and room >= _LEAST:
            shown = f" {fit(store_label, min(cell_len(store_label), room))} "
        text.append("─" * max(0, width - text.cell_len - cell_len(shown) - 2))
        text.append(shown, Style(italic=True, bold=False))
        return text.append("─" * max(0, width - text.cell_len))


class TooSmall(Static):
    """Covers a screen that has too little room to be read."""

    def __init__(self) -> None:
        """Say how much room it takes."""
        super().__init__("Too small: seasonboard needs 60 x 15 cells.", markup=False)
