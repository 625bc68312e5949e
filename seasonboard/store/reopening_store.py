"""A store that is read all day and written to now and then, by one program."""

import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from time import monotonic
from typing import TypeVar

import polars as pl

from seasonboard.errors import StoreError
from seasonboard.paging import PageAsked, PageFound
from seasonboard.store.cursor_pool import StoreClosedError
from seasonboard.store.store import Store, open_store

AnswerT = TypeVar("AnswerT")
IDLE_S = 2.0
"""Seconds without a question after which others may write; opening again takes some 20 ms."""


class ReopeningStore:
    """A store open for reading, which lets go of its file while something is written.

    Whoever has a store open for writing shuts out every reader, in the same program too, and
    readers shut out whoever writes. So the file is let go of when nothing was asked for a while,
    and opened again with the next question. Questions that run when a writing begins are stopped;
    those that come meanwhile wait for its end. Before each question and each writing it makes sure
    that the store is still where it was: none is ever made here, and no other one is taken for it.
    Each method raises what the `Store` method it is named after raises.
    """

    def __init__(self, path: Path, *, idle_s: float = IDLE_S) -> None:
        """Open the store at `path` for reading; let go of its file `idle_s` after a question.

        Raises:
            StoreError: It cannot be opened.
        """
        self.path = path
        self._gate = threading.Lock()
        self._is_over = False
        self._idle_s = idle_s
        self._asking = 0
        self._asked_at = monotonic()
        self._timer: threading.Timer | None = None
        self._store = open_store(path)
        self._file = _file_at(path)
        self._store_id = _store_id(self._store)
        self._let_go_in(idle_s)

    def read(self, name: str, /, **params: object) -> pl.DataFrame:
        """Put one question of the catalogue to the store, as `Store.read`."""
        return self.ask(lambda store: store.read(name, **params))

    def read_each(
        self, asked: Sequence[tuple[str, Mapping[str, object]]]
    ) -> tuple[pl.DataFrame, ...]:
        """Put several questions, as `Store.read_each`."""
        return self.ask(lambda store: store.read_each(asked))

    def read_page(self, name: str, page: PageAsked, /, **params: object) -> PageFound:
        """Put one question, and return one page of its rows, as `Store.read_page`."""
        return self.ask(lambda store: store.read_page(name, page, **params))

    def count_each(self, asked: Sequence[tuple[str, Mapping[str, object]]]) -> tuple[int, ...]:
        """Count the rows of several questions, as `Store.count_each`."""
        return self.ask(lambda store: store.count_each(asked))

    def text(self, name: str) -> str:
        """Return the SQL of one question, its header first, as `Store.text`."""
        return self.ask(lambda store: store.text(name))

    @contextmanager
    def writing(self) -> Iterator[Store]:
        """Give the store open for writing, then open it for reading again.

        Raises:
            StoreLockedError: Another program has it open; it is as it was, and open for reading.
            StoreError: It cannot be opened, or is no longer where it was; nothing is written.
        """
        with self._gate:
            self._same_store().close()
            try:
                with open_store(self.path, read_only=False) as store:
                    yield store
            finally:
                with suppress(StoreError):  # whoever asks next is told, or finds it back
                    self._store, self._file = open_store(self.path), _file_at(self.path)
                self._let_go_in(self._idle_s)

    def interrupt(self) -> None:
        """Stop every question that is running."""
        self._store.interrupt()

    def close(self) -> None:
        """Stop what is running and let go of the file."""
        with self._gate:
            self._is_over = True
            if self._timer is not None:
                self._timer.cancel()
            self._store.close()

    def ask(self, question: Callable[[Store], AnswerT]) -> AnswerT:
        """Return what `question` finds in the store; it may be called twice.

        Raises:
            StoreError, StoppedError: As `Store.read`; or the store is no longer where it was.
        """
        with self._gate:
            store = self._same_store()
            self._asking += 1
        try:
            return question(store)
        except StoreClosedError:  # a writing came between; unless the board is closing, ask anew
            with self._gate:
                again = self._same_store()
            if again is store:
                raise
            return question(again)
        finally:
            with self._gate:
                self._asking -= 1
                self._asked_at = monotonic()
                self._let_go_in(self._idle_s)

    def _let_go_in(self, seconds: float) -> None:
        if self._timer is None and not self._is_over:
            self._timer = threading.Timer(seconds, self._let_go)
            self._timer.daemon = True
            self._timer.start()

    def _let_go(self) -> None:
        """Let go of the file, or look again later where something was asked meanwhile."""
        with self._gate:
            self._timer = None
            rest = self._asked_at + self._idle_s - monotonic()
            if self._asking or rest > 0:
                self._let_go_in(max(rest, self._idle_s / 2))
            else:
                self._store.close()

    def _same_store(self) -> Store:
        """Return the store, opened anew where its file was put back or replaced by a copy.

        Raises:
            StoreError: There is no file any more, or another store lies in its place.
        """
        if self._is_over:
            return self._store
        file = _file_at(self.path)
        if file is None:
            raise StoreError(
                f"The store {self.path} is gone: it was moved or renamed, or its disk is away. "
                "Nothing was written.",
                "Bring it back to go on here; what is shown and typed stays.",
            )
        if file != self._file or self._store.is_closed:
            self._store.close()
            store = open_store(self.path)
            if _store_id(store) != self._store_id:
                store.close()
                raise StoreError(
                    f"Another store lies at {self.path} than the one that was opened. Nothing was "
                    "written.",
                    "Bring the first one back, or leave the board and open this one.",
                )
            self._store, self._file = store, file
        return self._store


def _file_at(path: Path) -> tuple[int, int] | None:
    """Return what tells a file from others whatever its name; None where there is none."""
    try:
        status = path.stat()
    except OSError:
        return None
    return status.st_dev, status.st_ino


def _store_id(store: Store) -> str:
    return str(store.read("bundle/store_id")["store_id"].item())
