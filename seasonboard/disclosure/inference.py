"""What a reader can work out: everything published, written as one system in the counts.

A reader is taken to know the sums, every published item with its rounding, that counts are whole
and not negative, and how the marks are used. Steps, cheapest first: an item with one unknown count
is turned round exactly; bounds are carried along the sums until nothing changes; only where sums
close a circle (a table with two margins) is the rest solved as an integer program, by blocks that
share no unknown count.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from seasonboard.disclosure import published_figures as figures
from seasonboard.disclosure.published_figures import ComputedItem, PublishedItem, consistent_counts
from seasonboard.disclosure.release import Equation, Release

Bounds = dict[str, tuple[int, float]]
"""The lowest and the highest value of each cell; infinity for no highest."""

_ROUNDS = 200
_SLACK = 1e-7


@dataclass(frozen=True, slots=True)
class Constraint:
    """Cells times numbers lie between `low` and `high`."""

    terms: Mapping[str, float]
    low: float
    high: float

    @property
    def is_sum(self) -> bool:
        """Say whether it only adds and takes away whole cells."""
        return all(abs(times) == 1 for times in self.terms.values())


@dataclass(frozen=True, slots=True)
class Inference:
    """What is known of counts: the bounds of each cell, and the rows that link those not known."""

    bounds: Bounds
    rows: tuple[Constraint, ...]

    def unknown(self, row: Constraint) -> list[str]:
        """Return the cells of a row that are not known."""
        return [cell for cell in row.terms if self.bounds[cell][0] != self.bounds[cell][1]]


def infer(release: Release, items: Iterable[PublishedItem], *, least_hidden: int = 0) -> Inference:
    """Return what follows from the items by turning round and by carrying bounds along.

    The items are those a reader is given; `least_hidden` is the smallest count that stands behind
    a “hidden”: 1 where 0 is shown.
    """
    bounds: Bounds = dict.fromkeys(release.cells, (0, math.inf))
    computed: list[ComputedItem] = []
    for item in items:
        if isinstance(item, ComputedItem):
            computed.append(item)
        else:
            for cell in item.cells:
                _cut(bounds, cell, _range_of(item, release.cells[cell], least_hidden))
    rows = [_constraint(equation) for equation in release.equations]
    while True:
        all_rows = [*rows, *(row for item in computed for row in _bands(item, bounds, release))]
        _carry(bounds, all_rows)
        fixed = {cell for cell, (low, high) in bounds.items() if low == high}
        for item in computed:
            for cell in item.cells:
                if cell not in fixed and all(c in fixed for c in item.cells if c != cell):
                    _cut(bounds, cell, consistent_counts(item, cell, release.cells))
        if fixed == {cell for cell, (low, high) in bounds.items() if low == high}:
            _carry(bounds, all_rows)
            if fixed == {cell for cell, (low, high) in bounds.items() if low == high}:
                inference = Inference(bounds, ())
                return Inference(bounds, tuple(row for row in all_rows if inference.unknown(row)))


def _range_of(item: PublishedItem, true: int, least_hidden: int) -> tuple[int, int | None]:
    if isinstance(item, figures.ShownCount | figures.DerivedFigure):
        return true, true
    if isinstance(item, figures.CountRange):
        return item.low, item.high
    assert isinstance(item, figures.HiddenCount)  # noqa: S101 - the other kinds went another way
    return min(least_hidden, true), None


def _cut(bounds: Bounds, cell: str, to: tuple[int, float | None]) -> bool:
    low, high = bounds[cell]
    new = max(low, to[0]), min(high, math.inf if to[1] is None else to[1])
    bounds[cell] = new
    return new != (low, high)


def _constraint(equation: Equation) -> Constraint:
    terms: dict[str, float] = {}
    for cell, times in equation.terms:
        terms[cell] = terms.get(cell, 0) + times
    return Constraint(terms, 0, 0)


def _bands(item: ComputedItem, bounds: Bounds, release: Release) -> list[Constraint]:
    """Return what an item with several unknown counts says of them.

    A rate or ratio is a band between its two counts. Where that is not so (limits, exposures in a
    ratio) each count is taken as if the reader knew the others: more than he does, so that the
    check errs to refusing.
    """
    open_cells = [cell for cell in item.cells if bounds[cell][0] != bounds[cell][1]]
    text = item.text(release.cells)
    if len(open_cells) < 2 or text is None:
        return []
    pair: tuple[str, ...] = ()
    times, over = 1, 1
    if isinstance(item, figures.ShownRate) and item.numerator != item.denominator:
        pair, times = (item.numerator, item.denominator), item.per
        _cut(bounds, item.denominator, (1, None))
    elif isinstance(item, figures.ShownRatio) and item.count != item.other:
        pair = (item.count, item.other)
        times = release.cells[item.other_exposures]
        over = release.cells[item.exposures]
        _cut(bounds, item.other, (1, None))
    for cell in open_cells:
        if cell not in pair:
            _cut(bounds, cell, consistent_counts(item, cell, release.cells))
    if len(pair) < 2 or not isinstance(item, figures.ShownRate | figures.ShownRatio):
        return []
    return _band(pair, text, times=times, over=over)


def _band(pair: tuple[str, ...], text: str, *, times: int, over: int) -> list[Constraint]:
    """Return the rows that say that `pair[0] * times / (pair[1] * over)` is written as `text`.

    Whether a half is rounded to this text is tried out: all pairs on the half have one quotient.
    """
    digits = len(text.partition(".")[2])
    above, below = pair
    rows = []
    for sign in (-1, 1):
        edge = (2 * Fraction(text) + sign * Fraction(1, 10**digits)) / 2
        is_within = f"{float(edge):.{digits}f}" == text
        slope = -float(max(edge, Fraction(0)) * over / times)
        off = 0.0 if is_within else sign / (2 * 10**digits * times)
        ends = (-off, math.inf) if sign < 0 else (-math.inf, -off)
        rows.append(Constraint({above: 1.0, below: slope}, *ends))
    return rows


def _carry(bounds: Bounds, rows: Sequence[Constraint]) -> None:
    for _ in range(_ROUNDS):
        if not any([_carry_row(bounds, row) for row in rows]):  # noqa: C419 - every row, each time
            return


def _carry_row(bounds: Bounds, row: Constraint) -> bool:
    ends = {cell: _ends(times, bounds[cell]) for cell, times in row.terms.items()}
    least, most = _Sum(e[0] for e in ends.values()), _Sum(e[1] for e in ends.values())
    changed = False
    for cell, times in row.terms.items():
        if times == 0:
            continue
        low = row.low - most.without(ends[cell][1])
        high = row.high - least.without(ends[cell][0])
        if times < 0:
            low, high = high, low
        low, high = low / times, high / times
        floor = 0 if math.isinf(low) else math.ceil(low - _SLACK)
        ceiling = high if math.isinf(high) else math.floor(high + _SLACK)
        changed |= _cut(bounds, cell, (floor, ceiling))
    return changed


def _ends(times: float, bounds: tuple[int, float]) -> tuple[float, float]:
    if times == 0:
        return 0.0, 0.0
    low, high = times * bounds[0], times * bounds[1]
    return (low, high) if times > 0 else (high, low)


class _Sum:
    """A sum with infinite terms, of which one can be left out."""

    def __init__(self, values: Iterable[float]) -> None:
        terms = list(values)
        self._finite = sum(term for term in terms if math.isfinite(term))
        self._infinite = [term for term in terms if math.isinf(term)]

    def without(self, value: float) -> float:
        if math.isinf(value):
            return self._infinite[0] if len(self._infinite) > 1 else self._finite
        return self._infinite[0] if self._infinite else self._finite - value
