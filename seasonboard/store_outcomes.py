"""What the store did, or would do, as plain values that a person can be told."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Backup:
    """One backup: its file, running number, moment (UTC) and cause in words."""

    path: Path
    number: int
    made_at: datetime
    cause: str

    @property
    def sentence(self) -> str:
        """Return it in words, for a sentence."""
        return f"number {self.number} of {self.made_at:%Y-%m-%d %H:%M} UTC, {self.cause}"


@dataclass(frozen=True, slots=True)
class ListedBackup:
    """A backup and the rows of its tables; `why` says why it cannot be read, if so."""

    backup: Backup
    rows: Mapping[str, int]
    why: str = ""


@dataclass(frozen=True, slots=True)
class Replacement:
    """What would be replaced by what.

    Attributes:
        source: The backup's file.
        sentence: Which backup it is, in words.
        now: Rows by table of the store; empty when there is none or it cannot be read.
        then: Rows by table of the backup.
        why: Why the store cannot be read; empty when it can, or when there is none.
    """

    source: Path
    sentence: str
    now: Mapping[str, int]
    then: Mapping[str, int]
    why: str = ""


@dataclass(frozen=True, slots=True)
class BundleContent:
    """What a bundle carries: `tables` is (table, new rows, changed rows) in the order of tables.

    `since` is the load after which all of it is new, 0 for everything; `until` the last load.
    """

    tables: tuple[tuple[str, int, int], ...]
    since: int
    until: int


@dataclass(frozen=True, slots=True)
class ExportedTable:
    """One table that was written: its name, its rows, and the file it is in."""

    table: str
    rows: int
    file: Path


@dataclass(frozen=True, slots=True)
class UndoneLoad:
    """A load that is, or would be, taken back.

    `tables` is (table, file, new rows that go, changed rows that get their old cells) in the order
    of the files; `cells` counts the changed cells.
    """

    load_no: int
    loaded_at: datetime
    tables: tuple[tuple[str, str, int, int], ...]
    cells: int

    @property
    def labels(self) -> tuple[str, ...]:
        """Return the files, or what an entry was called."""
        return tuple(file for _, file, _, _ in self.tables)

    @property
    def new(self) -> int:
        """Return how many new rows go."""
        return sum(new for _, _, new, _ in self.tables)

    @property
    def changed(self) -> int:
        """Return how many changed rows get their old cells."""
        return sum(changed for _, _, _, changed in self.tables)

    @property
    def warning(self) -> str:
        """Return which questions fixed in advance go with it; empty: none."""
        many = sum(new for table, _, new, _ in self.tables if table == "questions")
        if not many:
            return ""
        what, counts = ("question", "counts") if many == 1 else ("questions", "count")
        goes = "goes" if many == 1 else "go"
        return f"{many:,} {what} fixed in advance {goes}, and no longer {counts} as asked before."


@dataclass(frozen=True, slots=True)
class TablePlan:
    """What one file would do to its table, in rows; `sha256` is the hash of the file."""

    table: str
    file: str
    new: int
    changed: int
    same: int
    sha256: str = ""
