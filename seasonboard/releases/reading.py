"""Releases as a store keeps them, and the one to quote."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import polars as pl

from seasonboard.answers.source import AnswerSource
from seasonboard.disclosure.count_table import CountTable
from seasonboard.disclosure.renewal import MaskedTable
from seasonboard.releases.block import FORM, Block, Figure, Release, ReleaseError

_MAKE_ONE = (
    "“seasonboard release --plan” shows what it would hold, “seasonboard release” makes it; on the "
    "board it is F on Pitch."
)


@dataclass(frozen=True, slots=True)
class ReleaseMemory:
    """The keys of the releases made here, kept beside the user's settings, not in the store.

    A store that was restored from a backup may lack one that outsiders have.
    """

    path: Path | None = None

    @property
    def made(self) -> tuple[str, ...]:
        """Return the keys, in the order in which they were made; none where they cannot be read."""
        try:
            return tuple(self.path.read_text("utf-8").split()) if self.path else ()
        except (OSError, UnicodeDecodeError):
            return ()

    def add(self, key: str) -> None:
        """Remember a release; where it cannot be written nothing is refused."""
        try:
            if self.path and key not in self.made:
                self.path.parent.mkdir(parents=True, exist_ok=True)
                with self.path.open("a", encoding="utf-8") as file:
                    file.write(f"{key}\n")
        except OSError:
            return

    def forget(self, key: str) -> None:
        """Forget a release that no outsider ever saw.

        Raises:
            ReleaseError: It is not remembered, or the file cannot be written.
        """
        keys = self.made
        if self.path is None or key not in keys:
            known = ", ".join(keys) or "none"
            raise ReleaseError(f"No release {key} is remembered here.", f"Remembered: {known}.")
        try:
            self.path.write_text("".join(f"{one}\n" for one in keys if one != key), "utf-8")
        except OSError as error:
            raise ReleaseError(
                f"{self.path} cannot be written ({error.strerror}).", "Make it writable."
            ) from error


def stored_releases(source: AnswerSource) -> tuple[Release, ...]:
    """Return every release of a store, the first one first.

    Raises:
        ReleaseError: A newer program made one.
        StoreError: The store could not be read.
    """
    made = source.read_asked("releases/releases")
    for key, _, _, form in made.iter_rows():
        if form > FORM:
            raise ReleaseError(
                f"Release {key} was made by a newer seasonboard (form {form}; this one knows "
                f"{FORM}).",
                "Update seasonboard; nothing was written.",
            )
    days = {key: (on, through) for key, on, through, _ in made.iter_rows()}
    counts = _by_block(source.read_asked("releases/counts"))
    figures = _by_block(source.read_asked("releases/figures"))
    rows = source.read_asked("releases/blocks").rows()
    blocks: dict[tuple[str, str], Block] = {}
    for release, kind, made_in, departments, note in rows:
        masked = _table(counts.get((made_in, kind), []))
        earlier = [b for (key, of), b in blocks.items() if of == kind and key < made_in]
        blocks[release, kind] = Block(
            *(kind, made_in, *days[made_in], departments, masked),
            {
                row[0]: Figure(row[0], row[1], row[2], row[3], row[4] or "")
                for row in figures.get((made_in, kind), [])
            },
            note or "",
            corrected(masked, earlier),
        )
    return tuple(
        Release(key, *on, tuple(block for (of, _), block in blocks.items() if of == key))
        for key, on in days.items()
    )


def corrected(masked: MaskedTable, earlier: Sequence[Block]) -> tuple[str, ...]:
    """Return the counts that were told higher before: counts only grow unless records change."""
    if not earlier:
        return ()
    before, table = earlier[-1], masked.table
    return tuple(
        name
        for name in sorted(table.shown - masked.hidden)
        if (before.count(name) or 0) > table.cells[name]
    )


def current_release(source: AnswerSource, memory: ReleaseMemory) -> Release:
    """Return the release that documents quote.

    Raises:
        ReleaseError: There is none yet, one was lost, or a newer program made one.
        StoreError: The store could not be read.
    """
    releases = stored_releases(source)
    refuse_lost(releases, memory)
    if not releases:
        raise ReleaseError(
            "Nothing was released yet, and a document for outsiders quotes a release.", _MAKE_ONE
        )
    return releases[-1]


def refuse_lost(releases: Sequence[Release], memory: ReleaseMemory) -> None:
    """Refuse a store that lacks a release which was made here.

    Raises:
        ReleaseError: It lacks one.
    """
    lost = [key for key in memory.made if key not in {one.key for one in releases}]
    if lost:
        raise ReleaseError(
            f"Release {', '.join(lost)} was made here and is not in the store: it was undone, or "
            "the store was restored from a backup.",
            "Restore a store that holds it, or load the release tables of its export: what is out "
            "must be known before more goes out. If it never went out: seasonboard release "
            f"--never-out {lost[0]}.",
        )


def _by_block(rows: pl.DataFrame) -> dict[tuple[str, str], list[tuple[Any, ...]]]:
    blocks: dict[tuple[str, str], list[tuple[Any, ...]]] = {}
    for release, kind, *cells in rows.iter_rows():
        blocks.setdefault((release, kind), []).append(tuple(cells))
    return blocks


def _table(rows: Sequence[tuple[Any, ...]]) -> MaskedTable:
    table, hidden = CountTable(), set()
    for name, value, told, low, high, few, _ in rows:
        table.cells[name] = value
        if told in {"shown", "hidden"}:
            table.shown.add(name)
        if told == "within":
            table.ranges[name] = (low, high)
        if few == "yes":
            table.close.add(name)
        if told == "hidden" or table.is_guarded(name):
            hidden.add(name)
    for name, *_, parts in rows:
        for line in (parts or "").splitlines():
            table.adds_up(name, line.split("; "))
    table.sums.sort()
    return MaskedTable(table, frozenset(hidden))
