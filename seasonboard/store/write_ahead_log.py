"""The log beside a store (FILE.wal): what was committed but does not stand in the file yet.

A commit of ours goes into the file itself, so a log is left only when the program or the machine
was stopped in the middle of one. One that cannot be read is set aside and never deleted.
"""

from pathlib import Path

import duckdb

from seasonboard.errors import StoreError
from seasonboard.store.backup_names import set_aside_name


def log_of(path: Path) -> Path:
    """Return where the log of a store lies."""
    return path.with_name(f"{path.name}.wal")


def remove_store(path: Path) -> None:
    """Remove a store that is not wanted, half made as it may be, and its log."""
    path.unlink(missing_ok=True)
    log_of(path).unlink(missing_ok=True)


def has_log(path: Path) -> bool:
    """Say whether there is a log with anything in it."""
    log = log_of(path)
    return log.exists() and (not log.is_file() or log.stat().st_size > 0)


def set_log_aside(path: Path) -> Path:
    """Rename the log of a store; return its new name.

    Raises:
        StoreError: It cannot be renamed; nothing was changed.
    """
    log = log_of(path)
    aside = set_aside_name(log)
    try:
        log.rename(aside)
    except OSError as error:
        raise StoreError(
            f"The log {log} cannot be read, and cannot be set aside either: {error.strerror}.",
            "Make the folder writable, or move that file elsewhere by hand; do not delete it.",
        ) from error
    return aside


def set_aside_sentence(
    path: Path, aside: Path, connection: duckdb.DuckDBPyConnection | None
) -> str:
    """Return the sentence that says what may be missing."""
    start = (
        f"What was being written when {path.name} was last in use cannot be read; it was set aside "
        f"as {aside}, not deleted."
    )
    if connection is None:
        return start
    ((load_no, loaded_at),) = connection.execute(
        "SELECT max(load_no), max(loaded_at) FROM store.loads"
    ).fetchall()
    if load_no is None:
        return f"{start} The store holds no load: load again what is missing."
    return (
        f"{start} The store is as it was after load {load_no} of {loaded_at:%Y-%m-%d %H:%M} UTC: "
        "load again what came after it."
    )
