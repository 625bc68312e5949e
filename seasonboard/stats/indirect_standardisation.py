"""Expected injuries: what exposures lead one to expect at the rates of teammates."""

from collections.abc import Hashable, Sequence

import numpy as np

STRENGTH = 1.0
"""Each factor is drawn toward 1 by this many expected injuries, so that no level gets rate 0."""

_ROUNDS = 500


class MultiplicativeRates:
    """Rates that are a product of one factor for each level of several descriptions.

    Fitted to injuries and exposures of cells by turns: each level's factor is its injuries over
    those the other factors lead one to expect, drawn toward 1 by `STRENGTH`. Cells too thin to
    have a rate of their own borrow it from their levels.

    Source: Breslow & Day (1987), Statistical Methods in Cancer Research II, section 4.5 (the
    multiplicative model fitted by turns); Clayton & Kaldor (1987), Biometrics 43, 671-681, for
    drawing sparse rates toward the mean.
    """

    def __init__(
        self,
        cells: Sequence[Sequence[Hashable]],
        injuries: Sequence[float],
        exposures: Sequence[float],
    ) -> None:
        """Fit the factors; `cells` are the levels that describe each cell, one per description.

        Raises:
            ValueError: There is no cell, no exposure, or the columns differ in length.
        """
        hurt, exposed = (np.asarray(one, dtype=np.float64) for one in (injuries, exposures))
        if not len(cells) == len(hurt) == len(exposed):
            raise ValueError("cells, injuries and exposures differ in length")
        total = float(exposed.sum())
        if total <= 0:
            raise ValueError("without exposures there is no rate")
        self._mean = (float(hurt.sum()) + STRENGTH / 2) / total
        columns = list(zip(*cells, strict=True))
        self._levels = [{level: i for i, level in enumerate(dict.fromkeys(c))} for c in columns]
        codes = [
            np.array([levels[level] for level in column])
            for levels, column in zip(self._levels, columns, strict=True)
        ]
        sizes = [len(levels) for levels in self._levels]
        seen = [np.bincount(c, hurt, n) + STRENGTH for c, n in zip(codes, sizes, strict=True)]
        self._factors = [np.ones(size) for size in sizes]
        by_cell = [np.ones(len(cells)) for _ in codes]
        for _ in range(_ROUNDS):
            before, before_own = np.concatenate(self._factors), exposed * self._mean
            for own, (code, size) in enumerate(zip(codes, sizes, strict=True)):
                others = before_own
                for factor in by_cell[own + 1 :]:
                    others = others * factor
                self._factors[own] = seen[own] / (np.bincount(code, others, size) + STRENGTH)
                by_cell[own] = self._factors[own].take(code)
                before_own = before_own * by_cell[own]
            if np.abs(before - np.concatenate(self._factors)).max() < 1e-7:
                break

    def rate(self, cell: Sequence[Hashable]) -> float:
        """Return the rate of a cell; a level that was never seen counts as average."""
        rate = self._mean
        for level, levels, factors in zip(cell, self._levels, self._factors, strict=True):
            if level in levels:
                rate *= float(factors[levels[level]])
        return rate
