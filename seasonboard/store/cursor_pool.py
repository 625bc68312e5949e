"""The cursors of one store: who works at them, and what lies ready for the next."""

import threading
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager

import duckdb
import polars as pl

from seasonboard.errors import StoreError
from seasonboard.paging import PageAsked
from seasonboard.store.query_cursor import QueryCursor
from seasonboard.store.question_header import SqlQuestion

AT_ONCE = 2
"""Desks among which the questions of one answer are shared: planning one uses a single core."""
KEPT = 4
"""Idle desks whose working tables are kept, so that the next screen finds them ready."""
COUNTS_KEPT = 2000
"""Counts kept for the next asking; some thirty checks in some sixty scopes."""

Asked = Sequence[tuple[SqlQuestion, Mapping[str, object]]]


class StoreClosedError(StoreError):
    """A question came when the store had been closed."""


class CursorPool:
    """Hands out cursors, stops them, and keeps a few with their working tables."""

    def __init__(self, connection: duckdb.DuckDBPyConnection) -> None:
        """Make cursors of `connection`, which stays the caller's."""
        self._connection = connection
        self._busy: set[duckdb.DuckDBPyConnection] = set()
        self._idle: list[QueryCursor] = []
        self._guard = threading.Condition()
        self._stale: set[duckdb.DuckDBPyConnection] = set()
        self.is_closed = False
        self._counts: dict[tuple[str, str], int] = {}
        self._writes = 0

    def shared(self, questions: Asked) -> tuple[pl.DataFrame, ...]:
        """Put questions at two desks at once; return their rows in order."""
        with ThreadPoolExecutor(max_workers=AT_ONCE) as pool:
            shares = [pool.submit(self.rows, questions[n::AT_ONCE]) for n in range(AT_ONCE)]
            rows = [share.result() for share in shares]
        return tuple(rows[n % AT_ONCE][n // AT_ONCE] for n in range(len(questions)))

    def rows(self, questions: Asked) -> list[pl.DataFrame]:
        """Put questions one after the other with one cursor."""
        with self._query_cursor(questions) as query_cursor:
            return [query_cursor.rows(question, params) for question, params in questions]

    def page(
        self, question: SqlQuestion, params: Mapping[str, object], page: PageAsked
    ) -> pl.DataFrame:
        """Put one question with a cursor and return one page of it."""
        with self._query_cursor([(question, params)]) as query_cursor:
            return query_cursor.page(question, params, page)

    def counts(self, questions: Asked) -> list[int]:
        """Return how many rows each question has; counts are kept until something is written."""
        names = [(question.name, repr(sorted(params.items()))) for question, params in questions]
        with self._guard:
            writes = self._writes
            known = {name: self._counts[name] for name in names if name in self._counts}
        new = {n: q for n, q in zip(names, questions, strict=True) if n not in known}
        if new:
            with self._query_cursor(list(new.values())) as query_cursor:
                known |= {name: query_cursor.count(*asked) for name, asked in new.items()}
        with self._guard:
            if writes == self._writes:
                if len(self._counts) > COUNTS_KEPT:
                    self._counts.clear()
                self._counts |= known
        return [known[name] for name in names]

    def cursor(self) -> duckdb.DuckDBPyConnection:
        """Give a cursor of its own: one serves one thread and one result.

        Raises:
            StoreClosedError: The store is closed.
        """
        with self._guard:
            if self.is_closed:
                raise StoreClosedError("The store is closed.")
            return self._connection.cursor()

    def checkpoint(self) -> None:
        """Write what is in the log into the file."""
        with self._guard:
            self._connection.execute("CHECKPOINT store")

    def clear(self) -> None:
        """Let go of working tables, of desks at work once they are done: they no longer hold."""
        with self._guard:
            self._writes += 1
            self._counts.clear()
            self._stale |= self._busy
            while self._idle:
                self._idle.pop().cursor.close()

    def interrupt(self) -> None:
        """Stop every question that is running."""
        with self._guard:
            for cursor in self._busy:
                cursor.interrupt()

    def close(self) -> None:
        """Stop what is running, and give out no more."""
        with self._guard:
            self.is_closed = True
            while self._busy:  # an interrupt that comes before DuckDB has begun is lost
                self.interrupt()
                self._guard.wait(0.02)
            self.clear()

    @contextmanager
    def _query_cursor(self, questions: Asked) -> Iterator[QueryCursor]:
        query_cursor = self._take(questions)
        is_done = False
        try:
            yield query_cursor
            is_done = True
        finally:
            self._give_back(query_cursor, is_done=is_done)

    def _take(self, questions: Asked) -> QueryCursor:
        """Return the idle cursor on which most of the working tables lie ready, else a new one."""
        with self._guard:
            ready = {d: sum(d.ready_tables(*each) for each in questions) for d in self._idle}
            query_cursor = max(self._idle, key=lambda desk: ready[desk], default=None)
            if query_cursor is None or not ready[query_cursor]:
                query_cursor = QueryCursor(self.cursor())
            else:
                self._idle.remove(query_cursor)
            self._busy.add(query_cursor.cursor)
            return query_cursor

    def _give_back(self, query_cursor: QueryCursor, *, is_done: bool) -> None:
        """Keep a cursor that has working tables; few are kept, the oldest goes first."""
        with self._guard:
            is_fresh = query_cursor.cursor not in self._stale
            self._busy.discard(query_cursor.cursor)
            self._stale.discard(query_cursor.cursor)
            if is_done and is_fresh and query_cursor.has_tables and not self.is_closed:
                self._idle.append(query_cursor)
            else:
                query_cursor.cursor.close()
            while len(self._idle) > KEPT:
                self._idle.pop(0).cursor.close()
            self._guard.notify_all()
