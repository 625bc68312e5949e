"""The range of each count that fits all that is published, by blocks.

A block is what unknown counts that are linked have in common. Where its rows are plain sums that
close no circle, bounds carried along them are exact, since each row can be met by whole numbers
whatever its neighbours take. Other blocks are solved by HiGHS (scipy.optimize.milp). One that
takes longer than `SECONDS` is answered by the best solution found, or by the true count, which
always fits: the range is then too narrow, never too wide, and the check errs to refusing.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from seasonboard.disclosure.inference import Constraint, Inference, infer
from seasonboard.disclosure.published_figures import PublishedItem
from seasonboard.disclosure.release import Release

SECONDS = 1.0
"""The longest that one program may take."""

Range = tuple[int, int | None]
"""The lowest and highest value, ends included; None: no highest."""


@dataclass(frozen=True, slots=True)
class CellBlock:
    """Unknown counts that hang together, and the rows that link them."""

    cells: tuple[str, ...]
    rows: tuple[Constraint, ...]
    is_exact: bool
    """Its carried bounds are exact: plain sums that close no circle."""


class Attacker:
    """One who knows some items of a release, and what he can work out.

    Source: the attacker's problem of cell suppression: Fischetti & Salazar (2000), Networks 36;
    Hundepool et al. (2012), Statistical Disclosure Control, section 4.2.2.
    """

    def __init__(
        self, release: Release, items: Iterable[PublishedItem], *, least_hidden: int = 0
    ) -> None:
        """Carry what the items say as far as it goes.

        `least_hidden` is the smallest count that stands behind a “hidden”: 1 where the reader
        knows that zeros are shown (`Policy.least_hidden`).
        """
        self._release = release
        self._inference = infer(release, items, least_hidden=least_hidden)
        blocks = cell_blocks(self._inference)
        self._block = {cell: block for block in blocks for cell in block.cells}

    def range_of(self, cell: str) -> Range:
        """Return the values that a cell can have."""
        low, high = self._inference.bounds[cell]
        block = self._block.get(cell)
        if block is not None and not block.is_exact:
            low = int(self._extreme(cell, block, low, high, highest=False))
            high = self._extreme(cell, block, low, high, highest=True)
        return low, None if math.isinf(high) else int(high)

    def reaches(self, cell: str, value: int) -> bool:
        """Say whether a cell can be `value` or more."""
        low, high = self._inference.bounds[cell]
        block = self._block.get(cell)
        if high < value or block is None or block.is_exact:
            return high >= value
        cap = max(value, self._release.cells[cell], low)
        return self._extreme(cell, block, low, min(high, cap), highest=True) >= value

    def _extreme(
        self, cell: str, block: CellBlock, low: int, high: float, *, highest: bool
    ) -> float:
        """Return the lowest or highest value of a cell in its block, within these bounds."""
        from scipy.optimize import Bounds, LinearConstraint, milp

        place = {name: number for number, name in enumerate(block.cells)}
        lows = np.array([self._inference.bounds[name][0] for name in block.cells], dtype=float)
        highs = np.array([self._inference.bounds[name][1] for name in block.cells], dtype=float)
        lows[place[cell]], highs[place[cell]] = low, high
        goal = np.zeros(len(place))
        goal[place[cell]] = -1.0 if highest else 1.0
        matrix, least, most = self._matrix(block.rows, place)
        solution = milp(
            goal,
            integrality=np.ones(len(place)),
            bounds=Bounds(lows, highs),
            constraints=LinearConstraint(matrix, least, most),
            options={"time_limit": SECONDS, "mip_rel_gap": 0.0},
        )
        if solution.x is not None:
            return float(round(solution.x[place[cell]]))
        if solution.status in {3, 4} and highest and math.isinf(high):
            return math.inf
        return float(self._release.cells[cell])

    def _matrix(
        self, rows: Sequence[Constraint], place: dict[str, int]
    ) -> "tuple[np.ndarray, np.ndarray, np.ndarray]":
        matrix = np.zeros((len(rows), len(place)))
        least, most = np.zeros(len(rows)), np.zeros(len(rows))
        for number, row in enumerate(rows):
            fixed = 0.0
            for cell, times in row.terms.items():
                if cell in place:
                    matrix[number, place[cell]] = times
                else:
                    fixed += times * self._inference.bounds[cell][0]
            least[number], most[number] = row.low - fixed, row.high - fixed
        return matrix, least, most


def cell_blocks(inference: Inference) -> tuple[CellBlock, ...]:
    """Return the blocks of unknown counts that hang together by rows."""
    heads: dict[str, str] = {}

    def head(cell: str) -> str:
        while heads.setdefault(cell, cell) != cell:
            heads[cell] = heads[heads[cell]]
            cell = heads[cell]
        return cell

    circular: set[str] = set()
    for row in inference.rows:
        first, *others = inference.unknown(row)
        for other in others:
            if head(first) == head(other):
                circular.add(first)
            heads[head(other)] = head(first)
    rows: dict[str, list[Constraint]] = {}
    for row in inference.rows:
        rows.setdefault(head(inference.unknown(row)[0]), []).append(row)
    cells: dict[str, list[str]] = {}
    for cell in list(heads):
        cells.setdefault(head(cell), []).append(cell)
    hard = {head(cell) for cell in circular}
    return tuple(
        CellBlock(
            tuple(cells[top]), tuple(linked), top not in hard and all(row.is_sum for row in linked)
        )
        for top, linked in rows.items()
    )
