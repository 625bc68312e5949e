"""DuckDB itself: connections, attached files, and what their tables hold."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from time import monotonic, sleep

import duckdb

from seasonboard.store.open_errors import HELD, opening_error

COMMIT_AND_CHECKPOINT = "1KB"
"""Size of the log from which a commit goes into the file itself, at once.

A commit that runs out of room then fails as a whole. With the usual 16 MB it would succeed into the
log and fail in the checkpoint after it, which leaves a store that only opens once there is room.
"""

WAIT_S = 5.0
"""Seconds in which another program may come to the end of what it writes, or let go of the file."""
_PAUSE_S = 0.02


def connect() -> duckdb.DuckDBPyConnection:
    """Return a connection to an empty database in memory, to which files are attached."""
    connection = duckdb.connect(":memory:")
    connection.execute("SET TimeZone = 'UTC'")
    connection.execute(f"SET checkpoint_threshold = '{COMMIT_AND_CHECKPOINT}'")
    return connection


def quoted(text: object) -> str:
    """Return a text as SQL writes it, for statements that take no parameters."""
    return "'" + str(text).replace("'", "''") + "'"


def attach(
    connection: duckdb.DuckDBPyConnection, path: Path, *, read_only: bool, name: str = "store"
) -> None:
    """Attach a file; while another process holds it, wait for a few seconds.

    Raises:
        duckdb.Error: It cannot be.
    """
    mode = "READ_ONLY" if read_only else "READ_WRITE"
    end = monotonic() + WAIT_S
    while True:
        try:
            connection.execute(f"ATTACH {quoted(path)} AS {name} (TYPE duckdb, {mode})")
        except duckdb.IOException as error:
            if not HELD.search(str(error)) or monotonic() >= end:
                raise
            sleep(_PAUSE_S)
        else:
            return


def attach_store(connection: duckdb.DuckDBPyConnection, path: Path, *, read_only: bool) -> None:
    """Attach a file as `store`.

    Raises:
        StoreLockedError, StoreError: It cannot be, in words.
    """
    try:
        attach(connection, path, read_only=read_only)
    except duckdb.Error as error:
        raise opening_error(path, str(error)) from error


@contextmanager
def attached(
    connection: duckdb.DuckDBPyConnection, path: Path, *, read_only: bool, name: str
) -> Iterator[None]:
    """Attach a file for the time of the block.

    Raises:
        duckdb.Error: It cannot be, or what was written to it cannot be kept.
    """
    attach(connection, path, read_only=read_only, name=name)
    try:
        yield
    finally:
        connection.execute(f"DETACH {name}")


def tables_of(connection: duckdb.DuckDBPyConnection, name: str = "store") -> list[str]:
    """Return the names of an attached file's tables, in alphabetical order."""
    sql = (
        "SELECT table_name FROM duckdb_tables() WHERE database_name = $1 AND NOT internal "
        "ORDER BY table_name"
    )
    return [table for (table,) in connection.execute(sql, [name]).fetchall()]


def counts(connection: duckdb.DuckDBPyConnection, name: str = "store") -> Mapping[str, int]:
    """Return how many rows each table of an attached file has.

    Raises:
        duckdb.Error: A table cannot be read.
    """
    return {table: rows for table, (rows, _) in contents(connection, name).items()}


def contents(
    connection: duckdb.DuckDBPyConnection, name: str = "store"
) -> Mapping[str, tuple[int, int]]:
    """Read every cell of an attached file: rows and a sum over them by table, whatever their order.

    Raises:
        duckdb.Error: A table cannot be read.
    """
    tables = {}
    for table in tables_of(connection, name):
        (row,) = connection.execute(
            f'SELECT count(*), coalesce(sum(hash(one)), 0) FROM {name}."{table}" AS one'  # noqa: S608 - names from the file's own catalogue
        ).fetchall()
        tables[table] = (int(row[0]), int(row[1]))
    return tables


def is_cut_short(connection: duckdb.DuckDBPyConnection, path: Path) -> bool:
    """Say whether a file is shorter than its header counts blocks, which may be quite in order.

    DuckDB cuts free blocks off the end of a file, for instance after a large load was taken back,
    and goes on counting them. So this is only the reason to read such a file as a whole.
    """
    (sizes,) = connection.execute(
        "SELECT total_blocks * block_size FROM pragma_database_size() WHERE database_name = 'store'"
    ).fetchall()
    return path.stat().st_size < int(sizes[0])
