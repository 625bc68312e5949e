"""Opening one store and putting questions to it. Nothing else opens DuckDB."""

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from types import TracebackType
from typing import Self

import duckdb
import polars as pl

from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.paging import PageAsked, PageFound
from seasonboard.store.catalogue import (
    Question,
    catalogue,
    migrations,
    shared_parts,
)
from seasonboard.store.desks import Desks
from seasonboard.store.paging import MATCHING, PLACE, TOTAL
from seasonboard.terms import KINDS

MARK = "seasonboard store"


class Store:
    """One season file. Reading is safe from any thread; writing is one transaction an action."""

    def __init__(self, connection: duckdb.DuckDBPyConnection, path: Path | None) -> None:
        """Take over an open connection; use `open_store` or `memory_store` instead."""
        self._connection = connection
        self._desks = Desks(connection)
        self.path = path
        for part in shared_parts():
            connection.execute(part)

    def read(self, name: str, /, **params: object) -> pl.DataFrame:
        """Put one question of the catalogue to the store.

        Args:
            name: The question, for instance `compare/strata`.
            params: Its parameters, as its header lists them.

        Raises:
            StoreError: The question is unknown, a parameter is missing, or DuckDB refused.
            StoppedError: `interrupt` was called meanwhile.
        """
        (rows,) = self._desks.rows([(_question(name, params), params)])
        return rows

    def read_each(
        self, asked: Sequence[tuple[str, Mapping[str, object]]]
    ) -> tuple[pl.DataFrame, ...]:
        """Put several questions, as (name, parameters); return their rows in the same order.

        They are shared between two desks, each of which makes the working tables it needs once.

        Raises:
            StoreError, StoppedError: As `read`.
        """
        return self._desks.shared([(_question(name, params), params) for name, params in asked])

    def read_page(self, name: str, page: PageAsked, /, **params: object) -> PageFound:
        """Put one question, and return one page of its rows, sorted and searched in the store.

        Raises:
            StoreError, StoppedError: As `read`; or the question has no such column to sort by.
        """
        question = _question(name, params)
        frame = self._desks.page(question, params, page)
        if len(frame):
            matching, total = frame.select(MATCHING, TOTAL).row(0)
            return PageFound(frame.drop(PLACE, MATCHING, TOTAL), matching, total)
        nothing = frame.drop(PLACE, MATCHING, TOTAL)
        if page.offset:  # beyond the last row: count without skipping
            first = self.read_page(name, replace(page, offset=0, limit=1), **params)
            return PageFound(nothing, first.matching, first.total)
        if page.search:  # no row matches: count without searching
            first = self.read_page(name, replace(page, search="", limit=1), **params)
            return PageFound(nothing, 0, first.total)
        return PageFound(nothing, 0, 0)

    def count_each(self, asked: Sequence[tuple[str, Mapping[str, object]]]) -> tuple[int, ...]:
        """Return how many rows each of several questions has, given as (name, parameters).

        Only the counts are made, not the rows; they are kept until something is written.

        Raises:
            StoreError, StoppedError: As `read`.
        """
        return tuple(
            self._desks.counts([(_question(name, params), params) for name, params in asked])
        )

    @contextmanager
    def writing(self) -> Iterator[duckdb.DuckDBPyConnection]:
        """Give a cursor inside one transaction: all of it is written, or none of it.

        Raises:
            StoreError: DuckDB refused; nothing was written.
        """
        cursor = self._desks.cursor()
        try:
            cursor.execute("BEGIN")
            yield cursor
            cursor.execute("COMMIT")
            self._desks.clear()
        except duckdb.Error as error:
            _roll_back(cursor)
            raise StoreError(
                "The store could not be written; nothing was changed.", str(error)
            ) from error
        except BaseException:
            _roll_back(cursor)
            raise
        finally:
            cursor.close()
        if self.path is not None:
            self._desks.checkpoint()

    def interrupt(self) -> None:
        """Stop every question that is running."""
        self._desks.interrupt()

    def close(self) -> None:
        """Stop what is running and let go of the file."""
        self._desks.close()
        self._connection.close()

    def __enter__(self) -> Self:
        """Return the store itself; leaving the block closes it."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close the store."""
        self.close()


