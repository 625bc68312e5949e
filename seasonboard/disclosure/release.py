"""What a release is made of: counts, the sums between them, and what of them is published."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from seasonboard.disclosure.published_figures import PublishedItem
from seasonboard.errors import SeasonboardError

THRESHOLD = 11
"""The smallest positive count that may be shown (CMS cell-size suppression policy: 1 to 10 not)."""


class PolicyError(SeasonboardError):
    """A threshold was asked for that may not be used."""


@dataclass(frozen=True, slots=True)
class Policy:
    """How small a count may be shown; the `reason` for less than usual is printed on the document.

    A count of 0 is hidden like 1 to 10 unless zeros are shown.

    Raises:
        PolicyError: The threshold is below 2, or is lowered without a reason.
    """

    threshold: int = THRESHOLD
    reason: str = ""
    zeros_shown: bool = True

    def __post_init__(self) -> None:
        """Refuse what may not be used."""
        if self.threshold < 2:
            raise PolicyError(
                f"The smallest count shown cannot be {self.threshold}.",
                f"Below 2 nothing would be hidden; leave it at {THRESHOLD} or raise it.",
            )
        if self.threshold < THRESHOLD and not self.reason.strip():
            raise PolicyError(
                f"The smallest count shown was lowered from {THRESHOLD} to {self.threshold} "
                "without a reason.",
                "Give the reason in a sentence; it is printed on the document.",
            )

    @property
    def least_hidden(self) -> int:
        """Return the smallest count that can stand behind a “hidden”, as every reader knows."""
        return 1 if self.zeros_shown else 0

    def is_small(self, value: int) -> bool:
        """Say whether a count may not be shown."""
        return self.least_hidden <= value < self.threshold


@dataclass(frozen=True, slots=True)
class Equation:
    """Cells times whole numbers add up to 0. In a sum the total stands with -1."""

    terms: tuple[tuple[str, int], ...]

    @property
    def cells(self) -> tuple[str, ...]:
        """Return the cells that it links."""
        return tuple(cell for cell, _ in self.terms)

    @property
    def totals(self) -> tuple[str, ...]:
        """Return the cells that others add up to."""
        return tuple(cell for cell, times in self.terms if times < 0)


def adds_up(total: str, parts: tuple[str, ...]) -> Equation:
    """Return the equation that says that `parts` add up to `total`."""
    return Equation((*((part, 1) for part in parts), (total, -1)))


@dataclass(frozen=True, slots=True)
class Release:
    """Counts with their true values, what links them, and what a reader is given.

    A cell that no item shows is known to a reader only as a count of 0 or more. Such cells are
    declared where they could be worked out: the rest of a total, the others of a share.

    Raises:
        ValueError: A cell is negative or not known, or an equation does not hold.
    """

    cells: Mapping[str, int]
    equations: tuple[Equation, ...] = ()
    items: tuple[PublishedItem, ...] = field(default=())

    def __post_init__(self) -> None:
        """Refuse a release that contradicts itself: its ranges would mean nothing."""
        for name, value in self.cells.items():
            if value < 0:
                raise ValueError(f"{name} is {value}; counts are 0 or more")
        for linked in (*self.equations, *self.items):
            missing = [cell for cell in linked.cells if cell not in self.cells]
            if missing:
                raise ValueError(f"{', '.join(missing)} is used and is no cell of the release")
        for equation in self.equations:
            if sum(self.cells[cell] * times for cell, times in equation.terms):
                counts = ", ".join(f"{cell} = {self.cells[cell]}" for cell in equation.cells)
                raise ValueError(f"these do not add up: {counts}")
