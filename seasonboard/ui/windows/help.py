"""Help for one screen, drawn from its bindings, and every help topic."""

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import ActiveBinding, Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.help.rendering import RenderedTopic
from seasonboard.help.topics import titles, topic_markdown
from seasonboard.ui.layout.format import fit
from seasonboard.ui.widgets.lines import TooSmall
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.windows.chooser import Choice, Chooser, ChooserPrompt
from seasonboard.ui.windows.tour import TourScreen

if TYPE_CHECKING:
    from seasonboard.ui.app.app import SeasonboardApp

_KEY = 10


class HelpScreen(ModalScreen[None]):
    """What a screen shows, its keys, and what the board is not."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "escape,question_mark,q,enter",
            "dismiss",
            "Close",
            tooltip="Back to the page",
            id="help.close",
        ),
        Binding("h", "topics", "Topics", tooltip="Choose a help topic", id="help.topics"),
        Binding("t", "tour", "Tour", tooltip="Five steps around the board", id="help.tour"),
    ]

    def __init__(self, text: str, keys: Iterable[tuple[str, str]], caution: str) -> None:
        """Show a text, keys with what they do, and a caution."""
        super().__init__()
        self._text = text
        self._keys = list(keys)
        self._caution = caution

    def compose(self) -> ComposeResult:
        """Write everything as one text that can be scrolled."""
        text = Text(self._text)
        text.append("\n\nKeys\n", "bold")
        for key, does in self._keys:
            text.append(fit(key, _KEY), "bold").append(f"{does}\n")
        text.append("\nKeep in mind\n", "bold").append(self._caution)
        with VerticalScroll(classes="window wide") as window:
            window.border_subtitle = "h help topics · t a tour in five steps · Esc closes"
            yield Static(text)
        yield TooSmall()

    def action_tour(self) -> None:
        """Show the tour in place of the help."""
        self.app.switch_screen(TourScreen())

    def action_topics(self) -> None:
        """Let a topic be chosen, and show it."""
        choices = [Choice(name, name.ljust(_KEY), title) for name, title in titles().items()]
        prompt = ChooserPrompt("Help topics", choices, frozenset())
        self.app.push_screen(Chooser(prompt), self._show_topic)

    def _show_topic(self, chosen: tuple[str, ...] | None) -> None:
        if chosen:
            app = cast("SeasonboardApp", self.app)
            self.app.push_screen(TopicScreen(topic_markdown(chosen[0], app.help_part)))


class TopicScreen(ModalScreen[None]):
    """One topic, the same text that `seasonboard help` prints."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q", "dismiss", "Close", tooltip="Back to the help", id="topic.close"),
    ]

    def __init__(self, markdown: str) -> None:
        """Show a topic."""
        super().__init__()
        self._markdown = markdown

    def compose(self) -> ComposeResult:
        """Write it as one text that can be scrolled."""
        with VerticalScroll(classes="window wide") as window:
            window.border_subtitle = "↑ ↓ scroll · Esc goes back"
            yield Static(RenderedTopic(self._markdown))
        yield TooSmall()


def keys_of(
    bindings: Iterable[ActiveBinding], display: Callable[[Binding], str]
) -> list[tuple[str, str]]:
    """Return the keys of active bindings with what they do, one line an action.

    Those that only move about on a page come last.
    """
    lines: dict[str, tuple[list[str], str]] = {}
    ordered = sorted(bindings, key=lambda active: isinstance(active.node, Page))
    for _, binding, enabled, tooltip in ordered:
        if enabled and tooltip:
            lines.setdefault(binding.action, ([], tooltip))[0].append(display(binding))
    return [(" ".join(dict.fromkeys(keys)), does) for keys, does in lines.values()]
