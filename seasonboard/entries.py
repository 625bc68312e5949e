"""What is written down on the board: entries, and the one who keeps them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from seasonboard.errors import Problem
from seasonboard.load_dialog import LoadDialog
from seasonboard.store_outcomes import UndoneLoad

Rows = Sequence[Mapping[str, str | None]]


@dataclass(frozen=True, slots=True)
class Entry:
    """Rows typed in, as text under their columns' names, table by table.

    A row with a known key changes that row; columns that are not given keep what is there. Days
    are written 2026-11-14, moments 2026-11-14T18:30 in the department's time. `label` says what
    it is (“attendance, LF-WSOC, 14 Nov”); the log of loads shows it.
    """

    label: str
    tables: Mapping[str, Rows]


@dataclass(frozen=True, slots=True)
class Written:
    """What an entry did: rows that are new and that changed, and what was doubtful but kept."""

    load_no: int
    new: int
    changed: int
    notes: tuple[Problem, ...]


class EntryWriter(Protocol):
    """Writes entries into the store of the board. Every method may be called from a thread."""

    def look(self, entry: Entry) -> Written:
        """Check an entry and return what it would do (its number is 0); nothing is written.

        Raises:
            IntakeError: A cell is wrong; `problems` says which, with file, row and column.
            StoreError: The store could not be read.
        """

    def write(self, entry: Entry) -> Written:
        """Check and write an entry, all of it or nothing; the board's answers are then old.

        Raises:
            IntakeError, StoreError: As `look`; or another program has the store open.
        """

    def last(self) -> UndoneLoad | None:
        """Return what `take_back` would take back; None where nothing was ever written."""

    def take_back(self, load_no: int) -> UndoneLoad:
        """Take the last entry or load back, if it still is that number.

        Raises:
            StoreError: It is another by now, something later depends on it, or the store is open
                elsewhere.
        """

    def load(self, paths: Sequence[Path], dialog: LoadDialog) -> bool:
        """Load files, asking `dialog` as the command line does; return whether it was written.

        Raises:
            IntakeError: Something cannot be taken, or questions are open; nothing was written.
            StoreError: The store could not be written.
        """
