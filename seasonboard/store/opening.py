"""Opening a store's file: looked at before it is written to, and refused in a sentence."""

from dataclasses import dataclass
from pathlib import Path

import duckdb

from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.store import schema
from seasonboard.store.attaching import attach, attach_store, connect, quoted
from seasonboard.store.backup_names import folder_of
from seasonboard.store.backups import back_up, is_whole
from seasonboard.store.open_errors import (
    LOG,
    NO_ROOM,
    damaged,
    forbidden,
    may_write,
    missing,
    not_a_store,
    opening_error,
    writing_error,
)
from seasonboard.store.write_ahead_log import (
    has_log,
    log_of,
    remove_store,
    set_aside_sentence,
    set_log_aside,
)


@dataclass(frozen=True, slots=True)
class OpenedFile:
    """A connection with the file attached as `store`, and what the person should be told of it."""

    connection: duckdb.DuckDBPyConnection
    notes: tuple[str, ...] = ()


def in_memory() -> OpenedFile:
    """Make an empty store that lives only in memory."""
    connection = connect()
    connection.execute("ATTACH ':memory:' AS store")
    schema.make(connection)
    return OpenedFile(connection)


def open_file(path: Path, *, read_only: bool) -> OpenedFile:
    """Open a store's file, as `open_store` describes it.

    Raises:
        StoreLockedError, StoreError: As `open_store`.
    """
    connection = connect()
    try:
        if read_only:
            notes = _for_reading(connection, path)
        elif _is_there(path):
            notes = _for_writing(connection, path)
        else:
            notes = _new_file(connection, path)
        if not read_only:  # SQL reaches no other file but, for those who write, the backups
            connection.execute(f"SET allowed_directories = [{quoted(f'{folder_of(path)}/')}]")
        connection.execute("SET enable_external_access = false")
    except duckdb.Error as error:
        connection.close()
        if NO_ROOM.search(str(error)):
            raise writing_error(path, str(error)) from error
        raise StoreError(
            f"The store {path} could not be made or brought up to date; nothing was changed.",
            str(error),
        ) from error
    except BaseException:
        connection.close()
        raise
    return OpenedFile(connection, notes)


def refuse_held(path: Path) -> None:
    """Refuse a file that another process holds; whatever else it is does not matter.

    Raises:
        StoreLockedError: Another process holds it.
    """
    connection = connect()
    try:
        attach_store(connection, path, read_only=True)
    except StoreLockedError:
        raise
    except StoreError:
        return
    finally:
        connection.close()


def _is_there(path: Path) -> bool:
    try:
        is_there = path.exists()
    except OSError as error:  # a folder on the way that may not be entered
        raise forbidden(path.parent) from error
    if is_there and not path.is_file():
        raise not_a_store(path)
    return is_there


def _new_file(connection: duckdb.DuckDBPyConnection, path: Path) -> tuple[str, ...]:
    if not path.parent.is_dir():
        raise StoreError(f"The folder {path.parent} does not exist.", "Make it, or name another.")
    if not may_write(path.parent):
        raise forbidden(path.parent, to="write to")
    notes = (set_aside_sentence(path, set_log_aside(path), None),) if has_log(path) else ()
    try:
        attach_store(connection, path, read_only=False)
        schema.make(connection)
    except StoreLockedError:  # somebody else made it meanwhile
        raise
    except BaseException:
        connection.close()
        remove_store(path)
        raise
    return notes


def _for_reading(connection: duckdb.DuckDBPyConnection, path: Path) -> tuple[str, ...]:
    if not _is_there(path):
        raise missing(path)
    attach_store(connection, path, read_only=True)
    schema.refuse_older(path, _looked_at(connection, path))
    return ()


def _for_writing(connection: duckdb.DuckDBPyConnection, path: Path) -> tuple[str, ...]:
    """Look at the file first, since attaching for writing may already write to it."""
    for where in (path, path.parent):
        if not may_write(where):
            raise forbidden(where, to="write to")
    version, aside = _looked_at_first(connection, path)
    connection.execute("DETACH store")
    attach_store(connection, path, read_only=False)
    if has_log(path):
        connection.execute("DETACH store")  # takes what the log holds into the file
        if has_log(path):  # DuckDB skipped what it could not make sense of
            aside = set_log_aside(path)
        attach_store(connection, path, read_only=False)
    if version < schema.newest_version():
        back_up(connection, path, f"before schema {schema.newest_version()}")
        schema.bring_up_to_date(connection, version)
    return (set_aside_sentence(path, aside, connection),) if aside else ()


def _looked_at_first(connection: duckdb.DuckDBPyConnection, path: Path) -> tuple[int, Path | None]:
    """Attach the file for reading; return its version, and where its log went if it is no good."""
    aside = None
    try:
        attach(connection, path, read_only=True)
    except duckdb.Error as error:
        if LOG not in str(error):
            raise opening_error(path, str(error)) from error
        aside = set_log_aside(path)
    try:
        if aside is not None:
            attach_store(connection, path, read_only=True)
        return _looked_at(connection, path), aside
    except BaseException:
        if aside is not None:  # the file is no store of ours, or damaged too: leave both alone
            aside.rename(log_of(path))
        raise


def _looked_at(connection: duckdb.DuckDBPyConnection, path: Path) -> int:
    """Return the schema version of the attached file, which is sound and not too new."""
    try:
        version = schema.known_version_of(connection, path)
    except duckdb.Error as error:
        raise damaged(path, str(error)) from error
    if said := is_whole(connection, path):
        raise damaged(path, said)
    return version
