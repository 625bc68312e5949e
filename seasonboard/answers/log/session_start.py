"""When a new session starts and what it is, as one typed line: `2026-11-14 18:30 game`."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from seasonboard.answers.log.parts import LogSession
from seasonboard.errors import ScopeError
from seasonboard.terms import Setting

_USUAL = time(15, 30)
_HINT = "Write day, time and game or practice, such as 2026-11-14 18:30 game."


@dataclass(frozen=True, slots=True)
class Start:
    """A start by the department's clock, and what is played."""

    at: datetime
    setting: Setting

    @property
    def text(self) -> str:
        """Return it as it is typed."""
        return f"{self.at:%Y-%m-%d %H:%M} {self.setting.value}"

    def moved(self, *, days: int = 0, minutes: int = 0) -> "Start":
        """Return it some days and minutes later."""
        return Start(self.at + timedelta(days=days, minutes=minutes), self.setting)

    def turned(self) -> "Start":
        """Return a practice for a game, and a game for a practice."""
        other = Setting.PRACTICE if self.setting is Setting.GAME else Setting.GAME
        return Start(self.at, other)


def read_start(text: str) -> Start:
    """Read a typed start; of game and practice the first letter is enough.

    Raises:
        ScopeError: A part is missing or cannot be; the message says which.
    """
    words = text.replace("T", " ").split()
    if len(words) != 3:
        raise ScopeError(f"“{text}” is not day, time and setting.", _HINT)
    day, clock, word = words
    setting = next((one for one in Setting if one.value.startswith(word.casefold())), None)
    if setting is None:
        raise ScopeError(f"“{word}” is neither game nor practice.", _HINT)
    if not re.fullmatch(r"[0-9]{1,2}:[0-9]{2}", clock):
        raise ScopeError(f"“{clock}” is not a time.", _HINT)
    try:
        at = datetime.combine(date.fromisoformat(day), time.fromisoformat(clock.rjust(5, "0")))
    except ValueError:
        raise ScopeError(f"“{day} {clock}” is not a day and time.", _HINT) from None
    return Start(at, setting)


def usual_start(team: str, today: date, sessions: Sequence[LogSession]) -> Start:
    """Return today at the hour of the team's last session, and of its setting."""
    last = next((one for one in sessions if one.team == team), None)
    if last is None:
        return Start(datetime.combine(today, _USUAL), Setting.PRACTICE)
    clock = last.local_start.time().replace(second=0, microsecond=0)
    return Start(datetime.combine(today, clock), Setting(last.setting))
