"""The folders and files that can be loaded, newest first, narrowed by what is typed."""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from rich.cells import cell_len
from rich.text import Text
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from seasonboard.load_options import BUNDLE, LOADABLE
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.loading.paths import typed_path

MOST_FILES = 500
"""Lines that are listed; typing narrows the others."""
_BESIDE_STORES = (".backups", ".mappings")
"""How folders end that the program keeps beside a store."""
_WIDEST = 44
"""Cells that a name takes at most."""
_SIZES = (("MB", 1 << 20), ("KB", 1 << 10))


@dataclass(frozen=True, slots=True)
class FolderLine:
    """One line: what it stands for, and whether taking it lists a folder or reads it."""

    path: Path
    shown: str
    beside: str
    is_opened: bool


def is_path(typed: str) -> bool:
    """Say whether a whole path is typed, rather than letters of a name."""
    typed = typed.strip()
    return typed[:1] in {"~", "'", '"'} or "/" in typed or os.sep in typed


def lines_in(folder: Path, typed: str) -> list[FolderLine]:
    """Return what can be taken in a folder: of a typed path in its own, of letters as they narrow.

    A folder that cannot be read has no lines.
    """
    words = typed.casefold().split()
    if is_path(typed):
        path = folder / typed_path(typed)
        is_inside = typed.rstrip("'\" ").endswith(("/", os.sep))
        folder, words = (path, []) if is_inside else (path.parent, [path.name.casefold()])
    lines = [
        (when, line)
        for when, line in _all_lines(folder)
        if all(word in line.path.name.casefold() for word in words)
    ]
    lines.sort(key=lambda one: (-one[0], one[1].shown.casefold()))
    listed = [line for _, line in lines[:MOST_FILES]]
    return listed if words else [*_folder_lines(folder, listed), *listed]


def _all_lines(folder: Path) -> list[tuple[float, FolderLine]]:
    lines = []
    try:
        files = list(os.scandir(folder))
    except OSError:
        return []
    for file in files:
        path = Path(file.path)
        if file.name.startswith((".", "~$")) or file.name.endswith(_BESIDE_STORES):
            continue
        try:
            is_folder, status = file.is_dir(), file.stat()
        except OSError:
            continue
        if is_folder or path.suffix.casefold() in LOADABLE:
            beside = f"{datetime.fromtimestamp(status.st_mtime):%Y-%m-%d %H:%M}"  # noqa: DTZ006 - the clock of the person
            beside = f"folder, {beside}" if is_folder else f"{beside}, {_size(status.st_size)}"
            shown = file.name + ("/" if is_folder else "")
            lines.append((status.st_mtime, FolderLine(path, shown, beside, is_folder)))
    return lines


def _folder_lines(folder: Path, listed: Sequence[FolderLine]) -> list[FolderLine]:
    """Return the lines of the folder itself: the one above it, and its tables together."""
    own = []
    if folder.resolve().parent != folder.resolve():
        own.append(FolderLine(folder / "..", "../", "the folder above", is_opened=True))
    alone = {BUNDLE, ".txt"}  # is only read when it is named
    tables = sum(not one.is_opened and one.path.suffix.casefold() not in alone for one in listed)
    if tables > 1:
        shown = f"all {tables} tables of this folder"
        own.append(FolderLine(folder, shown, "read together", is_opened=False))
    return own


def _size(many: int) -> str:
    unit, least = next((one for one in _SIZES if many >= one[1]), ("bytes", 1))
    return f"{many / least:,.0f} {unit}"


class FileList(OptionList, can_focus=False):
    """The lines of one folder; the keys stay with the line that is typed into."""

    def __init__(self) -> None:
        """List the folder that the program was started in."""
        super().__init__(id="files", markup=False, compact=True)
        self.folder = Path.cwd()
        self.lines: list[FolderLine] = []

    def narrow(self, typed: str) -> None:
        """List what fits the letters or the path typed, the newest under the cursor."""
        self.lines = lines_in(self.folder, typed)
        self.clear_options()
        wide = min(_WIDEST, max((cell_len(clean(one.shown)) for one in self.lines), default=0))
        self.add_options(Option(_line(one, wide)) for one in self.lines)
        own = sum(one.shown == "../" or one.path == self.folder for one in self.lines[:2])
        self.highlighted = min(own, len(self.lines) - 1) if self.lines else None

    def taken(self, typed: str) -> FolderLine | None:
        """Return what Enter takes: a whole path that exists, else the line under the cursor."""
        path = self.folder / typed_path(typed)
        if is_path(typed) and path.exists():
            return FolderLine(path, typed, "", is_opened=False)
        if self.highlighted is not None:
            return self.lines[self.highlighted]
        return FolderLine(path, typed, "", is_opened=False) if typed.strip() else None

    def open(self, folder: Path) -> None:
        """List another folder."""
        self.folder = folder.resolve()
        self.narrow("")

    def walk(self, by: int) -> None:
        """Go along the lines."""
        if self.highlighted is not None:
            self.highlighted = min(max(0, self.highlighted + by), len(self.lines) - 1)


def _line(one: FolderLine, wide: int) -> Text:
    text = Text(fit(clean(one.shown), wide), no_wrap=True, overflow="ellipsis")
    return text.append(f"   {one.beside}", "italic")
