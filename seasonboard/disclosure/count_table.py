"""Counts, the sums between them, and what a reader is given of each.

A worked example: injuries of three teams and of all. The small one is hidden, and one more with
it, since what is left of the sum would tell it:

>>> from seasonboard.disclosure.suppression import hidden_counts
>>> table = CountTable()
>>> teams = [table.show(f"injuries, {team}", n) for team, n in (("A", 3), ("B", 25), ("C", 19))]
>>> table.adds_up(table.show("injuries", 47), teams)
>>> sorted(hidden_counts(table))
['injuries, A', 'injuries, C']

Whatever else is worked out from counts is published only where all of them are shown, so that it
tells nothing that they do not: rates, their intervals, shares, and what a plan makes of them.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

THRESHOLD = 11
"""The smallest positive count that is shown (CMS cell size suppression policy, 2020: 1 to 10)."""

Range = tuple[int, int | None]
"""The lowest and highest value a count can have, ends included; None: no highest."""


def is_small(value: int) -> bool:
    """Say whether a count is too small to be shown; 0 is shown."""
    return 0 < value < THRESHOLD


@dataclass(slots=True)
class CountTable:
    """Counts by name, with their true values.

    `shown` are those that stand in a release unless they are hidden. `ranges` is what a figure
    tells of a count that is not shown. `close` are counts of too few groups, which may not be told
    at all; `sums` are totals with their parts.
    """

    cells: dict[str, int] = field(default_factory=dict)
    shown: set[str] = field(default_factory=set)
    ranges: dict[str, Range] = field(default_factory=dict)
    close: set[str] = field(default_factory=set)
    sums: list[tuple[str, tuple[str, ...]]] = field(default_factory=list)

    def show(self, name: str, value: int) -> str:
        """Declare a count that is to be shown, and return its name.

        Raises:
            ValueError: The name has another value, or the count is negative.
        """
        self.shown.add(self.unpublished(name, value))
        return name

    def unpublished(self, name: str, value: int) -> str:
        """Declare a count that is not shown but could be worked out, and return its name.

        Raises:
            ValueError: The name has another value, or the count is negative.
        """
        if value < 0 or self.cells.setdefault(name, value) != value:
            raise ValueError(f"{name} is {self.cells.get(name)} already, or negative: {value}")
        return name

    def adds_up(self, total: str, parts: Iterable[str]) -> None:
        """Say that counts add up to another.

        Raises:
            ValueError: They do not.
        """
        summed = (total, tuple(parts))
        if self.cells[total] != sum(self.cells[part] for part in summed[1]):
            raise ValueError(f"{', '.join(summed[1])} do not add up to {total}")
        if summed not in self.sums:
            self.sums.append(summed)

    def within(self, whole: str, parts: Sequence[str]) -> str:
        """Say that counts lie within another beside others, and return the name of the rest."""
        left = self.cells[whole] - sum(self.cells[part] for part in parts)
        rest = self.unpublished(f"{whole} without {', '.join(parts)}", left)
        self.adds_up(whole, [*parts, rest])
        return rest

    def bounded(self, name: str, low: int, high: int | None = None) -> None:
        """Say that something published tells of a count that it lies in a range.

        Raises:
            ValueError: It does not.
        """
        if not low <= self.cells[name] <= (self.cells[name] if high is None else high):
            raise ValueError(f"{name} is {self.cells[name]}, not {low} to {high}")
        self.ranges[name] = (low, high)

    def is_guarded(self, name: str) -> bool:
        """Say whether nobody may come to know a count: it is small, or of too few groups."""
        return is_small(self.cells[name]) or name in self.close

    def least(self, name: str) -> int:
        """Return the smallest value that a reader can think of for a count that is hidden.

        One that stands as “hidden” is no 0, since 0 is shown.
        """
        return min(1, self.cells[name]) if name in self.shown else 0

    def reach(self, name: str) -> int:
        """Return what a guarded count must be able to be for a reader.

        A small one: the smallest count that is shown. A larger one of few groups: more by as much.
        """
        return THRESHOLD + (0 if is_small(self.cells[name]) else self.cells[name])
