"""Stores that are made once: files for all workers, and connections in memory used again.

Half of what a small store in memory costs is DuckDB itself and the macros that all stores share.
Those stay; the tables of each store are new.
"""

import os
from collections.abc import Callable, Mapping, Sequence
from fcntl import LOCK_EX, flock
from pathlib import Path

import duckdb
import polars as pl
import pytest

from seasonboard.store.catalogue import catalogue
from seasonboard.store.cursor_pool import CursorPool
from seasonboard.store.store import Store, memory_store

_KEPT = 8
_idle: list[duckdb.DuckDBPyConnection] = []


class ReusedStore(Store):
    """A store in memory whose connection serves another store once this one is closed."""

    def __init__(self) -> None:
        """Take an idle connection with an empty store on it, or one of a new store."""
        self.path = None
        self.notes = ()
        self._connection = _emptied(_idle.pop()) if _idle else _made()
        self._cursors = CursorPool(self._connection)
        self._is_open = True

    def read_each(
        self, asked: Sequence[tuple[str, Mapping[str, object]]]
    ) -> tuple[pl.DataFrame, ...]:
        """Put several questions at one desk: at two, each makes the same working tables."""
        return tuple(self._cursors.rows([(catalogue()[name], params) for name, params in asked]))

    def close(self) -> None:
        """Stop what is running and let go of the tables."""
        self._cursors.close()
        if self._is_open and len(_idle) < _KEPT:
            _idle.append(self._connection)
        elif self._is_open:
            self._connection.close()
        self._is_open = False


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], object]) -> Path:
    """Return a folder that one worker of a run fills, and the others wait for."""
    base = factory.getbasetemp()
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    folder = shared / f"once-{name}"
    with (shared / f"once-{name}.lock").open("w") as lock:
        flock(lock, LOCK_EX)
        if not folder.exists():
            make(making := factory.mktemp(name))
            making.rename(folder)
    return folder


def _made() -> duckdb.DuckDBPyConnection:
    connection = memory_store()._connection
    connection.execute("SET GLOBAL threads = 1")  # a test's few rows are counted by one
    connection.execute("ATTACH ':memory:' AS empty; COPY FROM DATABASE store TO empty")
    return connection


def _emptied(connection: duckdb.DuckDBPyConnection) -> duckdb.DuckDBPyConnection:
    connection.execute("DETACH store; ATTACH ':memory:' AS store")
    connection.execute("COPY FROM DATABASE empty TO store")
    return connection
