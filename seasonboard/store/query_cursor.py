"""One cursor at work on several questions, with the working tables they share."""

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from typing import NamedTuple

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


class WorkingTable(NamedTuple):
    """A statement that makes a working table or macro.

    `own` are the parameters that it names, `needed` those too of the tables that it is made from.
    """

    name: str
    sql: str
    own: frozenset[str]
    needed: frozenset[str]


@cache
def tables_of(works_on: str, sql: str) -> tuple[WorkingTable, ...]:
    """Return what the SQL of a question reads of its working tables, and what those are made of."""
    steps = []
    for step in reversed(duckdb.extract_statements(working_tables(works_on)) if works_on else []):
        name = re.findall(r"TEMP (?:TABLE|MACRO) (\w+)", step.query)[0]
        if re.search(rf"\b{name}\b", sql):
            sql += step.query
            steps.append((name, step.query, frozenset(step.named_parameters)))
    tables: list[WorkingTable] = []
    for name, text, own in reversed(steps):
        below = (t.needed for t in tables if re.search(rf"\b{t.name}\b", text))
        tables.append(WorkingTable(name, text, own, own.union(*below)))
    return tuple(tables)


class QueryCursor:
    """A cursor and the working tables that lie ready on it.

    Working tables are temporary: they belong to the cursor and go with it, so that readers at the
    same time, also of a store that is open read-only, do not meet.
    """

    def __init__(self, cursor: duckdb.DuckDBPyConnection) -> None:
        """Work with `cursor`, which nobody else uses meanwhile."""
        self.cursor = cursor
        self._ready: dict[str, Mapping[str, object]] = {}

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

    def ready_tables(self, question: SqlQuestion, params: Mapping[str, object]) -> int:
        """Return how many working tables of a question lie ready; 0 if one has other parameters."""
        lying = [
            self._ready[table.name] == {each: params.get(each) for each in table.needed}
            for table in tables_of(question.works_on, question.sql)
            if table.name in self._ready
        ]
        return len(lying) if all(lying) else 0

    def _make_ready(self, question: SqlQuestion, params: Mapping[str, object]) -> None:
        """Make the working tables that do not lie ready for the same parameters."""
        for table in tables_of(question.works_on, question.sql):
            needed = {each: params[each] for each in table.needed}
            if self._ready.get(table.name) != needed:
                self._make(table, needed)

    def _make(self, table: WorkingTable, needed: Mapping[str, object]) -> None:
        self.cursor.execute(table.sql, {each: needed[each] for each in table.own} or None)
        self._ready[table.name] = needed
