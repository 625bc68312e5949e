"""One cursor at work on several questions, with the working tables they share."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager

import duckdb
import polars as pl

from seasonboard.errors import StoreError
from seasonboard.paging import PageAsked
from seasonboard.store.catalogue import working_tables
from seasonboard.store.open_errors import reading_hint
from seasonboard.store.paging import counted, paged
from seasonboard.store.question_header import SqlQuestion


class StoppedError(StoreError):
    """A question was stopped before it was answered."""


class QueryCursor:
    """A cursor and the working tables that lie ready on it.

    Working tables are temporary: they belong to the cursor and go with it, so that readers at the
    same time, also of a store that is open read-only, do not meet.
    """

    def __init__(self, cursor: duckdb.DuckDBPyConnection) -> None:
        """Work with `cursor`, which nobody else uses meanwhile."""
        self.cursor = cursor
        self._ready: dict[str, dict[str, object]] = {}

    def rows(self, question: SqlQuestion, params: Mapping[str, object]) -> pl.DataFrame:
        """Return the rows of one question.

        Raises:
            StoreError: A parameter is missing, or DuckDB refused.
            StoppedError: The cursor was interrupted.
        """
        with self._asked(question, params) as own:
            return pl.DataFrame(self.cursor.sql(question.sql, params=own))

    def page(
        self, question: SqlQuestion, params: Mapping[str, object], page: PageAsked
    ) -> pl.DataFrame:
        """Return one page of a question, with two more columns that count its rows.

        Raises:
            StoreError, StoppedError: As `rows`.
        """
        sql, added = paged(question, page)
        with self._asked(question, params) as own:
            return pl.DataFrame(self.cursor.sql(sql, params=own | added))

    def count(self, question: SqlQuestion, params: Mapping[str, object]) -> int:
        """Return how many rows a question has.

        Raises:
            StoreError, StoppedError: As `rows`.
        """
        with self._asked(question, params) as own:
            ((number,),) = self.cursor.execute(counted(question), own or None).fetchall()
        return int(number)

    @contextmanager
    def _asked(
        self, question: SqlQuestion, params: Mapping[str, object]
    ) -> Iterator[dict[str, object]]:
        """Make the working tables ready; give the SQL's own parameters, and the store's errors."""
        try:
            if question.works_on:
                self._make_ready(question, params)
            yield {name: value for name, value in params.items() if name in question.named}
        except duckdb.InterruptException as error:
            raise StoppedError("The question was stopped.") from error
        except (duckdb.Error, KeyError) as error:
            hint = reading_hint(str(error))
            raise StoreError(f"“{question.asks}” could not be answered.", hint) from error

    @property
    def has_tables(self) -> bool:
        """Say whether working tables lie on it."""
        return bool(self._ready)

    def is_ready_for(self, question: SqlQuestion, params: Mapping[str, object]) -> bool:
        """Say whether the working tables of a question lie ready for these parameters."""
        ready = self._ready.get(question.works_on)
        return ready is not None and all(params.get(each) == ready[each] for each in ready)

    def _make_ready(self, question: SqlQuestion, params: Mapping[str, object]) -> None:
        """Make the working tables, unless they lie ready for the same parameters."""
        if self.is_ready_for(question, params):
            return
        self._ready.pop(question.works_on, None)
        steps = duckdb.extract_statements(working_tables(question.works_on))
        needed = {each: params[each] for step in steps for each in step.named_parameters}
        for step in steps:
            own = {each: needed[each] for each in step.named_parameters}
            self.cursor.execute(step, own or None)
        self._ready[question.works_on] = needed
