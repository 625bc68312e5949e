"""Taking a backup back: read as a whole, brought up to date, then put in place by one rename."""

import os
import shutil
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

import duckdb

from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.interruption import no_longer
from seasonboard.store import schema
from seasonboard.store.attaching import attach, attached, connect, counts
from seasonboard.store.backup_names import backups_of, folder_of, set_aside_name
from seasonboard.store.backups import back_up, copy_whole, forget_old, sync_folder
from seasonboard.store.file_rights import keep_rights
from seasonboard.store.open_errors import damaged, forbidden, may_write, not_a_store, opening_error
from seasonboard.store.write_ahead_log import has_log, log_of, remove_store, set_log_aside
from seasonboard.store_outcomes import Replacement

RESTORING = "restoring"


def restore_path(
    store_path: Path, backup: str | None, *, confirm: Callable[[Replacement], bool]
) -> Path | None:
    """Put a backup in the place of a store; what stands there is set aside, not deleted.

    `backup` is a backup's number or file; None is the newest. `confirm` is shown what would be
    replaced; nothing is written unless it returns true.

    Returns:
        Where the replaced store now lies (`store_path` itself when there was nothing to keep); None
        when it was not confirmed.

    Raises:
        StoreLockedError: The store is in use.
        StoreError: There is no such backup, it cannot be read, or it could not be put in place.
            The store is as it was.
    """
    path = store_path.resolve()
    source, told = _chosen(path, backup)
    if source.resolve() == path:
        raise StoreError(f"{source} is the store itself.", "Name one of its backups.")
    then = _read(source)
    if not may_write(path.parent):
        raise forbidden(path.parent, to="write to")
    with _locked(path) as (connection, why):
        now = {} if connection is None else counts(connection)
        if not confirm(Replacement(source, told, now, then, why)):
            return None
        fresh = path.with_name(f".{path.name}.{RESTORING}")
        try:
            _make_fresh(source, fresh)
            kept = _set_aside(connection, path)
            no_longer()
            keep_rights(path, fresh)
            fresh.replace(path)
        except OSError as error:
            raise StoreError(
                f"The backup could not be put in the place of {path}: {error.strerror}; the store "
                "is as it was.",
                "Make room, or make the folder writable, then try again.",
            ) from error
        finally:
            remove_store(fresh)
        sync_folder(path.parent)
    forget_old(path)
    return kept


def _chosen(path: Path, backup: str | None) -> tuple[Path, str]:
    """Return the backup that is meant, and which it is in words."""
    backups = backups_of(path)
    if backup is None and not backups:
        raise StoreError(
            f"There are no backups of {path} in {folder_of(path)}.", "Name a backup's file."
        )
    if backup is not None and not backup.isdecimal():
        return Path(backup), backup
    meant = [one for one in backups if backup is None or one.number == int(backup)]
    if meant:
        return meant[0].path, meant[0].sentence
    numbers = ", ".join(str(one.number) for one in backups) or "none"
    raise StoreError(f"There is no backup number {backup} of {path}.", f"There are: {numbers}.")


def _read(source: Path) -> Mapping[str, int]:
    """Read every cell of a backup; return its rows by table."""
    if not source.exists():
        raise StoreError(f"There is no backup at {source}.", "Look at “seasonboard backup --list”.")
    if not source.is_file():
        raise not_a_store(source)
    connection = connect()
    try:
        attach(connection, source, read_only=True)
        schema.known_version_of(connection, source)
        return counts(connection)
    except duckdb.Error as error:
        raise StoreError(
            f"The backup {source} cannot be used. {opening_error(source, str(error)).what}",
            "Choose another from “seasonboard backup --list”.",
        ) from error
    finally:
        connection.close()


@contextmanager
def _locked(path: Path) -> Iterator[tuple[duckdb.DuckDBPyConnection | None, str]]:
    """Hold the store so that nobody else opens it, and say why it cannot be read, if so.

    A file that is no store at all is only given up to a backup of its own.
    """
    connection = connect()
    try:
        why = _attached_why(connection, path) if path.exists() else ""
        yield (None if why or not path.exists() else connection), why
    finally:
        connection.close()


def _attached_why(connection: duckdb.DuckDBPyConnection, path: Path) -> str:
    if not path.is_file():
        raise not_a_store(path)
    try:
        attach(connection, path, read_only=True)
        schema.version_of(connection, path)
        counts(connection)
        connection.execute("DETACH store")
        attach(connection, path, read_only=False)
    except duckdb.Error as error:
        refused = opening_error(path, str(error))
    except StoreError as error:
        refused = error
    else:
        return ""
    with suppress(duckdb.Error):
        connection.execute("DETACH store")
    if isinstance(refused, StoreLockedError) or not backups_of(path):
        raise refused
    return refused.what


def _make_fresh(source: Path, fresh: Path) -> None:
    """Copy a backup beside the store's place, bring it up to date and read it again."""
    remove_store(fresh)
    connection = connect()
    try:
        with attached(connection, source, read_only=True, name="source"):
            version = schema.known_version_of(connection, source, "source")
            copy_whole(connection, source, fresh, "source")
        if version < schema.newest_version():
            with attached(connection, fresh, read_only=False, name="store"):
                schema.bring_up_to_date(connection, version)
        with attached(connection, fresh, read_only=True, name="store"):
            counts(connection)
    except duckdb.Error as error:
        raise StoreError(
            f"The backup {source} could not be copied or brought up to date; the store is as it "
            "was.",
            str(error),
        ) from error
    finally:
        connection.close()


def _set_aside(connection: duckdb.DuckDBPyConnection | None, path: Path) -> Path:
    """Keep what stands in the store's place: as a backup, or under another name if damaged."""
    if connection is not None:
        try:
            backup = back_up(connection, path, "before restore", keep_all=True)
            connection.execute("CHECKPOINT store")
        except duckdb.Error as error:
            raise damaged(path, str(error)) from error
        if has_log(path):
            set_log_aside(path)
        return backup.path if backup else path
    if has_log(path):
        set_log_aside(path)
    log_of(path).unlink(missing_ok=True)  # an empty one
    if not path.exists():
        return path
    aside = set_aside_name(path)
    try:
        os.link(path, aside)  # a second name, so that the store's own is never without a file
    except OSError:  # a disk that has no second names
        shutil.copy2(path, aside)
    return aside
