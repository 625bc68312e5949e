"""Help for one screen, drawn from its bindings, and every help topic."""

from collections.abc import Callable, Iterable
from typing import cast

from rich.text import Text
from textual.binding import ActiveBinding, Binding

from seasonboard.help.rendering import RenderedTopic
from seasonboard.help.topics import titles, topic_markdown
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import fit
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.windows.chooser import Choice, ChooserPrompt, choose
from seasonboard.ui.windows.text_window import TextWindow
from seasonboard.ui.windows.tour import TourScreen

_KEY = 10


class HelpScreen(TextWindow[None]):
    """What a screen shows, its keys, and what the board is not."""

    BINDINGS = bindings(
        key("escape,question_mark,q,enter", "dismiss", "Close", "Back to the page", "help.close"),
        key("h", "topics", "Topics", "Choose a help topic", "help.topics"),
        key("t", "tour", "Tour", "Five steps around the board", "help.tour"),
    )
    FOOT = "h help topics · t a tour in five steps · Esc closes"

    def __init__(self, summary: str, keys: Iterable[tuple[str, str]], caution: str) -> None:
        """Show a text, keys with what they do, and a caution."""
        text = Text(summary).append("\n\nKeys\n", "bold")
        for name, does in keys:
            text.append(fit(name, _KEY), "bold").append(f"{does}\n")
        super().__init__(text.append("\nKeep in mind\n", "bold").append(caution))

    def action_tour(self) -> None:
        """Show the tour in place of the help."""
        self.app.switch_screen(TourScreen())

    def action_topics(self) -> None:
        """Let a topic be chosen, and show it."""
        choices = [Choice(name, name.ljust(_KEY), title) for name, title in titles().items()]
        choose(self.app, ChooserPrompt("Help topics", choices), self._show_topic)

    def _show_topic(self, name: str) -> None:
        markdown = topic_markdown(name, cast("SeasonboardApp", self.app).help_part)
        self.app.push_screen(TopicScreen(RenderedTopic(markdown)))


class TopicScreen(TextWindow[None]):
    """One topic, the same text that `seasonboard help` prints."""

    BINDINGS = bindings(key("escape,q", "dismiss", "Close", "Back to the help", "topic.close"))
    FOOT = "↑ ↓ scroll · Esc goes back"


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
