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

from seasonboard.disclosure.published_figures import (
    Between,
    Derived,
    Hidden,
    Item,
    Limits,
    Rate,
    Ratio,
    Rounded,
    Shown,
    Worked,
    consistent,
)
from seasonboard.disclosure.release import Equation, Release

Bounds = dict[str, tuple[int, float]]
"""The lowest and the highest value of each cell; infinity for no highest."""

_ROUNDS = 200
_SLACK = 1e-7


@dataclass(frozen=True, slots=True)
class Row:
    """Cells times numbers lie between `low` and `high`."""

    terms: Mapping[str, float]
    low: float
    high: float

    @property
    def is_plain_sum(self) -> bool:
        """Say whether it only adds and takes away whole cells."""
        return all(abs(times) == 1 for times in self.terms.values())


@dataclass(frozen=True, slots=True)
class Known:
    """Bounds of every cell, and the rows that link those not known."""

    bounds: Bounds
    rows: tuple[Row, ...]

    def unknown(self, row: Row) -> list[str]:
        """Return the cells of a row that are not known."""
        return [cell for cell in row.terms if self.bounds[cell][0] != self.bounds[cell][1]]


def what_is_known(release: Release, items: Iterable[Item], *, least_hidden: int = 0) -> Known:
    """Return what follows from the items by turning round and by carrying bounds along.

    Args:
        release: The cells with their true values, and the sums.
        items: The items a reader is given; all of the release's or some.
        least_hidden: The smallest count that stands behind a “hidden”: 1 where 0 is shown.
    """
    bounds: Bounds = dict.fromkeys(release.cells, (0, math.inf))
    worked: list[Worked] = []
    for item in items:
        if isinstance(item, Rounded | Rate | Limits | Ratio):
            worked.append(item)
        else:
            for cell in item.cells:
                _cut(bounds, cell, _told(item, release.cells[cell], least_hidden))
    rows = [_row(equation) for equation in release.equations]
    while True:
        rows_of_items = [row for item in worked for row in _turned(item, bounds, release)]
        _carry(bounds, [*rows, *rows_of_items])
        fixed = {cell for cell, (low, high) in bounds.items() if low == high}
        for item in worked:
            for cell in item.cells:
                if cell not in fixed and all(c in fixed for c in item.cells if c != cell):
                    _cut(bounds, cell, consistent(item, cell, release.cells))
        if fixed == {cell for cell, (low, high) in bounds.items() if low == high}:
            _carry(bounds, [*rows, *rows_of_items])
            if fixed == {cell for cell, (low, high) in bounds.items() if low == high}:
                known = Known(bounds, ())
                kept = (row for row in [*rows, *rows_of_items] if known.unknown(row))
                return Known(bounds, tuple(kept))


def _told(item: Item, true: int, least_hidden: int) -> tuple[int, int | None]:
    """Return what an item that names one value says of a cell."""
    if isinstance(item, Shown | Derived):
        return true, true
    if isinstance(item, Between):
        return item.low, item.high
    assert isinstance(item, Hidden)  # noqa: S101 - the other kinds went another way
    return min(least_hidden, true), None


def _cut(bounds: Bounds, cell: str, to: tuple[int, float | None]) -> bool:
    low, high = bounds[cell]
    new = max(low, to[0]), min(high, math.inf if to[1] is None else to[1])
    bounds[cell] = new
    return new != (low, high)


def _row(equation: Equation) -> Row:
    terms: dict[str, float] = {}
    for cell, times in equation.terms:
        terms[cell] = terms.get(cell, 0) + times
    return Row(terms, equation.equals, equation.equals)


def _turned(item: Worked, bounds: Bounds, release: Release) -> list[Row]:
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
    if isinstance(item, Rate) and item.numerator != item.denominator:
        pair, times = (item.numerator, item.denominator), item.per
        _cut(bounds, item.denominator, (1, None))
    elif isinstance(item, Ratio) and item.count != item.other:
        pair = (item.count, item.other)
        times = release.cells[item.other_exposures]
        over = release.cells[item.exposures]
        _cut(bounds, item.other, (1, None))
    for cell in open_cells:
        if cell not in pair:
            _cut(bounds, cell, consistent(item, cell, release.cells))
    if len(pair) < 2 or not isinstance(item, Rate | Ratio):
        return []
    return _band(pair, text, times=times, over=over)


def _band(pair: tuple[str, ...], text: str, *, times: int, over: int) -> list[Row]:
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
        rows.append(Row({above: 1.0, below: slope}, *ends))
    return rows


def _carry(bounds: Bounds, rows: Sequence[Row]) -> None:
    """Carry bounds along the rows until nothing changes."""
    for _ in range(_ROUNDS):
        if not any([_carry_row(bounds, row) for row in rows]):  # noqa: C419 - every row, each time
            return


def _carry_row(bounds: Bounds, row: Row) -> bool:
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
        told = list(values)
        self._finite = sum(v for v in told if math.isfinite(v))
        self._infinite = [v for v in told if math.isinf(v)]

    def without(self, value: float) -> float:
        if math.isinf(value):
            return self._infinite[0] if len(self._infinite) > 1 else self._finite
        return self._infinite[0] if self._infinite else self._finite - value
