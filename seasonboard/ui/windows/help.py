"""Help for one screen, drawn from its bindings, and every help topic."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import cast

from rich.text import Text
from textual.app import App
from textual.binding import ActiveBinding, Binding
from textual.dom import DOMNode

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
_USES = ("Here", "Moving about", "Everywhere", "Other screens")
KeyLines = Sequence[tuple[str, str]]
"""Keys, and what they do."""


class HelpScreen(TextWindow[None]):
    """What a screen shows, its keys, and what the board is not."""

    BINDINGS = bindings(
        key("escape,question_mark,q,enter", "dismiss", "Close", "Back to the page", "help.close"),
        key("h", "topics", "Topics", "Choose a help topic", "help.topics"),
        key("t", "tour", "Tour", "Five steps around the board", "help.tour"),
    )
    FOOT = "h help topics · t a tour in five steps · Esc closes"

    def __init__(self, summary: str, groups: Mapping[str, "KeyLines"], caution: str) -> None:
        """Show a text, keys with what they do by their use, and a caution."""
        text = Text(summary).append("\n")
        for title, lines in groups.items():
            text.append(f"\n{title}\n", "bold")
            for name, does in lines:
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


def keys_by_use(
    bindings: Iterable[ActiveBinding], display: Callable[[Binding], str]
) -> dict[str, KeyLines]:
    """Return the keys of active bindings with what they do, one line an action, by their use."""
    groups: dict[str, dict[str, tuple[list[str], str]]] = {use: {} for use in _USES}
    for node, binding, enabled, tooltip in bindings:
        if enabled and tooltip:
            lines = groups[_use(node, binding)]
            lines.setdefault(binding.action, ([], tooltip))[0].append(display(binding))
    return {
        use: [(" ".join(dict.fromkeys(keys)), does) for keys, does in lines.values()]
        for use, lines in groups.items()
        if lines
    }


def _use(node: DOMNode, binding: Binding) -> str:
    if "show_board" in binding.action:
        return "Other screens"
    if isinstance(node, App):
        return "Everywhere"
    return "Moving about" if isinstance(node, Page) else "Here"
