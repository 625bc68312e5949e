"""What is said when a store cannot be opened, read or written: what, where, and what to do."""

import os
import re
from collections.abc import Callable, Sequence
from pathlib import Path

from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.store.backup_names import newest_backup

NO_ROOM = re.compile(
    r"no space left|file too large|disk quota|not enough space|disk full", re.IGNORECASE
)
DAMAGED = re.compile(
    r"could not read enough bytes|corrupt database file|checksum|failed to deserialize|"
    r"serialization error|not a valid.*block",
    re.IGNORECASE,
)
LOG = "Failure while replaying WAL"
MAGIC = b"DUCK"
HELD = re.compile("Conflicting lock|Could not set lock")
"""What DuckDB says of a file that another process holds."""


def missing(path: Path) -> StoreError:
    """Say that there is no such store."""
    if newest := newest_backup(path):
        return StoreError(
            f"There is no store at {path}, but there are backups of it, "
            f"the newest {newest.sentence}.",
            f"Take it back with “seasonboard restore --store {path}”.",
        )
    return StoreError(
        f"There is no store at {path}.",
        "Make one with “seasonboard load FOLDER --store FILE”, or look at the sample season with "
        "“seasonboard --sample”.",
    )


def not_a_store(path: Path) -> StoreError:
    """Say that a file is something else, or nothing."""
    if path.is_dir():
        what = f"{path} is a folder, and is not a seasonboard store."
        return StoreError(what, "Name a file with --store.")
    other = "Name another file with --store."
    if not path.is_file():
        return StoreError(f"{path} is no ordinary file, and is not a seasonboard store.", other)
    empty = "is empty, and " if path.stat().st_size == 0 else ""
    what = f"{path} {empty}is not a seasonboard store."
    return StoreError(what, _take_back(path) or other)


def damaged(path: Path, said: str) -> StoreError:
    """Say that a store is cut off or otherwise damaged, and offer its newest backup."""
    return StoreError(
        f"The store {path} is damaged or cut off; it was left as it is ({_short(said)}).",
        _take_back(path)
        or f"There is no backup of it in {path.name}.backups: copy the file again from where it "
        "came, or load the season's tables into a new store.",
    )


def log_unreadable(path: Path, said: str) -> StoreError:
    """Say that the log beside a store cannot be read; a reader may not move it."""
    return StoreError(
        f"The log {path}.wal beside the store cannot be read ({_short(said)}).",
        f"“seasonboard verify --store {path}” sets it aside, keeps it, and opens the store as it "
        "was before.",
    )


def opening_error(path: Path, said: str) -> StoreError:
    """Return why DuckDB, which `said` so, would not open a file."""
    for pattern, reason in _REASONS:
        if pattern.search(said):
            return reason(path, said)
    if not path.exists():
        return forbidden(path.parent, to="write to")
    if not _may(path, os.R_OK) or "Permission denied" in said:
        return forbidden(path)
    return StoreError(f"The store {path} could not be opened.", said)


def _locked(path: Path, said: str) -> StoreError:
    holder = re.search(r"\(PID (\d+)\)", said)
    return in_use(path, f"process {holder[1]}" if holder else "another process")


def _of_newer_duckdb(path: Path, _said: str) -> StoreError:
    return StoreError(
        f"{path} was written by a newer version of DuckDB than this one reads.",
        "Update seasonboard; the store was left as it is.",
    )


def _damaged_or_other(path: Path, said: str) -> StoreError:
    with path.open("rb") as file:
        is_a_database = MAGIC in file.read(16)
    return damaged(path, said) if is_a_database else not_a_store(path)


def in_use(path: Path, by: str) -> StoreLockedError:
    """Say who holds a store."""
    return StoreLockedError(
        f"The store {path} is in use by {by}.",
        "Close seasonboard there, or answer what it asks there, then try again.",
    )


def forbidden(path: Path, *, to: str = "read") -> StoreError:
    """Say that this user may not read or write a file, or write its folder."""
    return StoreError(
        f"You may not {to} {path}; nothing was changed.",
        f"Ask whoever owns it for permission to {to} it, or name another file with --store.",
    )


def writing_error(path: Path | None, said: str) -> StoreError:
    """Return why a transaction was not written, in words; it has been rolled back."""
    if path is not None and NO_ROOM.search(said):
        return StoreError(
            f"There is no room left to write {path}; nothing was changed.",
            f"Make room on that disk, then try again ({_short(said)}).",
        )
    if path is not None and DAMAGED.search(said):
        return damaged(path, said)
    return StoreError("The store could not be written; nothing was changed.", said)


def reading_hint(said: str) -> str:
    """Return what to do when a question failed."""
    if not DAMAGED.search(said):
        return said
    return f"The store is damaged: take a backup back with “seasonboard restore” ({_short(said)})."


def may_write(path: Path) -> bool:
    """Say whether this user may write a file, or make files in a folder."""
    return _may(path, os.W_OK)


def _may(path: Path, mode: int) -> bool:
    return os.access(path, mode, effective_ids=os.access in os.supports_effective_ids)


def _take_back(path: Path) -> str:
    newest = newest_backup(path)
    if newest is None:
        return ""
    command = f"“seasonboard restore --store {path}”"
    return f"Its newest backup is {newest.sentence}: take it back with {command}."


def _short(said: str) -> str:
    """Return the last sentence of a message of DuckDB's, without its kind in front."""
    said = said.splitlines()[0].rpartition("Original error: ")[2]
    return re.sub(r"^(\w+ )?\w*(Error|Context Error): ", "", said).strip().rstrip(".")


_REASONS: Sequence[tuple[re.Pattern[str], Callable[[Path, str], StoreError]]] = (
    (HELD, _locked),
    (re.compile("Unique file handle conflict"), lambda path, _: in_use(path, "this very process")),
    (re.compile(LOG), log_unreadable),
    (re.compile("newer version|version number"), _of_newer_duckdb),
    (re.compile("not a valid DuckDB database"), lambda path, _: not_a_store(path)),
    (NO_ROOM, writing_error),
    (DAMAGED, _damaged_or_other),
)
