"""Writes what is entered on the board into the store that the board reads."""

from collections.abc import Sequence
from pathlib import Path

from seasonboard.entries import Entry, Written
from seasonboard.load_dialog import LoadDialog
from seasonboard.store.intake.load_files import load_into
from seasonboard.store.intake.plan import LoadPlan, plan_entry
from seasonboard.store.intake.undo import last_load, plan_undo, undo_last_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.reopening_store import ReopeningStore
from seasonboard.store.store import Store
from seasonboard.store_outcomes import UndoneLoad


class StoreEntryWriter:
    """Keeps entries in a held store; the first of a sitting is preceded by a backup.

    Backing up before each of many small entries would push out older backups within minutes; every
    entry can be taken back by itself. Each method raises what that of `EntryWriter` does.
    """

    def __init__(self, held: ReopeningStore) -> None:
        """Write into `held`."""
        self._held = held
        self._is_backed_up = False

    def look(self, entry: Entry) -> Written:
        """Check an entry; nothing is written."""
        return self._held.ask(lambda store: _written(plan_entry(store, entry), 0))

    def write(self, entry: Entry) -> Written:
        """Check and write an entry, all of it or nothing."""
        with self._held.writing() as store:
            plan = plan_entry(store, entry)
            if not plan.is_empty:
                self._back_up_once(store)
            return _written(plan, write_load(store, plan))

    def last(self) -> UndoneLoad | None:
        """Return what `take_back` would take back; None where nothing was ever written."""
        return self._held.ask(last_load)

    def take_back(self, load_no: int) -> UndoneLoad:
        """Take the last entry or load back, if it still is that number."""
        with self._held.writing() as store:
            self._back_up_once(store)
            plan_undo(store)
            return undo_last_load(store, expected=load_no)

    def load(self, paths: Sequence[Path], dialog: LoadDialog) -> bool:
        """Load files, asking `dialog` as the command line does.

        A dialog that wishes nothing to be written only reads; the board goes on meanwhile.
        """
        if not dialog.options.write:
            return self._held.ask(lambda store: load_into(store, paths, dialog)) is not None
        with self._held.writing() as store:
            return load_into(store, paths, dialog) is not None

    def _back_up_once(self, store: Store) -> None:
        if not self._is_backed_up:
            store.back_up("before entries")
            self._is_backed_up = True


def _written(plan: LoadPlan, load_no: int) -> Written:
    new = sum(table.new for table in plan.tables)
    return Written(load_no, new, sum(table.changed for table in plan.tables), plan.notes)
