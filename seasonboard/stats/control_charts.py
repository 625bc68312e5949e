"""Control charts: the limits within which a steady process strays by chance."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

_D2 = 1.128
"""Mean range of two normal values in standard deviations (ISO 7870-2, n = 2)."""
_D4 = 3.267
"""Upper limit of such a range, in mean ranges."""
FEWEST = 2
"""Points below which no limits are drawn."""


@dataclass(frozen=True, slots=True)
class IndividualsChart:
    """Single values in order with limits from their moving ranges; None, with `why`, for too few.

    `outside` has one entry a value.
    """

    values: tuple[float, ...]
    centre: float | None
    low: float | None
    high: float | None
    mean_range: float | None
    range_high: float | None
    outside: tuple[bool, ...]
    why: str = ""


@dataclass(frozen=True, slots=True)
class AttributesChart:
    """A share or rate of each group with limits for its size; None, with `why`, for too few.

    `values`, `low`, `high` and `outside` have one entry a group; a group of size 0 has None.
    """

    values: tuple[float | None, ...]
    centre: float | None
    low: tuple[float | None, ...]
    high: tuple[float | None, ...]
    outside: tuple[bool, ...]
    why: str = ""


def individuals_chart(values: Sequence[float]) -> IndividualsChart:
    """Return the chart of single values (XmR): mean ± 3 mean moving ranges / 1.128.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2.
    """
    found = tuple(float(value) for value in values)
    nothing = (False,) * len(found)
    if len(found) < FEWEST:
        why = f"fewer than {FEWEST} values"
        return IndividualsChart(found, None, None, None, None, None, nothing, why)
    ranges = [abs(b - a) for a, b in pairwise(found)]
    mean_range = math.fsum(ranges) / len(ranges)
    centre = math.fsum(found) / len(found)
    reach = 3 * mean_range / _D2
    low, high = centre - reach, centre + reach
    outside = tuple(_is_outside(value, low, high) for value in found)
    return IndividualsChart(found, centre, low, high, mean_range, _D4 * mean_range, outside)


def p_chart(counts: Sequence[int], sizes: Sequence[int]) -> AttributesChart:
    """Return the chart of shares: p ± 3 √(p (1 − p) / n), within 0 and 1.

    Source: NIST/SEMATECH e-Handbook, section 6.3.3.2.

    Raises:
        ValueError: The columns differ in length, or a count is larger than its size.
    """
    if any(not 0 <= count <= size for count, size in _pairs(counts, sizes)):
        raise ValueError("a count is not between 0 and its size")
    centre = sum(counts) / sum(sizes) if sum(sizes) else None
    spread = None if centre is None else centre * (1 - centre)
    return _attributes(counts, sizes, centre, spread, most=1.0)


def u_chart(counts: Sequence[int], sizes: Sequence[float]) -> AttributesChart:
    """Return the chart of rates per unit: u ± 3 √(u / n), not below 0; equal sizes make a c-chart.

    Source: NIST/SEMATECH e-Handbook, section 6.3.3.1; Montgomery DC, Introduction to Statistical
    Quality Control, chapter 7.

    Raises:
        ValueError: The columns differ in length, or a count or size is negative.
    """
    if any(count < 0 or size < 0 for count, size in _pairs(counts, sizes)):
        raise ValueError("a count or size is negative")
    centre = sum(counts) / sum(sizes) if sum(sizes) else None
    return _attributes(counts, sizes, centre, centre, most=math.inf)


def _attributes(
    counts: Sequence[int],
    sizes: Sequence[float],
    centre: float | None,
    spread: float | None,
    *,
    most: float,
) -> AttributesChart:
    nothing = (None,) * len(counts)
    filled = sum(size > 0 for size in sizes)
    values = tuple(c / n if n else None for c, n in zip(counts, sizes, strict=True))
    if centre is None or spread is None or filled < FEWEST:
        why = "nothing was counted" if centre is None else f"fewer than {FEWEST} groups"
        return AttributesChart(values, centre, nothing, nothing, (False,) * len(counts), why)
    reach = [3 * math.sqrt(spread / n) if n else None for n in sizes]
    low = tuple(None if r is None else max(0.0, centre - r) for r in reach)
    high = tuple(None if r is None else min(most, centre + r) for r in reach)
    outside = tuple(_is_outside(*each) for each in zip(values, low, high, strict=True))
    return AttributesChart(values, centre, low, high, outside)


def _pairs(counts: Sequence[int], sizes: Sequence[float]) -> list[tuple[int, float]]:
    if len(counts) != len(sizes):
        raise ValueError("the columns differ in length")
    return list(zip(counts, sizes, strict=True))


def _is_outside(value: float | None, low: float | None, high: float | None) -> bool:
    """Say whether a value lies beyond its limits; on the line is within, rounding aside."""
    if value is None or low is None or high is None:
        return False
    slack = 1e-9 * max(1.0, abs(value))
    return value < low - slack or value > high + slack
