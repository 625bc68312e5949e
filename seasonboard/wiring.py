"""Puts the layers together: opens stores, and hands readers the callables they work with."""

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, ExitStack, contextmanager
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from seasonboard import last_used
from seasonboard.cli.services import Tools
from seasonboard.errors import SeasonboardError
from seasonboard.load_dialog import LoadDialog

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.looks import LookBook
    from seasonboard.prospect import Prospect

SAMPLE_PLACE = "invented sample season"


def _lazily(place: str) -> Callable[..., Any]:
    """Return what calls the function at `module:name`; the module is loaded only then."""
    module, _, name = place.partition(":")

    def call(*values: Any, **named: Any) -> Any:  # noqa: ANN401 - those of the function
        return getattr(import_module(f"seasonboard.{module}"), name)(*values, **named)

    return call


_load = _lazily("store.intake.load_files:load_paths")
_read_prospect: "Callable[[Path], Prospect]" = _lazily("store.intake.prospects:read_prospect")
_sample_path: Callable[[], Path] = _lazily("sample_store:sample_store")
_own_sample: Callable[[], Path] = _lazily("sample_store:own_sample")
_HELP_PARTS = {
    "columns": _lazily("help.generated:columns_markdown"),
    "questions": _lazily("help.generated:questions_markdown"),
    "commands": _lazily("cli.help:commands_markdown"),
    "keys": _lazily("ui.key_tables:keys_markdown"),
    "screens": _lazily("ui.key_tables:screens_markdown"),
}


def help_part(name: str) -> str:
    """Return a part of help as Markdown, by the name that stands in the files of the topics."""
    return str(_HELP_PARTS[name]())


def make_tools() -> Tools:
    """Return the callables behind the commands."""
    return Tools(
        open_board=open_board,
        open_kept=open_kept,
        open_sample=open_sample,
        sample_path=_sample_path,
        last_store=last_used.last_store,
        remember_store=last_used.remember_store,
        load=_load,
        undo=_lazily("store.intake.undo:undo_path"),
        backup=_lazily("store.backups:back_up_by_hand"),
        backups=_lazily("store.backups:list_backups"),
        restore=_lazily("store.restoring:restore_path"),
        verify=_lazily("store.store:verify_store"),
        bundle=_lazily("store.bundles.packing:write_bundle"),
        export=_lazily("store.intake.export:export_path"),
        read_prospect=_read_prospect,
        write_sample=_lazily("sample.write:write_season"),
        show_board=show_board,
        help_part=help_part,
    )


def look_book(store_id: str) -> "LookBook":
    """Return what counts the looks at a store."""
    from seasonboard.looks import LookBook

    return LookBook(last_used.looks_path(store_id))


_KEPT: "dict[str, Any]" = {
    "secret": last_used.curtain_secret,
    "look_book": look_book,
    "releases_path": last_used.releases_path,
}
"""What is kept of stores beside the user's settings."""


@contextmanager
def _opened(path: Path, place: str) -> "Iterator[AnswerSource]":
    from seasonboard.answers.source import AnswerSource
    from seasonboard.store.store import open_store

    with open_store(path) as store:
        yield AnswerSource(store, place, **_KEPT)


@contextmanager
def open_board(path: Path) -> "Iterator[AnswerSource]":
    """Open a store for reading and give its answers.

    Raises:
        StoreError: It cannot be opened.
    """
    with _opened(path, str(path)) as source:
        last_used.remember_store(path)
        yield source


@contextmanager
def open_kept(path: Path) -> "Iterator[AnswerSource]":
    """Open a store for reading, and for entries in between, and give its answers.

    Raises:
        StoreError: It cannot be opened.
    """
    with _kept(path) as source:
        last_used.remember_store(path)
        yield source


@contextmanager
def _kept(path: Path) -> "Iterator[AnswerSource]":
    from seasonboard.answers.source import AnswerSource
    from seasonboard.store.entry_writer import StoreEntryWriter
    from seasonboard.store.reopening_store import ReopeningStore

    held = ReopeningStore(path)
    try:
        writer = StoreEntryWriter(held)
        yield AnswerSource(held, str(path), writer, **_KEPT)
    finally:
        held.close()


def open_sample() -> "AbstractContextManager[AnswerSource]":
    """Open the sample season, making its store on first use outside any store of the user's.

    Raises:
        StoreError: It can neither be made in the cache nor in a temporary folder.
    """
    return _opened(_sample_path(), SAMPLE_PLACE)


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
        settings = read_settings(last_used.settings_path())
    except SeasonboardError as problem:
        settings, summary = Settings(), f"{problem.what} {problem.hint}"
    remembered = Path(settings.store) if settings.store else last_used.last_store()
    path = None if use_sample else store or remembered
    missing = path if path is not None and store is None and not path.exists() else None
    path = None if missing else path
    start = Start(
        settings,
        keep=lambda changed: write_settings(last_used.settings_path(), changed),
        said=summary,
        is_first=path is None and not use_sample,
        missing=missing,
        screen=last_used.last_screen(),
        keep_screen=last_used.remember_screen,
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
    """Makes stores on the board, and holds those it opens until the board is left; reads tables.

    What cannot be opened, read or written is refused with an IntakeError or a StoreError.
    """

    def __init__(self, stack: ExitStack) -> None:
        """Leave the closing to `stack`."""
        self._stack = stack

    def load(self, store: Path, paths: Sequence[Path], dialog: LoadDialog) -> bool:
        """Load files into a store, made where there is none; return whether it was written."""
        return _load(store, paths, dialog) is not None

    def open(self, store: Path) -> "AnswerSource":
        """Open a store to be shown and written to."""
        return self._stack.enter_context(open_kept(store))

    def copy_sample(self) -> "AnswerSource":
        """Open the user's own copy of the sample season; the next start does not open it."""
        return self._stack.enter_context(_kept(_own_sample()))

    def store_path(self, place: str) -> Path:
        """Return the file of a store by what its board calls its place."""
        return _sample_path() if place == SAMPLE_PLACE else Path(place)

    def read_prospect(self, path: Path) -> "Prospect":
        """Read the teams of a prospect from a small table."""
        return _read_prospect(path)
