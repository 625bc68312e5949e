"""The scope as a sentence whose parts can be chosen with a key or the mouse."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from rich.cells import cell_len
from rich.style import Style
from rich.text import Text
from textual import events
from textual.binding import BindingType
from textual.geometry import Size
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from seasonboard.sentence import Phrase
from seasonboard.ui.keys import key
from seasonboard.ui.layout.format import clean, wrap

MORE = "more"
"""The part behind the `…` at the end: every part, said in the sentence or not."""
_JOINS_ON = "purpose"
"""The part that is followed by a space: `preventive` `shin guards`."""


def lay_out(phrases: Sequence[Phrase], width: int) -> list[list[Phrase]]:
    """Return the sentence in lines of at most `width` cells, broken between phrases.

    What stands between phrases is a phrase of its own, without a part. A phrase that is wider
    than a line is broken between its words.
    """
    lines: list[list[Phrase]] = [[]]
    used = 0
    for glue, phrase in _glued(phrases):
        need = cell_len(glue) + cell_len(phrase.text)
        if lines[-1] and used + need > width:
            lines.append([])
            used = 0
        elif lines[-1] and glue:
            lines[-1].append(Phrase(glue))
            used += cell_len(glue)
        for number, piece in enumerate(wrap(phrase.text, width) or [""]):
            if number:
                lines.append([])
                used = 0
            lines[-1].append(Phrase(piece, phrase.part))
            used += cell_len(piece)
    return lines


def _glued(phrases: Sequence[Phrase]) -> Iterator[tuple[str, Phrase]]:
    before = ""
    for phrase in phrases:
        yield (" " if before == _JOINS_ON else " · "), Phrase(clean(phrase.text), phrase.part)
        before = phrase.part


class ScopeSentence(Widget, can_focus=True):
    """The sentence at the top of every screen."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("left", "step(-1)", "Part before", "To the part before", "sentence.before",
            is_quiet=True),
        key("right", "step(1)", "Part after", "To the next part", "sentence.after", is_quiet=True),
        key("enter", "choose", "change", "Change this part of the sentence", "sentence.choose"),
        key("backspace", "all_again", "anew", "The whole sentence as the board was opened",
            "sentence.all_again"),
    ]  # fmt: skip

    phrases: reactive[tuple[Phrase, ...]] = reactive((), layout=True)
    at: reactive[int] = reactive(0)

    @dataclass
    class Chosen(Message):
        """A part is to be changed."""

        part: str

    class AllAgain(Message):
        """Every part is to be as it was when the board was opened."""

    @property
    def parts(self) -> list[str]:
        """Return the parts that can be chosen, in the order of the sentence."""
        return [phrase.part for phrase in self.phrases if phrase.part]

    def validate_at(self, at: int) -> int:
        """Stay within the sentence."""
        return max(0, min(at, len(self.parts) - 1))

    def watch_phrases(self, old: tuple[Phrase, ...], new: tuple[Phrase, ...]) -> None:
        """Stay on the part that was stood on, wherever it is by now."""
        before, now = ([one.part for one in phrases if one.part] for phrases in (old, new))
        part = before[self.at] if self.at < len(before) else ""
        self.at = now.index(part) if part in now else self.at

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002
        """Return as many lines as the sentence needs."""
        return max(1, len(lay_out(self.phrases, max(1, width))))

    def render(self) -> Text:
        """Return the sentence, its parts underlined, the chosen one reversed."""
        lines = lay_out(self.phrases, max(1, self.size.width))
        parts = self.parts
        here = parts[self.at] if parts and self.has_focus else None
        text = Text()
        for number, line in enumerate(lines):
            text.append("\n" if number else "")
            for phrase in line:
                is_here = phrase.part == here
                style = Style(underline=True, reverse=is_here, bold=is_here)
                style += Style.from_meta({"part": phrase.part})
                text.append(phrase.text, style if phrase.part else "")
        return text

    def action_step(self, by: int) -> None:
        """Go to another part."""
        self.at += by

    def action_choose(self) -> None:
        """Ask for the part under the cursor to be changed."""
        if self.parts:
            self.post_message(self.Chosen(self.parts[self.at]))

    def action_all_again(self) -> None:
        """Ask for every part as it was at first."""
        self.post_message(self.AllAgain())

    def on_click(self, event: events.Click) -> None:
        """Ask for the part under the mouse to be changed."""
        part = event.style.meta.get("part")
        if part in self.parts:
            self.at = self.parts.index(part)
            self.action_choose()
