"""The whole of a load, as the command line does it: plan, ask, write."""

import shutil
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.load_dialog import LoadDialog
from seasonboard.store.backups import sync_folder
from seasonboard.store.intake.plan import LoadPlan, plan_load
from seasonboard.store.intake.problems import counted
from seasonboard.store.intake.rejects import write_rejects
from seasonboard.store.intake.write import write_load
from seasonboard.store.opening import refuse_held
from seasonboard.store.store import Store, memory_store, open_store
from seasonboard.store.write_ahead_log import (
    has_log,
    remove_store,
    set_aside_sentence,
    set_log_aside,
)


def load_paths(store_path: Path, paths: Sequence[Path], dialog: LoadDialog) -> LoadPlan | None:
    """Load files into the store at `store_path`, making it when there is none.

    A new store is made beside its place and moved there once it is whole, so an interrupted first
    load leaves no store rather than half of one.

    The paths are as for `plan_load`. The dialog says what is wished and is shown the plan.

    Returns:
        The plan that was written; None when it was not confirmed, or had nothing new or changed.

    Raises:
        IntakeError: Something cannot be taken; nothing was written and no file made.
        StoreError: The store is in use, is not a store, or could not be written.
    """
    try:
        is_first = not store_path.exists()
    except OSError as error:
        said = f"The store {store_path} cannot be opened: {error.strerror}."
        raise StoreError(said, "Name another file with --store.") from error
    if is_first:
        return _first_load(store_path, paths, dialog)
    with open_store(store_path, read_only=not dialog.options.write) as store:
        return load_into(store, paths, dialog)


def load_into(store: Store, paths: Sequence[Path], dialog: LoadDialog) -> LoadPlan | None:
    """Load files into an open store; all else as `load_paths`."""
    for note in store.notes:
        dialog.tell(note)
    plan = plan_load(store, paths, replace(dialog.options, store=store.path), dialog)
    if not dialog.confirm(plan.summary):
        return None
    with _rejects_kept(store.path, plan, dialog):
        if dialog.options.backup and not plan.is_empty:
            backup = store.back_up(f"before load {plan.after_load + 1}")
            if backup:
                dialog.tell(f"Backed up to {backup}.")
        heard = len(store.notes)
        write_load(store, plan)
        for note in store.notes[heard:]:
            dialog.tell(note)
    return None if plan.is_empty else plan


def _first_load(store_path: Path, paths: Sequence[Path], dialog: LoadDialog) -> LoadPlan | None:
    if not store_path.parent.is_dir():
        raise StoreError(
            f"The folder {store_path.parent} does not exist.", "Make it, or name another."
        )
    with memory_store() as empty:
        plan = plan_load(empty, paths, replace(dialog.options, store=store_path), dialog)
    if not dialog.confirm(plan.summary):
        return None
    with _rejects_kept(store_path, plan, dialog):
        if not plan.is_empty:
            _make(store_path, plan, dialog)
    return None if plan.is_empty else plan


@contextmanager
def _rejects_kept(store_path: Path | None, plan: LoadPlan, dialog: LoadDialog) -> Iterator[None]:
    """Write the rejected rows first; take them away again when the load fails."""
    if not plan.rejected:
        yield
        return
    folder = dialog.options.rejects or Path(f"{store_path}.rejects")
    try:
        rejects = write_rejects(folder, plan.rejected)
    except OSError as error:
        raise StoreError(
            f"The rejected rows could not be written to {folder}: {error.strerror}; nothing was "
            "changed.",
            "Name another folder with --rejects.",
        ) from error
    try:
        yield
    except BaseException:
        shutil.rmtree(rejects, ignore_errors=True)
        raise
    count = plan.summary.rejected
    dialog.tell(f"{counted(count, 'rejected row is', 'rejected rows are')} in {rejects}.")


def _make(store_path: Path, plan: LoadPlan, dialog: LoadDialog) -> None:
    making = store_path.with_name(f".{store_path.name}.making")
    _clear_remains(making)
    try:
        with open_store(making, read_only=False) as store:
            write_load(store, plan)
        _move(making, store_path, dialog)
    except StoreLockedError:
        raise
    except BaseException:
        remove_store(making)
        raise


def _move(making: Path, store_path: Path, dialog: LoadDialog) -> None:
    if store_path.exists():
        raise StoreError(
            f"The store {store_path} was made by another process meanwhile.",
            "Load the files again.",
        )
    if has_log(store_path):  # of a store that is gone; it must not meet the new one
        dialog.tell(set_aside_sentence(store_path, set_log_aside(store_path), None))
    making.replace(store_path)
    sync_folder(store_path.parent)


def _clear_remains(making: Path) -> None:
    """Remove what an interrupted first load left; one still running holds its lock."""
    if making.exists():
        refuse_held(making)
    remove_store(making)
