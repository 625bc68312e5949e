"""The list of a bundle's parts, and what it says of itself."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from seasonboard.errors import IntakeError
from seasonboard.store.catalogue import migrations
from seasonboard.store.intake.cleaning import clean_word
from seasonboard.store.intake.decoding import refused
from seasonboard.store.intake.problems import as_shown
from seasonboard.stored_tables import TABLES

FORMAT = "seasonboard bundle"
VERSION = 1
"""Raised when a bundle of today could not be read by the program of yesterday."""

LOG = {name: f"log/{name}.parquet" for name in ("marks", "stamps", "changes")}
"""Parts that every bundle has: loads known, which load brought what, and changed cells."""

_TABLE_PARTS = {f"tables/{name}.parquet": name for name in TABLES}
_NO_MANIFEST = "has a list of its parts that no bundle has."


def display_text(value: object) -> str:
    """Return a value of a bundle as it can be shown safely."""
    return clean_word(as_shown(value))


def damaged_bundle(label: str, said: str) -> IntakeError:
    """Say what is wrong with a bundle that has to be made or sent again."""
    return refused(label, None, f"{said} Have it made or sent again.")


@dataclass(frozen=True, slots=True)
class BundlePart:
    """One file inside a bundle: its name, rows, bytes, and hash."""

    name: str
    rows: int
    size: int
    sha256: str

    @property
    def table(self) -> str | None:
        """Return the table whose rows it holds; None for parts of the log."""
        return _TABLE_PARTS.get(self.name)


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a bundle says of itself.

    Attributes:
        program: Version of the program that wrote it.
        schema: Version of the sender's tables.
        store_id: The sender's store.
        made_at: Instant, ISO 8601 in UTC.
        since: The sender's load after which all of it is new; 0 carries everything.
        parts: Its parts, tables in their order, then the log.
    """

    program: str
    schema: int
    store_id: str
    made_at: str
    since: int
    parts: tuple[BundlePart, ...]

    def as_json(self) -> bytes:
        """Return it as it stands in the file."""
        told = {"format": FORMAT, "version": VERSION, **asdict(self)}
        return (json.dumps(told, indent=1, sort_keys=True) + "\n").encode()

    @property
    def moment(self) -> str:
        """Return when it was made, as a person reads it."""
        return f"{datetime.fromisoformat(self.made_at):%Y-%m-%d %H:%M} UTC"


def table_part(table: str) -> str:
    """Return the name of the part that holds a table."""
    return f"tables/{table}.parquet"


def read_manifest(data: bytes, label: str) -> Manifest:
    """Return the manifest of a bundle.

    Raises:
        IntakeError: It is none, or of a newer version.
    """
    try:
        told = json.loads(data)
    except (ValueError, RecursionError) as error:
        raise damaged_bundle(label, _NO_MANIFEST) from error
    if not isinstance(told, dict) or told.pop("format", None) != FORMAT:
        said = "is a ZIP file, but not a bundle of seasonboard; name one that “seasonboard bundle” "
        raise refused(label, None, said + "wrote.")
    version = told.pop("version", None)
    _check_version("format", version, VERSION, label)
    _check_version("schema", told.get("schema"), migrations()[-1][0], label)
    manifest = _manifest(told, label)
    if manifest.as_json() != data:
        raise damaged_bundle(label, _NO_MANIFEST)
    return manifest


def _check_version(what: str, version: object, known: int, label: str) -> None:
    if type(version) is not int or version < 1:
        raise damaged_bundle(label, _NO_MANIFEST)
    if version > known:
        said = f"was written by a newer seasonboard ({what} {version}; this one knows {known}). "
        raise refused(label, None, said + "Update seasonboard.")


def _manifest(told: Mapping[str, Any], label: str) -> Manifest:
    """Return the manifest if all of it is of the right kind."""
    try:
        parts = tuple(BundlePart(**one) for one in told["parts"])
        manifest = Manifest(**{**told, "parts": parts})
        datetime.fromisoformat(manifest.made_at)
    except (TypeError, KeyError, ValueError) as error:
        raise damaged_bundle(label, _NO_MANIFEST) from error
    words = (manifest.program, manifest.store_id, *(one.sha256 for one in parts))
    words += tuple(one.name for one in parts)
    counts = (manifest.since, *(one.rows for one in parts), *(one.size for one in parts))
    fine = all(isinstance(one, str) for one in words)
    fine &= all(type(one) is int and one >= 0 for one in counts)
    names = {one.name for one in parts} if fine else set()
    if len(names) != len(parts) or not {*LOG.values()} <= names <= {*LOG.values(), *_TABLE_PARTS}:
        raise damaged_bundle(label, _NO_MANIFEST)
    return manifest
