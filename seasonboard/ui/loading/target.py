"""Where files are loaded to: the store of the board, or one that is made for them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from seasonboard.errors import StoreError
from seasonboard.load_dialog import LoadDialog

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.entries import EntryWriter
    from seasonboard.prospect import Prospect


class StoreOpener(Protocol):
    """Makes stores, opens them, and reads other tables; every method may run in a thread."""

    def load(self, store: Path, paths: Sequence[Path], dialog: LoadDialog, /) -> bool:
        """Load files into a store, made where there is none; return whether it was written."""
        ...

    def open(self, store: Path, /) -> "AnswerSource":
        """Open a store to be shown."""
        ...

    def copy_sample(self) -> "AnswerSource":
        """Open a copy of the sample season that can be written to, made where there is none."""
        ...

    def store_path(self, place: str, /) -> Path:
        """Return the file of a store by what its board calls its place."""
        ...

    def read_prospect(self, path: Path, /) -> "Prospect":
        """Read the teams of a prospect from a table."""
        ...


@dataclass(frozen=True, slots=True)
class LoadTarget:
    """What files go into: `load` reads and writes, `opened` gives the board of a new store."""

    name: str
    load: Callable[[Sequence[Path], LoadDialog], bool]
    number: Callable[[], int]
    opened: "Callable[[], AnswerSource] | None" = None


def kept_target(name: str, entry_writer: "EntryWriter") -> LoadTarget:
    """Return the store that is open as a target."""
    return LoadTarget(name, entry_writer.load, lambda: _last(entry_writer))


def new_target(store: Path, maker: StoreOpener) -> LoadTarget:
    """Return a store of its own as a target.

    Raises:
        StoreError: There is no folder for it.
    """
    if not store.parent.is_dir():
        raise StoreError(f"The folder {store.parent} does not exist.", "Make it, or name another.")
    if store.is_dir():
        raise StoreError(f"{store} is a folder.", "Name a file in it, such as season.duckdb.")
    opened: list[AnswerSource] = []

    def first() -> "AnswerSource":
        if not opened:
            opened.append(maker.open(store))
        return opened[0]

    def number() -> int:
        entry_writer = first().entry_writer
        return _last(entry_writer) if entry_writer is not None else 0

    return LoadTarget(
        str(store), lambda paths, dialog: maker.load(store, paths, dialog), number, first
    )


def _last(entry_writer: "EntryWriter") -> int:
    last = entry_writer.last()
    return last.load_no if last is not None else 0
