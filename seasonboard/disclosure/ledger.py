"""The handouts of a store, kept in a folder beside it: a file each, for their maker only."""

import hashlib
import json
import os
import tempfile
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any

from seasonboard.disclosure.count_definition import Counted
from seasonboard.disclosure.earlier_handouts import Handout, Published
from seasonboard.errors import SeasonboardError

_FORM = "seasonboard handout 1"


class LedgerError(SeasonboardError):
    """A handout could not be written down."""


@dataclass(frozen=True, slots=True)
class Kept:
    """The handouts that could be read, the oldest first, and what to know of the others."""

    handouts: tuple[Handout, ...]
    said: tuple[str, ...]


class Ledger:
    """The handouts of one store. The sample's stand beside it too, in its cache folder."""

    def __init__(self, store: Path) -> None:
        """Keep the handouts of the store at this path, in `my_season.duckdb.handouts/`."""
        self.folder = store.with_name(f"{store.name}.handouts")

    def read(self) -> Kept:
        """Return every handout; a file that cannot be used is told and left alone."""
        handouts, said = [], []
        try:
            paths = sorted(self.folder.glob("*.json"))
        except OSError as error:
            paths, said = [], [f"{self.folder} could not be read ({error.strerror})."]
        for path in paths:
            try:
                handouts.append(_handout(json.loads(path.read_text("utf-8"))))
            except (OSError, ValueError, TypeError, KeyError, AttributeError):
                said.append(
                    f"{path} is damaged or no handout of seasonboard. It is left as it is, and "
                    "this document is not compared with it: if it was handed out, compare the two "
                    "by hand; if not, move the file away."
                )
        return Kept(tuple(sorted(handouts, key=lambda each: each.made_at)), tuple(said))

    def add(self, handout: Handout) -> Path:
        """Write a handout down and return its file: whole or not at all, readable by its maker.

        Raises:
            LedgerError: It cannot be written.
        """
        text = json.dumps(_told(handout), ensure_ascii=False, indent=1)
        mark = hashlib.sha256(text.encode()).hexdigest()[:8]
        target = self.folder / f"{handout.made_at:%Y-%m-%dT%H%M%S}-{mark}.json"
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


def _told(handout: Handout) -> dict[str, Any]:
    return {
        "form": _FORM,
        "made_at": handout.made_at.isoformat(),
        "kind": handout.kind,
        "scope": handout.scope,
        "through": handout.through.isoformat(),
        "threshold": handout.threshold,
        "fingerprint": handout.fingerprint,
        "cells": [
            {"what": c.counted.what, "of": dict(c.counted.parts), "value": c.value}
            for c in handout.cells
        ],
    }


def _handout(told: dict[str, Any]) -> Handout:
    """Return what a file tells.

    Raises:
        ValueError, TypeError, KeyError, AttributeError: It is not one of ours.
    """
    if told["form"] != _FORM:
        raise ValueError(told["form"])
    return Handout(
        datetime.fromisoformat(told["made_at"]),
        str(told["kind"]),
        str(told["scope"]),
        date.fromisoformat(told["through"]),
        _count(told["threshold"]),
        str(told["fingerprint"]),
        tuple(
            Published(Counted.within(str(c["what"]), c["of"]), _count(c["value"]))
            for c in told["cells"]
        ),
    )


def _count(value: object) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or value < 0:
        raise ValueError(value)
    return value
