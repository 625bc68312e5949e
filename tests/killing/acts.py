"""What is killed: each act runs in a process of its own and says when it begins and has ended."""

from collections.abc import Callable
from multiprocessing.connection import Connection
from pathlib import Path

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store import catalogue, schema
from seasonboard.store.backups import back_up_by_hand
from seasonboard.store.cursor_pool import CursorPool
from seasonboard.store.intake import write
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.undo import undo_path
from seasonboard.store.restoring import restore_path
from seasonboard.store.store import open_store, verify_store

NEXT = (
    catalogue.migrations()[-1][0] + 1,
    "ALTER TABLE store.roster ADD COLUMN height_cm DOUBLE;"
    "CREATE TABLE store.added AS SELECT * FROM store.attendance;"
    "UPDATE store.roster SET name = upper(name);",
)
"""A made-up schema step that adds, copies and changes."""


def know_next_schema() -> None:
    """Let this process know one schema step more."""
    steps = (*catalogue.migrations(), NEXT)
    schema.migrations = lambda: steps


def _yes(_shown: object) -> bool:
    return True


def _load(store: Path, folder: Path, ready: Callable[[], None]) -> None:
    ready()
    load_paths(store, [folder], UnattendedLoad())


def _commit(store: Path, folder: Path, ready: Callable[[], None]) -> None:
    """Load, and begin with the commit, which goes into the file at once."""
    write.no_longer = ready
    load_paths(store, [folder], UnattendedLoad())


def _checkpoint(store: Path, folder: Path, ready: Callable[[], None]) -> None:
    """Load into the log, as another program might, and begin with the checkpoint."""
    from seasonboard.store import attaching

    attaching.COMMIT_AND_CHECKPOINT = "1TB"
    whole = CursorPool.checkpoint

    def checkpoint(desks: CursorPool) -> None:
        ready()
        whole(desks)

    CursorPool.checkpoint = checkpoint
    load_paths(store, [folder], UnattendedLoad())


def _undo(store: Path, _folder: Path, ready: Callable[[], None]) -> None:
    ready()
    undo_path(store, confirm=_yes)


def _migrate(store: Path, _folder: Path, ready: Callable[[], None]) -> None:
    know_next_schema()
    ready()
    verify_store(store, tell=_yes)


def _back_up(store: Path, _folder: Path, ready: Callable[[], None]) -> None:
    ready()
    back_up_by_hand(store, None)


def _restore(store: Path, _folder: Path, ready: Callable[[], None]) -> None:
    ready()
    restore_path(store, "1", confirm=_yes)


ACTS = {
    "load": _load, "first load": _load, "commit": _commit, "checkpoint": _checkpoint, "undo": _undo,
    "migration": _migrate, "backup": _back_up, "restore": _restore,
}  # fmt: skip


def _torn(store: Path, folder: Path, ready: Callable[[], None]) -> None:
    """Load in two transactions, as no load may: what the harness has to notice."""
    with open_store(store, read_only=False) as opened, opened.writing() as cursor:
        cursor.execute("UPDATE store.teams SET sport = 'torn'")
    _load(store, folder, ready)


WRONG = {"torn load": _torn}
"""Acts that are not whole or absent."""


def act(name: str, store: Path, folder: Path, line: Connection) -> None:
    """Do one act; send “begun” and “done” down the line."""
    {**ACTS, **WRONG}[name](store, folder, lambda: line.send("begun"))
    line.send("done")
