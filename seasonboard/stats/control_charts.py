"""Control charts: the limits within which a steady process strays by chance."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

_D2 = 1.128
"""Mean range of two normal values in standard deviations (ISO 7870-2, n = 2)."""
FEWEST = 2
"""Points below which no limits are drawn."""


@dataclass(frozen=True, slots=True)
class IndividualsChart:
    """Single values in order with control limits from their moving ranges.

    For too few values there are none, and `why` says so. `outside` has one entry a value, None
    without limits.
    """

    values: tuple[float, ...] = ()
    centre: float | None = None
    low: float | None = None
    high: float | None = None
    outside: tuple[bool | None, ...] = ()
    why: str = ""


@dataclass(frozen=True, slots=True)
class ControlLimits:
    """The control limits of one value and whether it lies outside; `why` says why not known."""

    low: float | None = None
    high: float | None = None
    is_outside: bool | None = None
    why: str = ""


@dataclass(frozen=True, slots=True)
class AttributesChart:
    """A share or rate of each group with control limits for its size.

    `values` and `limits` have one entry a group; a group of size 0 has no value.
    """

    values: tuple[float | None, ...]
    centre: float | None
    limits: tuple[ControlLimits, ...]
    why: str = ""


def individuals_chart(values: Sequence[float]) -> IndividualsChart:
    """Return the chart of single values (XmR): mean ± 3 mean moving ranges / 1.128.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2.
    """
    numbers = tuple(float(value) for value in values)
    if len(numbers) < FEWEST:
        unknown = (None,) * len(numbers)
        return IndividualsChart(numbers, outside=unknown, why=f"fewer than {FEWEST} values")
    ranges = [abs(b - a) for a, b in pairwise(numbers)]
    mean_range = math.fsum(ranges) / len(ranges)
    centre = math.fsum(numbers) / len(numbers)
    reach = 3 * mean_range / _D2
    low, high = centre - reach, centre + reach
    outside = tuple(_is_outside(value, low, high) for value in numbers)
    return IndividualsChart(numbers, centre, low, high, outside)


def p_chart(counts: Sequence[int], sizes: Sequence[int]) -> AttributesChart:
    """Return the chart of shares: p ± 3 √(p (1 − p) / n), within 0 and 1.

    Source: NIST/SEMATECH e-Handbook, section 6.3.3.2.

    Raises:
        ValueError: As `u_chart`, or a count is larger than its size.
    """
    return _attributes(counts, sizes, is_share=True)


def u_chart(counts: Sequence[int], sizes: Sequence[float]) -> AttributesChart:
    """Return the chart of rates per unit: u ± 3 √(u / n), not below 0; equal sizes make a c-chart.

    Source: NIST/SEMATECH e-Handbook, section 6.3.3.1; Montgomery DC, Introduction to Statistical
    Quality Control, chapter 7.

    Raises:
        ValueError: The columns differ in length, or a count or size is negative.
    """
    return _attributes(counts, sizes, is_share=False)


def _attributes(
    counts: Sequence[int], sizes: Sequence[float], *, is_share: bool
) -> AttributesChart:
    if len(counts) != len(sizes):
        raise ValueError("the columns differ in length")
    if is_share and any(not 0 <= c <= n for c, n in zip(counts, sizes, strict=True)):
        raise ValueError("a count is not between 0 and its size")
    if min(counts, default=0) < 0 or min(sizes, default=0) < 0:
        raise ValueError("a count or size is negative")
    values = tuple(c / n if n else None for c, n in zip(counts, sizes, strict=True))
    centre = sum(counts) / sum(sizes) if sum(sizes) else None
    if centre is None or sum(size > 0 for size in sizes) < FEWEST:
        why = "nothing was counted" if centre is None else f"fewer than {FEWEST} groups"
        return AttributesChart(values, centre, (ControlLimits(why=why),) * len(counts), why)
    spread, most = (centre * (1 - centre), 1.0) if is_share else (centre, math.inf)
    limits = []
    for value, size in zip(values, sizes, strict=True):
        if value is None:
            limits.append(ControlLimits(why="nothing was counted"))
            continue
        reach = 3 * math.sqrt(spread / size)
        low, high = max(0.0, centre - reach), min(most, centre + reach)
        limits.append(ControlLimits(low, high, _is_outside(value, low, high)))
    return AttributesChart(values, centre, tuple(limits))


def _is_outside(value: float, low: float, high: float) -> bool:
    """Say whether a value lies beyond its limits; on the line is within, rounding aside."""
    slack = 1e-9 * max(1.0, abs(value))
    return value < low - slack or value > high + slack
