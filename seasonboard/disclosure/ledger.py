"""The handouts of a store, kept in a folder beside it: a file each, for their maker only."""

import hashlib
import json
import os
import tempfile
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any

from seasonboard.disclosure.count_definition import CountDefinition
from seasonboard.errors import SeasonboardError
from seasonboard.regular_files import read_json

_FORM = "seasonboard handout 1"


@dataclass(frozen=True, slots=True)
class PublishedCount:
    """One count that outsiders can read."""

    definition: CountDefinition
    value: int


@dataclass(frozen=True, slots=True)
class LedgerEntry:
    """One handout as it is kept: published counts only, never a hidden one.

    `made_at` has its offset, `scope` is the sentence of what it looks at, `through` the last day
    known to it, `threshold` the smallest count it shows; by its `fingerprint` it is known again.
    """

    made_at: datetime
    kind: str
    scope: str
    through: date
    threshold: int
    fingerprint: str
    cells: tuple[PublishedCount, ...]

    def __post_init__(self) -> None:
        """Refuse a moment without its offset: two of them could not be put in order."""
        if self.made_at.tzinfo is None:
            raise ValueError(f"{self.made_at} has no offset")

    def words(self) -> str:
        """Return which handout it is."""
        return f"{self.kind} of {self.made_at:%Y-%m-%d %H:%M} (through {self.through})"


class LedgerError(SeasonboardError):
    """A handout could not be written down."""


@dataclass(frozen=True, slots=True)
class LedgerContents:
    """The handouts that could be read, the oldest first, and what to know of the others."""

    entries: tuple[LedgerEntry, ...]
    warnings: tuple[str, ...]


class Ledger:
    """The handouts of one store. The sample's stand beside it too, in its cache folder."""

    def __init__(self, store: Path) -> None:
        """Keep the handouts of the store at this path, in `my_season.duckdb.handouts/`."""
        self.folder = store.with_name(f"{store.name}.handouts")

    def read(self) -> LedgerContents:
        """Return every handout; a file that cannot be used is told and left alone."""
        entries, warnings = [], []
        try:
            paths = sorted(self.folder.glob("*.json"))
        except OSError as error:
            paths, warnings = [], [f"{self.folder} could not be read ({error.strerror})."]
        for path in paths:
            try:
                entries.append(_entry(read_json(path)))
            except (OSError, ValueError, TypeError, KeyError, AttributeError):
                warnings.append(
                    f"{path} is damaged or no handout of seasonboard. It is left as it is, and "
                    "this document is not compared with it: if it was handed out, compare the two "
                    "by hand; if not, move the file away."
                )
        return LedgerContents(tuple(sorted(entries, key=lambda one: one.made_at)), tuple(warnings))

    def add(self, entry: LedgerEntry) -> Path:
        """Write a handout down and return its file: whole or not at all, readable by its maker.

        Raises:
            LedgerError: It cannot be written.
        """
        text = json.dumps(_as_json(entry), ensure_ascii=False, indent=1)
        mark = hashlib.sha256(text.encode()).hexdigest()[:8]
        target = self.folder / f"{entry.made_at:%Y-%m-%dT%H%M%S}-{mark}.json"
        beside = ""
        try:
            self.folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            handle, beside = tempfile.mkstemp(dir=self.folder, suffix=".part")
            with os.fdopen(handle, "w", encoding="utf-8") as out:
                out.write(text)
                out.flush()
                os.fsync(out.fileno())
            Path(beside).replace(target)
        except OSError as error:
            if beside:
                Path(beside).unlink(missing_ok=True)
            raise LedgerError(
                f"The handout could not be written down in {self.folder} "
                f"({error.strerror or error}).",
                "Make the folder writable; without it a later document cannot be compared.",
            ) from error
        return target


def _as_json(entry: LedgerEntry) -> dict[str, Any]:
    return {
        "form": _FORM,
        "made_at": entry.made_at.isoformat(),
        "kind": entry.kind,
        "scope": entry.scope,
        "through": entry.through.isoformat(),
        "threshold": entry.threshold,
        "fingerprint": entry.fingerprint,
        "cells": [
            {"what": c.definition.what, "of": dict(c.definition.parts), "value": c.value}
            for c in entry.cells
        ],
    }


def _entry(written: dict[str, Any]) -> LedgerEntry:
    """Return the handout that a file holds.

    Raises:
        ValueError, TypeError, KeyError, AttributeError: It is not one of ours.
    """
    if written["form"] != _FORM:
        raise ValueError(written["form"])
    return LedgerEntry(
        datetime.fromisoformat(written["made_at"]),
        str(written["kind"]),
        str(written["scope"]),
        date.fromisoformat(written["through"]),
        _count(written["threshold"]),
        str(written["fingerprint"]),
        tuple(
            PublishedCount(CountDefinition.within(str(c["what"]), c["of"]), _count(c["value"]))
            for c in written["cells"]
        ),
    )


def _count(value: object) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or value < 0:
        raise ValueError(value)
    return value
