"""Where a file goes, and how it gets there: beside its place first, whole or not at all."""

import os
import unicodedata
import uuid
from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path

from seasonboard.errors import SeasonboardError


class SavingError(SeasonboardError):
    """A file could not be written; what was there is as it was."""


def proposed(department: str, day: date, what: str, ending: str) -> Path:
    """Return where a file might go: named after department, day and question, never a person."""
    return _folder() / named(department, day.isoformat(), what, ending=ending)


def named(*words: str, ending: str) -> str:
    """Return a file's name made of words: only letters, figures and hyphens of them."""
    return f"{'_'.join(plain for word in words if (plain := _word(word)))}{ending}"


def _word(text: str) -> str:
    plain = unicodedata.normalize("NFKC", text)
    return "-".join("".join(c if c.isalnum() or c == "-" else " " for c in plain).split())[:60]


def _folder() -> Path:
    import platformdirs

    folder = Path(platformdirs.user_documents_dir())
    return folder if folder.is_dir() and os.access(folder, os.W_OK) else Path.cwd()


def read_path(text: str, ending: str) -> Path:
    """Return the path that was typed, with the file's ending where none was given.

    Raises:
        SavingError: It names no file, or its folder is not there.
    """
    bare = text.strip()
    if not bare or "\0" in bare:
        raise SavingError("No file is named.", "Type where to save, such as ~/season.csv.")
    try:
        path = Path(bare).expanduser()
    except RuntimeError as error:
        raise SavingError(f"{bare}: {error}.", "Type the whole path.") from error
    if path.is_dir() or bare.endswith(("/", os.sep)):
        raise SavingError(f"{bare} is a folder.", "Name a file in it.")
    path = path if path.suffix else path.with_name(path.name + ending)
    if not path.parent.is_dir():
        raise SavingError(
            f"The folder {path.parent} does not exist.", "Make it, or name another one."
        )
    return path


def beside_about(path: Path) -> Path:
    """Return the file that says what is in a file that cannot say so itself."""
    return path.with_name(f"{path.stem}.about.txt")


def refuse_present(paths: Iterable[Path]) -> None:
    """Refuse to write where something is.

    Raises:
        SavingError: One of the files is there already.
    """
    if there := next((path for path in paths if path.exists()), None):
        raise SavingError(
            f"{there} is there already; nothing was written.", "Save again under another name."
        )


def save(files: Mapping[Path, bytes], *, may_replace: bool) -> None:
    """Write files, each in one step: readers see all of it or the one before.

    Raises:
        SavingError: One is there already and may not be replaced, or could not be written.
    """
    if not may_replace:
        refuse_present(files)
    making = {path: path.with_name(f".{uuid.uuid4().hex[:12]}.making") for path in files}
    done: Path | None = None
    try:
        for done, data in files.items():
            with making[done].open("xb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
        for done, made in making.items():
            made.replace(done)
    except OSError as error:
        raise SavingError(
            f"{done} could not be written: {error.strerror or error}.",
            "Name another place, or make room there.",
        ) from error
    finally:
        for made in making.values():
            made.unlink(missing_ok=True)
