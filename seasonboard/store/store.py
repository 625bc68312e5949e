"""Opening one store and putting questions to it. Nothing else opens DuckDB."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path
from typing import Self

import duckdb
import polars as pl

from seasonboard.errors import StoreError
from seasonboard.paging import PageAsked, PageFound
from seasonboard.store.attaching import counts
from seasonboard.store.backups import back_up
from seasonboard.store.catalogue import catalogue, shared_parts
from seasonboard.store.cursor_pool import CursorPool
from seasonboard.store.open_errors import damaged, missing, writing_error
from seasonboard.store.opening import in_memory, open_file
from seasonboard.store.paging import MATCHING, PLACE, TOTAL
from seasonboard.store.question_header import SqlQuestion


class Store:
    """One season file. Reading is safe from any thread; writing is one transaction an action."""

    def __init__(
        self, connection: duckdb.DuckDBPyConnection, path: Path | None, notes: tuple[str, ...] = ()
    ) -> None:
        """Take over an open connection; use `open_store` or `memory_store` instead."""
        self._connection = connection
        self._cursors = CursorPool(connection)
        self.path = path
        self.notes = notes
        for part in shared_parts():
            connection.execute(part)

    def read(self, name: str, /, **params: object) -> pl.DataFrame:
        """Put one question of the catalogue, for instance `compare/strata`, to the store.

        Raises:
            StoreError: The question is unknown, a parameter is missing, or DuckDB refused.
            StoppedError: `interrupt` was called meanwhile.
        """
        (rows,) = self._cursors.rows([(_question(name, params), params)])
        return rows

    def read_each(
        self, asked: Sequence[tuple[str, Mapping[str, object]]]
    ) -> tuple[pl.DataFrame, ...]:
        """Put several questions, as (name, parameters); return their rows in the same order.

        They are shared between two desks, each of which makes the working tables it needs once.

        Raises:
            StoreError, StoppedError: As `read`.
        """
        return self._cursors.shared([(_question(name, params), params) for name, params in asked])

    def read_page(self, name: str, page: PageAsked, /, **params: object) -> PageFound:
        """Put one question, and return one page of its rows, sorted and searched in the store.

        Raises:
            StoreError, StoppedError: As `read`; or the question has no such column to sort by.
        """
        question = _question(name, params)
        frame = self._cursors.page(question, params, page)
        rows = frame.drop(PLACE, MATCHING, TOTAL)
        if len(frame):
            return PageFound(rows, *frame.select(MATCHING, TOTAL).row(0))
        if page.offset:  # beyond the last row: count without skipping
            first = self.read_page(name, replace(page, offset=0, limit=1), **params)
            return PageFound(rows, first.matching, first.total)
        if page.search:  # no row matches: count without searching
            first = self.read_page(name, replace(page, search="", limit=1), **params)
            return PageFound(rows, 0, first.total)
        return PageFound(rows, 0, 0)

    def text(self, name: str) -> str:
        """Return the SQL of one question, with the header that describes it.

        Raises:
            StoreError: There is no such question.
        """
        return _question(name, {}).sql.strip()

    def count_each(self, asked: Sequence[tuple[str, Mapping[str, object]]]) -> tuple[int, ...]:
        """Return how many rows each of several questions has, given as (name, parameters).

        Only the counts are made, not the rows; they are kept until something is written.

        Raises:
            StoreError, StoppedError: As `read`.
        """
        questions = [(_question(name, params), params) for name, params in asked]
        return tuple(self._cursors.counts(questions))

    @contextmanager
    def writing(self) -> Iterator[duckdb.DuckDBPyConnection]:
        """Give a cursor inside one transaction: all of it is written, or none of it.

        Raises:
            StoreError: DuckDB refused; nothing was written.
        """
        cursor = self._cursors.cursor()
        try:
            cursor.execute("BEGIN")
            yield cursor
            cursor.execute("COMMIT")
            self._cursors.clear()
        except BaseException as error:
            with suppress(duckdb.Error):  # DuckDB may have ended the transaction already
                cursor.execute("ROLLBACK")
            if isinstance(error, duckdb.Error):
                raise writing_error(self.path, str(error)) from error
            raise
        finally:
            cursor.close()
        self._tidy()

    def _tidy(self) -> None:
        """Write what may still be in the log into the file; what is committed stays so."""
        if self.path is None:
            return
        try:
            self._cursors.checkpoint()
        except duckdb.Error as error:
            self.notes += (
                f"It is written, but still stands in the log {self.path}.wal: keep both files "
                f"together ({error}).",
            )

    def back_up(self, cause: str) -> Path | None:
        """Back the store up among its other backups, before something is written to it.

        `cause` says why in words, such as “before load 4”.

        Returns:
            The backup's file; None when there is nothing in the store yet, or no file.

        Raises:
            StoreError: It could not be made; nothing was changed.
        """
        if self.path is None:
            return None
        backup = back_up(self._connection, self.path, cause)
        return backup.path if backup else None

    def interrupt(self) -> None:
        """Stop every question that is running."""
        self._cursors.interrupt()

    @property
    def is_closed(self) -> bool:
        """Say whether the file was let go of."""
        return self._cursors.is_closed

    def close(self) -> None:
        """Stop what is running and let go of the file."""
        self._cursors.close()
        self._connection.close()

    def __enter__(self) -> Self:
        """Return the store itself; leaving the block closes it."""
        return self

    def __exit__(self, *_: object) -> None:
        """Close the store."""
        self.close()


def open_store(path: Path, *, read_only: bool = True) -> Store:
    """Open a store; when writing, make it if there is none and bring an older one up to date.

    With `read_only` the file and its log are left as they are, and other readers let in. The
    store's `notes` say what a person should know of, such as a log set aside.

    Raises:
        StoreLockedError: Another process holds the store.
        StoreError: The file is missing, is not a store, is damaged, is from a newer version, or it
            or its folder may not be read or written. It was left as it is.
    """
    file = open_file(path, read_only=read_only)
    return Store(file.connection, path, file.notes)


def verify_store(path: Path, *, tell: Callable[[str], object]) -> Mapping[str, int]:
    """Open a store for writing, so that it is brought up to date, and read every cell of it.

    `tell` is told what was met, such as a log that was set aside.

    Returns:
        Rows by table.

    Raises:
        StoreError: As `open_store`; or there is no store, or a table cannot be read.
    """
    if not path.exists():
        raise missing(path)
    with open_store(path, read_only=False) as store:
        for note in store.notes:
            tell(note)
        try:
            return counts(store._connection)  # noqa: SLF001 - its own module
        except duckdb.Error as error:
            raise damaged(path, str(error)) from error


def memory_store() -> Store:
    """Open an empty store that lives only in memory."""
    return Store(in_memory().connection, None)


def _question(name: str, params: Mapping[str, object]) -> SqlQuestion:
    question = catalogue().get(name)
    if question is None:
        raise StoreError(f"There is no question “{name}” in queries/.")
    if extra := params.keys() - question.params.keys():
        raise StoreError(f"“{question.asks}” takes no parameter {', '.join(sorted(extra))}.")
    return question
