"""What is being typed on a sheet: a reason, minutes, plays, or whom to jump to."""

from dataclasses import dataclass, replace
from enum import StrEnum

from textual import events

from seasonboard.answers.log.marks import REASONS

_MOST = {"minutes": 6, "plays": 4, "jump": 30, "jersey": 4}


class Typing(StrEnum):
    """What the next keys mean."""

    REASON = "reason"
    MINUTES = "minutes"
    PLAYS = "plays"
    JUMP = "jump"
    JERSEY = "jersey"


_PROMPTS = {
    Typing.MINUTES: "Minutes played: {}▏ ↵ takes it · ⌫ · Esc as before",
    Typing.PLAYS: "Plays: {}▏ ↵ takes it · ⌫ · Esc as before",
    Typing.JERSEY: "Jersey {}▏",
    Typing.JUMP: "Jersey or name: {}▏ ↵ stays there",
}


class Key(StrEnum):
    """What one key does to what is being typed."""

    TYPED = "typed"
    DONE = "done"
    LEFT = "left"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class TypedText:
    """What is being typed, and how far it is."""

    what: Typing
    text: str = ""

    @property
    def prompt(self) -> str:
        """Say what is expected."""
        if self.what is Typing.REASON:
            listed = " · ".join(f"{letter} {reason.value}" for letter, reason in REASONS.items())
            return f"Why? {listed} · ↵ not given"
        return _PROMPTS[self.what].format(self.text)

    def after(self, event: events.Key) -> tuple["TypedText", Key]:
        """Return what is typed after a key, and what the key was."""
        if event.key == "enter":
            return self, Key.DONE
        if event.key == "escape":
            return self, Key.LEFT
        if event.key == "backspace" and self.what is not Typing.REASON:
            return replace(self, text=self.text[:-1]), Key.TYPED
        letter = event.character or ""
        if not self._takes(letter):
            return self, Key.OTHER
        return replace(self, text=(self.text + letter)[: _MOST.get(self.what, 1)]), Key.TYPED

    def _takes(self, letter: str) -> bool:
        if self.what is Typing.REASON:
            return letter in REASONS
        if self.what is Typing.JUMP:
            return bool(letter) and letter.isprintable()
        if self.what is Typing.MINUTES and letter == ".":
            return "." not in self.text
        return letter.isascii() and letter.isdigit()
