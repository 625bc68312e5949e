"""Backups of a store, made through DuckDB, read again, and only then given their name."""

import os
from contextlib import suppress
from pathlib import Path

import duckdb

from seasonboard.errors import StoreError
from seasonboard.store.attaching import (
    attach_store,
    attached,
    connect,
    contents,
    counts,
    is_cut_short,
)
from seasonboard.store.backup_names import BY_HAND, KEPT, backups_of, next_backup, surplus
from seasonboard.store.open_errors import DAMAGED, damaged, missing, not_a_store, opening_error
from seasonboard.store.schema import known_version_of
from seasonboard.store.write_ahead_log import remove_store
from seasonboard.store_outcomes import Backup, ListedBackup

OWN = {"about", "kinds"}
"""Tables that also a store without any load has rows in."""
MAKING = "making"


def back_up(
    connection: duckdb.DuckDBPyConnection, path: Path, cause: str, *, keep_all: bool = False
) -> Backup | None:
    """Back up the attached file `store`, which this process alone writes to.

    `cause` says why in words, such as “before load 4”; `keep_all` leaves the removal of older
    backups to a later call of `forget_old`.

    Returns:
        The backup; None when the store holds nothing yet.

    Raises:
        StoreError: It could not be made or read again; the store is unchanged and no half of a
            backup is left.
    """
    try:
        if not any(rows for table, rows in counts(connection).items() if table not in OWN):
            return None
    except duckdb.Error as error:
        raise damaged(path, str(error)) from error
    backup = next_backup(path, cause)
    folder = backup.path.parent
    is_new = not folder.exists()
    try:
        folder.mkdir(exist_ok=True)
        _clear_remains(folder)
        copy_whole(connection, path, backup.path)
    except (duckdb.Error, OSError) as error:
        if is_new:
            with suppress(OSError):
                folder.rmdir()
        raise _not_made(path, folder, cause, error) from error
    if not keep_all:
        forget_old(path)
    return backup


def forget_old(path: Path) -> None:
    """Remove the oldest backups that the program itself made, beyond the newest few."""
    for one in surplus(path):
        one.path.unlink(missing_ok=True)


def back_up_by_hand(path: Path, out: Path | None) -> Path:
    """Back a store up because somebody asked for it; others may read it meanwhile.

    Without `out` the backup lies among the others, where it is kept until it is removed.

    Raises:
        StoreError: The store cannot be opened, or the backup not be made.
    """
    if not path.exists():
        raise missing(path)
    target = out or next_backup(path, BY_HAND).path
    if target.exists():
        raise StoreError(f"{target} is already there; it was left as it is.", "Name another file.")
    connection = connect()
    try:
        _attach_to_read(connection, path)
        if out is None:
            target.parent.mkdir(exist_ok=True)
        copy_whole(connection, path, target)
    except (duckdb.Error, OSError) as error:
        raise _not_made(path, target.parent, "", error) from error
    finally:
        connection.close()
    return target


def _attach_to_read(connection: duckdb.DuckDBPyConnection, path: Path) -> None:
    if not path.is_file():
        raise not_a_store(path)
    attach_store(connection, path, read_only=True)
    known_version_of(connection, path)


def list_backups(path: Path) -> tuple[ListedBackup, ...]:
    """Return a store's backups, the newest first, with the rows of each table."""
    return tuple(_listed(one) for one in backups_of(path))


def _listed(one: Backup) -> ListedBackup:
    connection = connect()
    try:
        _attach_to_read(connection, one.path)
        return ListedBackup(one, counts(connection))
    except duckdb.Error as error:
        return ListedBackup(one, {}, opening_error(one.path, str(error)).what)
    except StoreError as error:
        return ListedBackup(one, {}, error.what)
    finally:
        connection.close()


def copy_whole(
    connection: duckdb.DuckDBPyConnection, path: Path, target: Path, name: str = "store"
) -> None:
    """Copy an attached file to `target`, which only gets that name once it has been read again.

    Raises:
        duckdb.Error, OSError: It could not be made; nothing of it is left.
        StoreError: The file itself is damaged, or the copy read otherwise.
    """
    making = target.with_name(f".{target.name}.{os.getpid()}.{MAKING}")
    try:
        try:
            before = contents(connection, name)
        except duckdb.Error as error:
            raise damaged(path, str(error)) from error
        with attached(connection, making, read_only=False, name="copied"):
            connection.execute(f"COPY FROM DATABASE {name} TO copied")
        with attached(connection, making, read_only=True, name="copied"):
            if contents(connection, "copied") != before:
                raise StoreError(
                    f"The copy of {path} read otherwise than it does; it was thrown away.",
                    "Try again; if it happens again, the disk may be at fault.",
                )
        making.replace(target)
        sync_folder(target.parent)
    finally:
        remove_store(making)


def sync_folder(folder: Path) -> None:
    """Make a rename in a folder outlast a power cut, where the system can."""
    with suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)


def is_whole(connection: duckdb.DuckDBPyConnection, path: Path) -> str:
    """Read a file as a whole if it may be cut off; return what DuckDB said, empty when sound."""
    try:
        if is_cut_short(connection, path):
            contents(connection)
    except duckdb.Error as error:
        return str(error)
    return ""


def _not_made(path: Path, folder: Path, cause: str, error: Exception) -> StoreError:
    said = str(error)
    if DAMAGED.search(said):
        return damaged(path, said)
    which = f"The backup {cause}" if cause else "The backup"
    onward = "" if cause else ", or name another place with --out"
    if "load" in cause:
        onward = ", or go on without a backup with --no-backup"
    return StoreError(
        f"{which} could not be made in {folder}, so nothing was changed ({said.splitlines()[0]}).",
        f"Make room there or make the folder writable{onward}; {KEPT} backups are kept.",
    )


def _clear_remains(folder: Path) -> None:
    """Remove what an interrupted backup left; only one process writes to a store at a time."""
    for left in folder.glob(f".*.{MAKING}*"):
        left.unlink(missing_ok=True)
