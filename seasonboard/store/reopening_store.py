"""A store that is read all day and written to now and then, by one program."""

import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TypeVar

import polars as pl

from seasonboard.paging import PageAsked, PageFound
from seasonboard.store.cursor_pool import StoreClosedError
from seasonboard.store.store import Store, open_store

AnswerT = TypeVar("AnswerT")


class ReopeningStore:
    """A store open for reading, which lets go of its file while something is written.

    Whoever has a store open for writing shuts out every reader, in the same program too. Between
    two writings other programs may read it. Questions that run when a writing begins are stopped;
    those that come meanwhile wait for its end. Each raises what the `Store` method it is
    named after raises.
    """

    def __init__(self, path: Path) -> None:
        """Open the store at `path` for reading.

        Raises:
            StoreError: It cannot be opened.
        """
        self.path = path
        self._gate = threading.Lock()
        self._store = open_store(path)

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
            StoreError: It cannot be opened.
        """
        with self._gate:
            self._store.close()
            try:
                with open_store(self.path, read_only=False) as store:
                    yield store
            finally:
                self._store = open_store(self.path)

    def interrupt(self) -> None:
        """Stop every question that is running."""
        self._store.interrupt()

    def close(self) -> None:
        """Stop what is running and let go of the file."""
        with self._gate:
            self._store.close()

    def ask(self, question: Callable[[Store], AnswerT]) -> AnswerT:
        """Return what `question` finds in the store; it may be called twice.

        Raises:
            StoreError, StoppedError: As `Store.read`.
        """
        with self._gate:
            store = self._store
        try:
            return question(store)
        except StoreClosedError:  # a writing came between; unless the board is closing, ask anew
            with self._gate:
                again = self._store
            if again is store:
                raise
            return question(again)