def open_store(path: Path, *, read_only: bool = True) -> Store:
    """Open a store; when writing, make it if there is none and bring an older one up to date.

    Args:
        path: The store's file.
        read_only: Leave the file as it is, and let other readers in.

    Raises:
        StoreLockedError: Another process holds the store.
        StoreError: The file is missing, is not a store, is from a newer version, or its folder
            cannot be written.
    """
    new = not path.exists()
    if new and read_only:
        raise StoreError(
            f"There is no store at {path}.",
            "Make one with “seasonboard load FOLDER --store FILE”, or look at the sample season "
            "with “seasonboard --sample”.",
        )
    if new and not path.parent.is_dir():
        raise StoreError(f"The folder {path.parent} does not exist.", "Make it, or name another.")
    connection = _connect()
    try:
        _attach(connection, path, read_only=read_only)
        connection.execute("SET enable_external_access = false")
        if new:
            _make(connection)
        else:
            _bring_up_to_date(connection, path, read_only=read_only)
        return Store(connection, path)
    except BaseException as error:
        connection.close()
        if new:
            path.unlink(missing_ok=True)
        if isinstance(error, duckdb.Error):
            raise StoreError(
                f"The store {path} could not be made or brought up to date; nothing was changed.",
                str(error),
            ) from error
        raise


def memory_store() -> Store:
    """Open an empty store that lives only in memory."""
    connection = _connect()
    connection.execute("ATTACH ':memory:' AS store")
    _make(connection)
    return Store(connection, None)


def _connect() -> duckdb.DuckDBPyConnection:
    connection = duckdb.connect(":memory:")
    connection.execute("SET TimeZone = 'UTC'")
    return connection


def _attach(connection: duckdb.DuckDBPyConnection, path: Path, *, read_only: bool) -> None:
    mode = "READ_ONLY" if read_only else "READ_WRITE"
    quoted = str(path).replace("'", "''")  # ATTACH takes no parameter
    try:
        connection.execute(f"ATTACH '{quoted}' AS store (TYPE duckdb, {mode})")
    except duckdb.Error as error:
        raise _opening_error(path, str(error)) from error


def _opening_error(path: Path, said: str) -> StoreError:
    if "Conflicting lock" in said or "Could not set lock" in said:
        holder = re.search(r"\(PID (\d+)\)", said)
        by = f" by process {holder[1]}" if holder else " by another process"
        return StoreLockedError(
            f"The store {path} is in use{by}.", "Close seasonboard there, then try again."
        )
    if "not a valid DuckDB database" in said or path.is_dir():
        return StoreError(f"{path} is not a seasonboard store.", "Name another file with --store.")
    if "newer version" in said or "version number" in said:
        return StoreError(
            f"{path} was written by a newer version of DuckDB than this one reads.",
            "Update seasonboard.",
        )
    return StoreError(f"The store {path} could not be opened.", said)


def _make(connection: duckdb.DuckDBPyConnection) -> None:
    connection.execute("BEGIN")
    for _, sql in migrations():
        connection.execute(sql)
    connection.executemany("INSERT INTO store.kinds VALUES ($1, $2, $3, 0)", list(KINDS))
    connection.execute(
        "INSERT INTO store.about VALUES ('mark', $1), ('schema_version', $2)",
        [MARK, str(migrations()[-1][0])],
    )
    connection.execute("COMMIT")


def _bring_up_to_date(
    connection: duckdb.DuckDBPyConnection, path: Path, *, read_only: bool
) -> None:
    version = _schema_version(connection, path)
    newest = migrations()[-1][0]
    if version > newest:
        raise StoreError(
            f"{path} was written by a newer seasonboard "
            f"(schema {version}; this one knows {newest}).",
            "Update seasonboard; the store was left as it is.",
        )
    if version < newest and read_only:
        raise StoreError(
            f"{path} was written by an older seasonboard "
            f"(schema {version}; this one needs {newest}).",
            "Open it once for writing, for instance with “seasonboard load”.",
        )
    if version < newest:
        connection.execute("BEGIN")
        for step, sql in migrations():
            if step > version:
                connection.execute(sql)
        connection.execute(
            "UPDATE store.about SET value = $1 WHERE name = 'schema_version'", [str(newest)]
        )
        connection.execute("COMMIT")


def _schema_version(connection: duckdb.DuckDBPyConnection, path: Path) -> int:
    try:
        about = dict(connection.sql("SELECT name, value FROM store.about").fetchall())
    except (duckdb.CatalogException, duckdb.BinderException):
        about = {}
    if about.get("mark") != MARK or not str(about.get("schema_version")).isdecimal():
        raise StoreError(f"{path} is not a seasonboard store.", "Name another file with --store.")
    return int(about["schema_version"])


def _roll_back(cursor: duckdb.DuckDBPyConnection) -> None:
    try:
        cursor.execute("ROLLBACK")
    except duckdb.Error:
        return  # DuckDB has already ended the transaction


def _question(name: str, params: Mapping[str, object]) -> Question:
    question = catalogue().get(name)
    if question is None:
        raise StoreError(f"There is no question “{name}” in queries/.")
    if extra := params.keys() - question.params.keys():
        raise StoreError(f"“{question.asks}” takes no parameter {', '.join(sorted(extra))}.")
    return question
