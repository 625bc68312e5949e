"""A release: one block of figures for each kind of guard, as it is kept and as it is quoted."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from seasonboard.disclosure.renewal import MaskedTable
from seasonboard.errors import SeasonboardError

FORM = 2
"""Which figures a release is made of; a program that changes them counts this up."""

AGREEMENT, SAME_SITES = "agreement", "same sites"
"""Figures of words alone, which documents print."""


class ReleaseError(SeasonboardError):
    """There is no release to quote, or none can be made."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure that is no count: its value and limits as they are told, or words."""

    name: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    words: str = ""

    @classmethod
    def rounded(
        cls, name: str, limits: Sequence[float | None], digits: int = 0, words: str = ""
    ) -> "Figure":
        """Return a figure whose value, low and high are told in so many decimals."""
        value, low, high = (None if one is None else float(round(one, digits)) for one in limits)
        return cls(name, value, low, high, words)


@dataclass(frozen=True, slots=True)
class Block:
    """The figures of one kind of guard, made on one day.

    `made_in` is the release they were made in. `note` tells their maker why they were not renewed
    since, and whose agreement they lack; `corrected` are counts that were told higher before. What
    may not be told is known to `masked` alone; `figures` are told as they stand.
    """

    kind: str
    made_in: str
    made_on: date
    through: date
    departments: int
    masked: MaskedTable
    figures: Mapping[str, Figure]
    note: str = ""
    corrected: tuple[str, ...] = ()

    def count(self, name: str) -> int | None:
        """Return a count that is told; None where it is hidden or was never counted."""
        is_told = name in self.masked.table.shown and name not in self.masked.hidden
        return self.masked.table.cells[name] if is_told else None

    def figure(self, name: str) -> Figure | None:
        """Return a figure that is told; None where it is not."""
        return self.figures.get(name)

    def cuts(self, of: str) -> list[str]:
        """Return what follows the comma in the names of counts or figures of one name."""
        names = [*self.masked.table.shown, *self.figures]
        return sorted(name[len(of) + 2 :] for name in names if name.startswith(f"{of}, "))


@dataclass(frozen=True, slots=True)
class Release:
    """One release: its key, the day it was made, the last day known to it, and its blocks."""

    key: str
    made_on: date
    through: date
    blocks: tuple[Block, ...]

    def block(self, kind: str) -> Block:
        """Return the block of a kind of guard.

        Raises:
            ReleaseError: It has none.
        """
        for block in self.blocks:
            if block.kind == kind:
                return block
        kinds = ", ".join(block.kind for block in self.blocks) or "none"
        raise ReleaseError(
            f"Release {self.key} of {self.made_on} has no figures of “{kind}” guards.",
            f"It has: {kinds}. “seasonboard release” makes the next one.",
        )
