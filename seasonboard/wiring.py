"""Puts the layers together: opens stores, and hands readers the callables they work with."""

import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from seasonboard.cli.services import Tools
from seasonboard.errors import SeasonboardError
from seasonboard.help_parts import help_part
from seasonboard.last_used import (
    curtain_secret,
    kept_store,
    last_screen,
    last_store,
    remember_screen,
    remember_store,
    settings_path,
)
from seasonboard.load_dialog import LoadDialog

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.prospect import Prospect
    from seasonboard.store_outcomes import (
        BundleContent,
        ExportedTable,
        ListedBackup,
        Replacement,
        UndoneLoad,
    )

SAMPLE_PLACE = "invented sample season"


def make_tools() -> Tools:
    """Return the callables behind the commands."""
    return Tools(
        open_board=open_board,
        open_sample=open_sample,
        sample_path=_sample_path,
        last_store=last_store,
        remember_store=remember_store,
        load=_load,
        undo=_undo,
        backup=_backup,
        backups=_backups,
        restore=_restore,
        verify=_verify,
        bundle=_bundle,
        export=_export,
        read_prospect=_read_prospect,
        write_sample=_write_sample,
        show_board=show_board,
        help_part=help_part,
    )


@contextmanager
def open_board(path: Path) -> "Iterator[AnswerSource]":
    """Open a store for reading and give its answers.

    Raises:
        StoreError: It cannot be opened.
    """
    from seasonboard.answers.source import AnswerSource
    from seasonboard.store.store import open_store

    with open_store(path) as store:
        remember_store(path)
        yield AnswerSource(store, str(path), secret=curtain_secret)


@contextmanager
def open_kept(path: Path) -> "Iterator[AnswerSource]":
    """Open a store for reading, and for entries in between, and give its answers.

    Raises:
        StoreError: It cannot be opened.
    """
    from seasonboard.answers.source import AnswerSource
    from seasonboard.store.entry_writer import StoreEntryWriter
    from seasonboard.store.reopening_store import ReopeningStore

    held = ReopeningStore(path)
    try:
        remember_store(path)
        yield AnswerSource(held, str(path), StoreEntryWriter(held), secret=curtain_secret)
    finally:
        held.close()


@contextmanager
def open_sample() -> "Iterator[AnswerSource]":
    """Open the sample season, making its store on first use outside any store of the user's.

    Raises:
        StoreError: It can neither be made in the cache nor in a temporary folder.
    """
    from seasonboard.answers.source import AnswerSource
    from seasonboard.sample_store import sample_store
    from seasonboard.store.store import open_store

    with open_store(sample_store()) as store:
        yield AnswerSource(store, SAMPLE_PLACE, secret=curtain_secret)


def _sample_path() -> Path:
    from seasonboard.sample_store import sample_store

    return sample_store()


def _undo(
    store: Path,
    confirm: "Callable[[UndoneLoad], bool]",
    tell: Callable[[str], object],
    backup: bool,  # noqa: FBT001 - from the command
) -> bool:
    from seasonboard.store.intake.undo import undo_path

    return undo_path(store, confirm=confirm, tell=tell, backup=backup) is not None


def _backup(store: Path, out: Path | None) -> Path:
    from seasonboard.store.backups import back_up_by_hand

    return back_up_by_hand(store, out)


def _backups(store: Path) -> "Sequence[ListedBackup]":
    from seasonboard.store.backups import list_backups

    return list_backups(store)


def _restore(
    store: Path, chosen: str | None, confirm: "Callable[[Replacement], bool]"
) -> Path | None:
    from seasonboard.store.restoring import restore_path

    return restore_path(store, chosen, confirm=confirm)


def _verify(store: Path, tell: Callable[[str], object]) -> Mapping[str, int]:
    from seasonboard.store.store import verify_store

    return verify_store(store, tell=tell)


def _load(store: Path, paths: Sequence[Path], dialog: LoadDialog) -> bool:
    from seasonboard.store.intake.load_files import load_paths

    return load_paths(store, list(paths), dialog) is not None


def _bundle(store: Path, target: Path, since: str | None) -> "BundleContent":
    from seasonboard.store.bundles.packing import write_bundle

    return write_bundle(store, target, since)


def _export(store: Path, folder: Path, how: str, force: bool) -> "Sequence[ExportedTable]":  # noqa: FBT001
    from seasonboard.store.intake.export import export_path

    return export_path(store, folder, how, force=force)


def _read_prospect(path: Path) -> "Prospect":
    from seasonboard.store.intake.prospects import read_prospect

    return read_prospect(path)


def _write_sample(folder: Path, seed: int, size: float) -> Sequence[Path]:
    from seasonboard.sample import write_season

    return write_season(folder, seed=seed, size=size)


def show_board(store: Path | None, use_sample: bool, curtain: bool) -> int:  # noqa: FBT001 - from the command
    """Run the board on a store, else on the last one, else on the sample; return its status."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise SeasonboardError(
            "The board needs a terminal, and this is none.",
            "Ask on the command line instead, for instance “seasonboard ask compare --sample”.",
        )
    from seasonboard.settings import Settings, Start, read_settings, write_settings
    from seasonboard.ui.app.app import SeasonboardApp

    summary = ""
    try:
        settings = read_settings(settings_path())
    except SeasonboardError as problem:
        settings, summary = Settings(), f"{problem.what} {problem.hint}"
    path = None if use_sample else store or kept_store(settings.store) or last_store()
    start = Start(
        settings,
        keep=lambda changed: write_settings(settings_path(), changed),
        said=summary,
        is_first=path is None and not use_sample,
        screen=last_screen(),
        keep_screen=remember_screen,
    )
    with ExitStack() as stack:

        def open_it() -> "AnswerSource":
            board = stack.enter_context(open_sample() if path is None else open_kept(path))
            board.cover(is_down=curtain)
            return board

        maker = StoreMaker(stack)
        app = SeasonboardApp(open_it, start=start, maker=maker, help_part=help_part)
        app.run()
        return app.return_code or 0


class StoreMaker:
    """Makes stores on the board, and holds those it opens until the board is left; reads tables."""

    def __init__(self, stack: ExitStack) -> None:
        """Leave the closing to `stack`."""
        self._stack = stack

    def load(self, store: Path, paths: Sequence[Path], dialog: LoadDialog) -> bool:
        """Load files into a store, made where there is none; return whether it was written.

        Raises:
            IntakeError: A row or file is wrong; nothing was written.
            StoreError: The store cannot be opened or written.
        """
        return _load(store, paths, dialog)

    def open(self, store: Path) -> "AnswerSource":
        """Open a store to be shown and written to.

        Raises:
            StoreError: It cannot be opened.
        """
        return self._stack.enter_context(open_kept(store))

    def store_path(self, place: str) -> Path:
        """Return the file of a store by what its board calls its place."""
        return _sample_path() if place == SAMPLE_PLACE else Path(place)

    def read_prospect(self, path: Path) -> "Prospect":
        """Read the teams of a prospect from a small table.

        Raises:
            IntakeError: It cannot be read, or a cell is wrong.
        """
        return _read_prospect(path)
