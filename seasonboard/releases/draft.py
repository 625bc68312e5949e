"""The figures of one kind of guard before anything is hidden."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from seasonboard.disclosure.count_table import THRESHOLD, CountTable
from seasonboard.disclosure.renewal import MaskedTable
from seasonboard.disclosure.suppression import hidden_counts
from seasonboard.releases.block import Figure

DEPARTMENTS, SHARE = 3, 0.8
"""Figures on health come from so many departments or more, none with more of them than that.

Source: the (n, k) dominance rule with n = 1, k = 80, and a least number of contributors: Hundepool
et al. (2012), Statistical Disclosure Control, section 4.2.1.
"""

_MOST_PARTS, _EACH_PART = 10, 2 * THRESHOLD
"""Parts of a distribution that are told, and the least that lies in each."""


@dataclass(slots=True)
class Draft:
    """Counts, and figures with the counts that each rests on.

    `agreed` are departments that agreed in writing; `asked` those without whose agreement figures
    on health are not told.
    """

    agreed: frozenset[str] = frozenset()
    table: CountTable = field(default_factory=CountTable)
    figures: dict[Figure, tuple[str, ...]] = field(default_factory=dict)
    asked: set[str] = field(default_factory=set)
    used: set[str] = field(default_factory=set)

    def figure(self, figure: Figure, *rests_on: str) -> None:
        """Add a figure that is told where none of the counts it rests on is hidden."""
        self.figures[figure] = rests_on

    def of_departments(self, name: str, counts: Mapping[str, int]) -> None:
        """Close a count on health where too few departments stand behind it."""
        total = sum(counts.values())
        behind = {department for department, count in counts.items() if count}
        large = {department for department in behind if counts[department] > SHARE * total}
        needed = large if len(behind) >= DEPARTMENTS else behind
        if needed - self.agreed:
            self.asked |= needed - self.agreed
            self.table.close.add(name)
        self.used |= needed & self.agreed

    def rests_on_enough(self, name: str, count: int, least: int = THRESHOLD) -> str:
        """Declare a count of which a figure tells that it is `least` or more, and return it.

        One that is less is not told: its figure is not either.
        """
        self.table.unpublished(name, count)
        if name not in self.table.shown and count >= least:
            self.table.bounded(name, least)
        return name

    def in_parts(
        self, name: str, behind: str, values: Sequence[float], weights: Sequence[float], count: int
    ) -> None:
        """Declare a distribution in equal parts, and what that tells of the count behind it.

        `values` rise.
        """
        middles = in_equal_parts(values, weights, count)
        self.table.unpublished(behind, count)
        if middles:
            most = (len(middles) + 1) * _EACH_PART - 1
            low, high = len(middles) * _EACH_PART, None if len(middles) == _MOST_PARTS else most
            self.table.bounded(behind, low, high)
        for number, middle in enumerate(middles, start=1):
            figure = Figure(f"{name}, {number} of {len(middles)}", round(middle))
            self.figure(figure, behind)

    def masked(self) -> tuple[MaskedTable, dict[str, Figure]]:
        """Return the counts with those that are hidden, and the figures that are told."""
        table = self.table
        hidden = hidden_counts(table)
        told = {
            figure.name: figure
            for figure, rests_on in self.figures.items()
            if hidden.isdisjoint(rests_on) and all(map(self._is_enough, rests_on))
        }
        table.ranges = {name: ends for name, ends in table.ranges.items() if name not in hidden}
        table.sums.sort()
        stands = {name for name in hidden if name in table.shown or table.is_guarded(name)}
        return MaskedTable(table, frozenset(stands)), told

    def _is_enough(self, name: str) -> bool:
        table = self.table
        return name in table.ranges or name in table.shown


def in_equal_parts(values: Sequence[float], weights: Sequence[float], count: int) -> list[float]:
    """Return the values in the middle of equal parts of a distribution, at most ten.

    On either side of each lie 11 or more of the `count` behind it; none where there are fewer than
    22. `values` rise.
    """
    parts, total = min(_MOST_PARTS, count // _EACH_PART), sum(weights)
    middles, passed, place = [], 0.0, -1
    for number in range(parts):
        while passed < (number + 0.5) / parts * total - 1e-9 and place + 1 < len(values):
            place += 1
            passed += weights[place]
        middles.append(float(values[place]))
    return middles
