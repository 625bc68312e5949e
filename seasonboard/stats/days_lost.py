"""Days lost to injury: severity, burden, and days unavailable.

The day of onset is day 0 and not lost, nor is the day of return. An injury without a return has
lost at least the days that it has lasted: it is censored there, not dropped.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seasonboard.stats.estimate import Estimate, Quantile
from seasonboard.stats.rates import PER
from seasonboard.stats.survival import (
    Band,
    Curve,
    CurvePoint,
    TickCount,
    kaplan_meier,
    quantile,
)

BINS: tuple[tuple[str, int, int | None], ...] = (
    ("0 days", 0, 0),
    ("1–7 days", 1, 7),
    ("8–28 days", 8, 28),
    ("over 28 days", 29, None),
)
"""Severity by days lost (IOC consensus statement 2020)."""

LONG = 28
"""The share still out is told after this many days."""


@dataclass(frozen=True, slots=True)
class SeverityBin:
    """Injuries with so many days lost; `still_open` have lost so many so far, and go on."""

    name: str
    low: int
    high: int | None
    returned: int
    still_open: int


@dataclass(frozen=True, slots=True)
class Severity:
    """How many days injuries cost.

    `days` is the sum, at least so many where some are still open; `mean` is `days` over injuries.
    `median` and `share_over` (still out after 28 days) allow for open ones (Kaplan-Meier).
    """

    injuries: int
    still_open: int
    bins: tuple[SeverityBin, ...]
    days: int
    mean: float | None
    median: Quantile
    share_over: Estimate


@dataclass(frozen=True, slots=True)
class Burden:
    """Days lost per 1000 exposures: incidence times mean severity; None, with why, without any."""

    days: int
    exposures: int
    per_1000: float | None
    is_lower_bound: bool
    why: str = ""


def severity(days: Sequence[int], is_open: Sequence[bool], *, level: float = 0.95) -> Severity:
    """Return the severity of injuries.

    Args:
        days: Full days lost by each injury, 0 or more; so far, where it is open.
        is_open: Whether it is without a return.
        level: Two-sided confidence level of the limits.

    Raises:
        ValueError: The columns differ in length, or days are below 0.

    References:
        Bahr et al. (2020), Br J Sports Med 54, 372-389, for the count of days and the bins;
        Kaplan & Meier (1958), J Am Stat Assoc 53, 457-481.
    """
    lost, open_now = np.asarray(days, dtype=np.int64), np.asarray(is_open, dtype=bool)
    if len(lost) != len(open_now):
        raise ValueError("days and is_open differ in length")
    if (lost < 0).any():
        raise ValueError("days lost are 0 or more")
    ticks = np.unique(lost)
    counts = [
        (int(tick), int((~open_now & (lost == tick)).sum()), int((open_now & (lost == tick)).sum()))
        for tick in ticks
    ]
    curve = return_curve(counts, level=level)
    bins = tuple(
        SeverityBin(
            name,
            low,
            high,
            sum(n for tick, n, _ in counts if _within(tick, low, high)),
            sum(n for tick, _, n in counts if _within(tick, low, high)),
        )
        for name, low, high in BINS
    )
    return Severity(
        injuries=len(lost),
        still_open=int(open_now.sum()),
        bins=bins,
        days=int(lost.sum()),
        mean=float(lost.mean()) if len(lost) else None,
        median=quantile(curve),
        share_over=_share_out(curve, LONG),
    )


def return_curve(counts: Sequence[tuple[int, int, int]], *, level: float = 0.95) -> Curve:
    """Return the share still out after so many days lost.

    Args:
        counts: (days lost, injuries with a return then, injuries open since so long), days rising.
        level: Two-sided confidence level of the limits.

    Raises:
        ValueError: The days do not rise.
    """
    at_risk = sum(returned + still_open for _, returned, still_open in counts)
    ticks: list[TickCount] = []
    for tick, returned, still_open in counts:
        ticks.append(TickCount(tick, at_risk, returned, 0 if ticks else at_risk, still_open))
        at_risk -= returned + still_open
    return kaplan_meier(ticks, level=level, band=Band.LOG_LOG)


def burden(days: int, exposures: int, *, is_lower_bound: bool = False) -> Burden:
    """Return days lost per 1000 athlete-exposures.

    Args:
        days: Days lost by all injuries together.
        exposures: Athlete-exposures of the same athletes and time.
        is_lower_bound: Some of the injuries are still open.

    Raises:
        ValueError: A count is negative.

    References:
        Bahr, Clarsen & Ekstrand (2018), Br J Sports Med 52, 1018-1021.
    """
    if days < 0 or exposures < 0:
        raise ValueError(f"counts are 0 or more, not {days} days / {exposures} exposures")
    if not exposures:
        return Burden(days, 0, None, is_lower_bound, "no exposures")
    return Burden(days, exposures, days * PER / exposures, is_lower_bound)


def union_days(
    who: Sequence[int], first: Sequence[int], last: Sequence[int], *, size: int
) -> NDArray[np.int64]:
    """Return how many days each one's stretches cover; days covered twice count once.

    Args:
        who: Number of whose stretch it is, 0 to `size` − 1.
        first: Its first day, as a day number.
        last: Its last day; a stretch that ends before it starts holds no day.
        size: How many there are.

    Raises:
        ValueError: The columns differ in length, or a number is not below `size`.
    """
    owner, begin = np.asarray(who, dtype=np.int64), np.asarray(first, dtype=np.int64)
    end = np.asarray(last, dtype=np.int64) + 1
    if not len(owner) == len(begin) == len(end):
        raise ValueError("who, first and last differ in length")
    if len(owner) and not 0 <= int(owner.min()) <= int(owner.max()) < size:
        raise ValueError(f"who goes from 0 to {size - 1}")
    has_days = end > begin
    owner, begin, end = owner[has_days], begin[has_days], end[has_days]
    if not len(owner):
        return np.zeros(size, dtype=np.int64)
    order = np.lexsort((begin, owner))
    owner, begin, end = owner[order], begin[order], end[order]
    apart = owner * (int(end.max()) - int(begin.min()) + 1)  # keeps each one's days from the next's
    begin, end = begin + apart, end + apart
    reached = np.concatenate(([begin[0]], np.maximum.accumulate(end)[:-1]))
    fresh = np.maximum(end - np.maximum(begin, reached), 0)
    return np.bincount(owner, weights=fresh, minlength=size).astype(np.int64)


def _within(days: int, low: int, high: int | None) -> bool:
    return low <= days and (high is None or days <= high)


def _share_out(curve: Curve, days: int) -> Estimate:
    """Return the share still out after so many days."""

    def unknown(why: str) -> Estimate:
        return Estimate(None, level=curve.level, method=curve.band, why=why)

    if not curve.points:
        return unknown("no injuries")
    until: list[CurvePoint] = [point for point in curve.points if point.tick <= days]
    last = curve.points[-1]
    if not any(point.injuries for point in until) and last.tick >= days:
        why = "no limits: none has returned within so many days"
        return Estimate(1.0, level=curve.level, method=curve.band, why=why)
    final = until[-1]
    share = final.survival
    if last.tick < days and share is not None and not math.isclose(share, 0, abs_tol=1e-12):
        return unknown(f"none has been followed for {days} days")
    why = "" if final.low is not None else "no limits: none is left out"
    return Estimate(share, final.low, final.high, curve.level, curve.band, why)
