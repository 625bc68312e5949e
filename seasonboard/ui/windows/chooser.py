"""A window to choose from a list: one word, or several values, narrowed by typing."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from rich.text import Text
from textual import events, on
from textual.app import App, ComposeResult
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from seasonboard.terms import searchable
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout.format import clean
from seasonboard.ui.widgets.lines import TooSmall


@dataclass(frozen=True, slots=True)
class Choice:
    """One line of the list: what is chosen, how it is shown, and what stands beside it.

    `refused` says why it cannot be chosen now; it is listed all the same, last.
    """

    value: str
    shown: str
    beside: str = ""
    refused: str = ""


@dataclass(frozen=True, slots=True)
class ChooserPrompt:
    """What is to be chosen, from what, what is chosen now, and whether several may be.

    `everything` is the value that stands for all of them; it is never marked with others.
    """

    title: str
    choices: Sequence[Choice]
    chosen: frozenset[str] = frozenset()
    several: bool = False
    everything: str | None = None


class Chooser(ModalScreen[tuple[str, ...] | None]):
    """Asks for one or several of a list; Esc leaves without a choice."""

    AUTO_FOCUS = "OptionList"
    BINDINGS = bindings(
        key("escape", "dismiss(None)", "Leave", "Leave it as it is", "chooser.leave"),
        key("tab", "mark", "Mark", "Mark several, then Enter", "chooser.mark"),
        key("backspace", "erase", "Erase", "Take back a letter of the filter", "chooser.erase"),
    )

    def __init__(self, question: ChooserPrompt) -> None:
        """Ask a question."""
        super().__init__()
        self._question = question
        self._marked = set(question.chosen)
        self._has_marked = False
        self._unmarked = ""
        self._filter = ""

    def compose(self) -> ComposeResult:
        """Put the list under its title and filter."""
        keys = "↵ takes the line · Esc leaves · type to narrow"
        if self._question.several:
            keys = "↵ takes the line and what tab marked · type to narrow"
        with Vertical(classes="window"):
            yield Static(Text(self._question.title), classes="title")
            yield Static(Text(""), id="filter")
            yield OptionList(markup=False, compact=True)
            yield Static(Text(keys), classes="quiet")
        yield TooSmall()

    def on_mount(self) -> None:
        """List everything; stand on what is chosen now."""
        self._list()
        values = [choice.value for choice in self._shown()]
        first = next((n for n, value in enumerate(values) if value in self._question.chosen), 0)
        self.query_one(OptionList).highlighted = first if values else None

    def _shown(self) -> list[Choice]:
        """Return what matches, best first; then what was marked; last what is refused."""
        ranked = [(_rank(choice, self._filter), choice) for choice in self._question.choices]
        matching = [pair for pair in ranked if pair[0] is not None]
        matching.sort(key=lambda pair: (bool(pair[1].refused), pair[0]))
        shown = [choice for _, choice in matching]
        if self._has_marked:
            kept = [one for rank, one in ranked if rank is None and one.value in self._marked]
            first_refused = sum(not choice.refused for choice in shown)
            shown[first_refused:first_refused] = kept
        return shown

    def _list(self, lit: int = 0) -> None:
        options = self.query_one(OptionList)
        shown = self._shown()
        options.clear_options()
        options.add_options(
            Option(self._line(choice), disabled=bool(choice.refused)) for choice in shown
        )
        is_matched = any(
            _rank(choice, self._filter) is not None and not choice.refused for choice in shown
        )
        options.highlighted = lit if is_matched else None
        text = f"only with “{self._filter}”" if self._filter else "all listed"
        if not is_matched:
            text = f"none to take with “{self._filter}” · ⌫ takes back a letter"
        self.query_one("#filter", Static).update(Text(text, style="italic"))

    def _line(self, choice: Choice) -> Text:
        is_marked = choice.value in self._marked
        mark = "● " if is_marked else "○ " if self._question.several else "  "
        text = Text(mark + clean(choice.shown), no_wrap=True, overflow="ellipsis")
        beside = choice.refused or choice.beside
        return text.append(f"  {clean(beside)}", "italic") if beside else text

    def on_key(self, event: events.Key) -> None:
        """Narrow the list by what is typed."""
        letter = event.character
        if letter is not None and letter.isprintable() and (self._filter or letter != " "):
            event.stop()
            event.prevent_default()
            self._unmarked = ""
            self._filter += letter
            self._list()

    def action_erase(self) -> None:
        """Take back a letter."""
        self._filter = self._filter[:-1]
        self._list()

    def action_mark(self) -> None:
        """Mark the line or take its mark back."""
        number = self.query_one(OptionList).highlighted
        if not self._question.several or number is None:
            return
        value = self._shown()[number].value
        everything = self._question.everything
        self._unmarked = value if value in self._marked else ""
        if value == everything:
            self._marked = {value}
        else:
            self._marked = (self._marked ^ {value}) - {everything or ""}
            if not self._marked and everything is not None:
                self._marked = {everything}
        self._has_marked = True
        self._list([choice.value for choice in self._shown()].index(value))

    @on(OptionList.OptionSelected)
    def _take(self, event: OptionList.OptionSelected) -> None:
        lit = self._shown()[event.option_index].value
        taken = {lit}
        if self._has_marked and lit != self._question.everything:
            taken = (self._marked | {lit}) - {self._unmarked, self._question.everything or ""}
        listed = [choice.value for choice in self._question.choices if choice.value in taken]
        self.dismiss(tuple(listed) or (self._question.everything or lit,))


def _rank(choice: Choice, typed: str) -> int | None:
    """Return how well a choice matches what was typed, 0 best; None where it does not.

    The whole comes before a beginning, that before the beginning of a word, that before any part;
    what is shown comes before the value behind it.
    """
    wanted = "".join(searchable(typed).split())
    value = searchable(choice.value)
    words = searchable(choice.shown).split()
    if wanted in (value, "".join(words)):
        return 0
    rests = ["".join(words[n:]) for n in range(len(words))]
    starts = [number > 0 for number, rest in enumerate(rests) if rest.startswith(wanted)]
    if starts:
        return 1 + starts[0]
    return 3 if wanted in "".join(words) else 4 if wanted in "".join(value.split()) else None


def choose(app: App[Any], prompt: ChooserPrompt, take: Callable[..., None]) -> None:
    """Ask for one or several of a list; `take` gets what is chosen, one argument a value."""
    app.push_screen(Chooser(prompt), lambda values: take(*values) if values else None)
