"""The whole of a load, as the command line does it: plan, ask, write."""

import shutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Protocol

from seasonboard.errors import StoreError, StoreLockedError
from seasonboard.store.backups import settle
from seasonboard.store.intake.load_options import LoadOptions
from seasonboard.store.intake.plan import LoadPlan, plan_load
from seasonboard.store.intake.rejects import write_rejects
from seasonboard.store.intake.write import write_load
from seasonboard.store.opening import refuse_held
from seasonboard.store.store import Store, memory_store, open_store
from seasonboard.store.write_ahead_log import has_log, set_log_aside, told_aside


class Dialogue(Protocol):
    """A person at the other end: what it wishes of the load, and what it says to the plan."""

    @property
    def wishes(self) -> Mapping[str, Any]:
        """Return the fields of `LoadOptions` that are wished otherwise."""
        ...

    def __call__(self, plan: LoadPlan, /) -> bool:
        """Look at the plan; true writes it."""
        ...


def load_paths(
    store_path: Path, paths: Sequence[Path], *, confirm: Callable[[LoadPlan], bool] | Dialogue
) -> LoadPlan | None:
    """Load files into the store at `store_path`, making it when there is none.

    A new store is made beside its place and moved there once it is whole, so an interrupted first
    load leaves no store rather than half of one.

    Args:
        store_path: The store's file.
        paths: Folders and files, as for `plan_load`.
        confirm: Is shown the plan; nothing is written unless it returns true. A `Dialogue` also
            says how the files are written and confirms mappings.

    Returns:
        The plan that was carried out; None when it was not confirmed.

    Raises:
        IntakeError: Something cannot be taken; nothing was written and no file made.
        StoreError: The store is in use, is not a store, or could not be written.
    """
    options = LoadOptions(**{"store": store_path, **getattr(confirm, "wishes", {})})
    if not store_path.exists():
        return _first_load(store_path, paths, confirm, options)
    with open_store(store_path, read_only=not options.write) as store:
        return load_into(store, paths, confirm, options)


def load_into(
    store: Store,
    paths: Sequence[Path],
    confirm: Callable[[LoadPlan], bool] | Dialogue,
    options: LoadOptions | None = None,
) -> LoadPlan | None:
    """Load files into an open store; all else as `load_paths`."""
    wishes = {"store": store.path, **getattr(confirm, "wishes", {})}
    options = options or LoadOptions(**wishes)
    _tell(store.notes, options)
    plan = plan_load(store, paths, options)
    if not confirm(plan):
        return None
    with _rejects_kept(plan, options):
        if options.backup and not plan.is_empty:
            _back_up(store, plan, options)
        met = len(store.notes)
        write_load(store, plan)
        _tell(store.notes[met:], options)
    return plan


def _back_up(store: Store, plan: LoadPlan, options: LoadOptions) -> None:
    if made := store.back_up(f"before load {plan.after_load + 1}"):
        options.tell(f"Backed up to {made}.")


def _tell(notes: Sequence[str], options: LoadOptions) -> None:
    for note in notes:
        options.tell(note)


def _first_load(
    store_path: Path,
    paths: Sequence[Path],
    confirm: Callable[[LoadPlan], bool],
    options: LoadOptions,
) -> LoadPlan | None:
    if not store_path.parent.is_dir():
        raise StoreError(
            f"The folder {store_path.parent} does not exist.", "Make it, or name another."
        )
    with memory_store() as empty:
        plan = plan_load(empty, paths, options)
    if not confirm(plan):
        return None
    with _rejects_kept(plan, options):
        if not plan.is_empty:
            _make(store_path, plan, options)
    return plan


@contextmanager
def _rejects_kept(plan: LoadPlan, options: LoadOptions) -> Iterator[None]:
    """Write the rejected rows first; take them away again when the load fails."""
    if not plan.rejected:
        yield
        return
    folder = options.rejects or Path(f"{options.store}.rejects")
    try:
        made = write_rejects(folder, plan.rejected)
    except OSError as error:
        raise StoreError(
            f"The rejected rows could not be written to {folder}: {error.strerror}; nothing was "
            "changed.",
            "Name another folder with --rejects.",
        ) from error
    try:
        yield
    except BaseException:
        shutil.rmtree(made, ignore_errors=True)
        raise
    count = plan.rejected_count
    many = "1 rejected row is" if count == 1 else f"{count:,} rejected rows are"
    options.tell(f"{many} in {made}.")


def _make(store_path: Path, plan: LoadPlan, options: LoadOptions) -> None:
    making = store_path.with_name(f".{store_path.name}.making")
    _clear_remains(making)
    try:
        with open_store(making, read_only=False) as store:
            write_load(store, plan)
        _move(making, store_path, options)
    except StoreLockedError:
        raise
    except BaseException:
        _remove(making)
        raise


def _move(making: Path, store_path: Path, options: LoadOptions) -> None:
    if store_path.exists():
        raise StoreError(
            f"The store {store_path} was made by another process meanwhile.",
            "Load the files again.",
        )
    if has_log(store_path):  # of a store that is gone; it must not meet the new one
        options.tell(told_aside(store_path, set_log_aside(store_path), None))
    making.replace(store_path)
    settle(store_path.parent)


def _clear_remains(making: Path) -> None:
    """Remove what an interrupted first load left; one still running holds its lock."""
    if making.exists():
        refuse_held(making)
    _remove(making)


def _remove(making: Path) -> None:
    making.unlink(missing_ok=True)
    making.with_name(f"{making.name}.wal").unlink(missing_ok=True)
