"""How many scopes were looked at: kept beside the user's settings, never in the store."""

import hashlib
import json
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from seasonboard.scope import Scope

NOT_OF_THE_SCOPE = frozenset({"through", "level"})
"""What may change from week to week without another question being asked."""


@dataclass(frozen=True, slots=True)
class Looks:
    """How many different scopes were looked at from a day on.

    `scopes` is None where that is not known, and `why` says why; `kept_in` says in words where the
    count is kept; `days` holds the days on which each scope was looked at.
    """

    scopes: int | None
    first_on: date | None
    kept_in: str = ""
    why: str = ""
    days: frozenset[tuple[date, str]] = field(default=frozenset(), repr=False)

    def since(self, day: date | None) -> "Looks":
        """Return the scopes looked at on or after a day; all that were counted without one."""
        if self.scopes is None or day is None:
            return self
        return replace(self, scopes=len({scope for on, scope in self.days if on >= day}))


UNCOUNTED = Looks(None, None, "", "nobody counts them here")


class LookBook:
    """Notes which scopes were looked at, a line each day and scope, in a small file.

    A line holds the day and a digest of the scope, so that the file tells nobody what was asked.
    """

    def __init__(self, path: Path, *, today: Callable[[], date] = date.today) -> None:
        """Keep the lines at `path`."""
        self._path = path
        self._today = today

    def note(self, scope: Scope) -> Looks:
        """Note a look at a scope, once a day, and return all looks so far.

        Where the file cannot be read or written nothing is refused: the count is not known.
        """
        kept_in = f"{self._path.parent.name}/{self._path.name} in this user's settings folder"
        look = (self._today(), digest(scope))
        try:
            lines = self._path.read_text("ascii").splitlines() if self._path.exists() else []
            days = {_read(line) for line in lines}
            if look not in days:
                self._path.parent.mkdir(parents=True, exist_ok=True)
                with self._path.open("a", encoding="ascii") as file:
                    file.write(f"{look[0]} {look[1]}\n")
        except (OSError, ValueError):
            return Looks(None, None, kept_in, f"{kept_in} cannot be read or written")
        days |= {look}
        scopes, first_on = {scope for _, scope in days}, min(on for on, _ in days)
        return Looks(len(scopes), first_on, kept_in, "", frozenset(days))


def digest(scope: Scope) -> str:
    """Return a short mark of a scope, the same whatever its last day and level are."""
    parts = {name: v for name, v in scope.resolved().items() if name not in NOT_OF_THE_SCOPE}
    text = json.dumps(parts, sort_keys=True, ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def _read(line: str) -> tuple[date, str]:
    day, _, scope = line.partition(" ")
    if len(scope) != len("0123456789abcdef"):
        raise ValueError(line)
    return date.fromisoformat(day), scope
