"""Where backups lie and what their names say; nothing is opened here.

`season.duckdb.backups/0007_20261125T190640Z_before-load-4.duckdb`: a running number, so that order
does not hang on the clock, the moment in UTC, and what caused it.
"""

import re
from datetime import UTC, datetime
from pathlib import Path

from seasonboard.store_outcomes import Backup

KEPT = 5
"""Backups made by the program itself that are kept; those asked for stay until they are removed."""
BY_HAND = "asked for"

_NAME = re.compile(r"(\d{4,})_(\d{8}T\d{6}Z)_([a-z0-9-]+)\.duckdb")
_MOMENT = "%Y%m%dT%H%M%SZ"


def folder_of(store: Path) -> Path:
    """Return the folder of a store's backups: beside the file itself, also through a link."""
    real = store.resolve()
    return real.with_name(f"{real.name}.backups")


def backups_of(store: Path) -> tuple[Backup, ...]:
    """Return a store's backups, the newest first; other files in the folder are left alone."""
    try:
        backups = [_read(path) for path in folder_of(store).iterdir()]
    except OSError:
        return ()
    return tuple(sorted((one for one in backups if one), key=lambda one: -one.number))


def newest_backup(store: Path) -> Backup | None:
    """Return the newest backup of a store, if there is one."""
    return next(iter(backups_of(store)), None)


def next_backup(store: Path, cause: str) -> Backup:
    """Return the next backup of a store, which is not there yet."""
    newest = newest_backup(store)
    number = newest.number + 1 if newest else 1
    now = datetime.now(UTC).replace(microsecond=0)
    name = f"{number:04d}_{now.strftime(_MOMENT)}_{cause.replace(' ', '-')}.duckdb"
    return Backup(folder_of(store) / name, number, now, cause)


def surplus(store: Path) -> tuple[Backup, ...]:
    """Return the backups made by the program itself beyond those that are kept."""
    own = [one for one in backups_of(store) if one.cause != BY_HAND]
    return tuple(own[KEPT:])


def set_aside_name(path: Path) -> Path:
    """Return a free name beside `path` under which it can be set aside."""
    moment = datetime.now(UTC).strftime(_MOMENT)
    name = path.with_name(f"{path.name}.set-aside-{moment}")
    tries = 1
    while name.exists():
        tries += 1
        name = path.with_name(f"{path.name}.set-aside-{moment}-{tries}")
    return name


def _read(path: Path) -> Backup | None:
    parts = _NAME.fullmatch(path.name)
    if parts is None or not path.is_file():
        return None
    try:
        made_at = datetime.strptime(parts[2], _MOMENT).replace(tzinfo=UTC)
    except ValueError:  # digits that are no date
        return None
    return Backup(path, int(parts[1]), made_at, parts[3].replace("-", " "))
