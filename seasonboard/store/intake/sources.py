"""Which files are meant: folders and files become a list of tables to read."""

import hashlib
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from seasonboard.errors import Problem
from seasonboard.store.intake.cleaning import clean_word
from seasonboard.store.intake.findings import Findings
from seasonboard.store.intake.tables import TABLES
from seasonboard.terms import nearest


@dataclass(frozen=True, slots=True)
class Source:
    """One file of one table; `label` is how messages and the change log call it."""

    table: str
    path: Path
    label: str
    data: bytes

    @property
    def sha256(self) -> str:
        """The hash of the file's bytes, in hexadecimal."""
        return hashlib.sha256(self.data).hexdigest()


def find_sources(paths: Sequence[Path], found: Findings) -> list[Source]:
    """Return the files to read, in the order of `TABLES`, each file once.

    Args:
        paths: Folders (every table in them is taken) and CSV files named after a table.
        found: Takes a problem for every path that cannot be used, a note for every other CSV file.
    """
    files: dict[Path, Path] = {}
    for path in paths:
        for file in _in_folder(path, found) if path.is_dir() else _lone_file(path, found):
            files.setdefault(file.resolve(), file)
    order = {name: place for place, name in enumerate(TABLES)}
    chosen = sorted(files.values(), key=lambda file: order[file.stem.casefold()])
    sources = []
    for file, label in zip(chosen, _labels(chosen), strict=True):
        try:
            data = file.read_bytes()
        except OSError as error:
            found.refuse(_problem(label, f"cannot be read: {error.strerror}."))
            continue
        sources.append(Source(file.stem.casefold(), file, label, data))
    return sources


def _in_folder(folder: Path, found: Findings) -> list[Path]:
    try:
        files = sorted(file for file in folder.iterdir() if file.suffix.casefold() == ".csv")
    except OSError as error:
        found.refuse(_problem(str(folder), f"cannot be read: {error.strerror}."))
        return []
    known = [file for file in files if file.stem.casefold() in TABLES and file.is_file()]
    if not known:
        said = f"holds none of the tables of a season: {_table_files()}."
        found.refuse(_problem(str(folder), said))
        return []
    for file in files:
        if file not in known:
            near = nearest(file.stem, list(TABLES))
            said = "was left out: it is not named after a table."
            found.note(_problem(str(file), said, f"{near}.csv" if near else None))
    return known


def _lone_file(path: Path, found: Findings) -> list[Path]:
    if not path.is_file():
        found.refuse(_problem(str(path), "does not exist; name a folder or a CSV file."))
    elif path.suffix.casefold() != ".csv":
        found.refuse(_problem(str(path), "is not a CSV table; save it as CSV (UTF-8) first."))
    elif path.stem.casefold() not in TABLES:
        near = nearest(path.stem, list(TABLES))
        said = f"is not named after a table: {_table_files()}."
        found.refuse(_problem(str(path), said, f"{near}.csv" if near else None))
    else:
        return [path]
    return []


def _labels(files: list[Path]) -> list[str]:
    """Name files by their name alone; two of one name by their whole path."""
    times = Counter(file.name for file in files)
    return [clean_word(file.name if times[file.name] == 1 else str(file)) for file in files]


def _problem(label: str, said: str, near: str | None = None) -> Problem:
    return Problem(clean_word(label), None, None, None, said, near)


def _table_files() -> str:
    return ", ".join(f"{name}.csv" for name in TABLES)
