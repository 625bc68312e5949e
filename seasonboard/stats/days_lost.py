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
from seasonboard.stats.survival import LOG_LOG, Curve, TickCount, kaplan_meier, quantile

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

    `days` are full days lost by each injury; so far, where it `is_open`, without a return.

    Raises:
        ValueError: The columns differ in length, or days are below 0.

    Source: Bahr et al. (2020), Br J Sports Med 54, 372-389, for the count of days and the bins;
    Kaplan & Meier (1958), J Am Stat Assoc 53, 457-481.
    """
    lost, open_now = np.asarray(days, dtype=np.int64), np.asarray(is_open, dtype=bool)
    if len(lost) != len(open_now):
        raise ValueError("days and is_open differ in length")
    if (lost < 0).any():
        raise ValueError("days lost are 0 or more")
    ticks, place = np.unique(lost, return_inverse=True)
    ended = np.bincount(place[~open_now], minlength=len(ticks))
    still = np.bincount(place[open_now], minlength=len(ticks))
    counts = list(zip(ticks.tolist(), ended.tolist(), still.tolist(), strict=True))
    curve = return_curve(counts, level=level)
    bins = []
    for name, low, high in BINS:
        within = (lost >= low) & (lost <= (math.inf if high is None else high))
        ends = (int((within & ~open_now).sum()), int((within & open_now).sum()))
        bins.append(SeverityBin(name, low, high, *ends))
    return Severity(
        injuries=len(lost),
        still_open=int(open_now.sum()),
        bins=tuple(bins),
        days=int(lost.sum()),
        mean=float(lost.mean()) if len(lost) else None,
        median=quantile(curve),
        share_over=_share_out(curve, LONG),
    )


def return_curve(counts: Sequence[tuple[int, int, int]], *, level: float = 0.95) -> Curve:
    """Return the share still out after so many days lost.

    `counts` are (days lost, injuries with a return then, injuries open since so long), days rising.

    Raises:
        ValueError: The days do not rise.
    """
    at_risk = sum(returned + still_open for _, returned, still_open in counts)
    ticks: list[TickCount] = []
    for tick, returned, still_open in counts:
        ticks.append(TickCount(tick, at_risk, returned, 0 if ticks else at_risk, still_open))
        at_risk -= returned + still_open
    return kaplan_meier(ticks, level=level)


def burden(days: int, exposures: int, *, is_lower_bound: bool = False) -> Burden:
    """Return days lost per 1000 athlete-exposures; a lower bound where some injuries are open.

    Raises:
        ValueError: A count is negative.

    Source: Bahr, Clarsen & Ekstrand (2018), Br J Sports Med 52, 1018-1021.
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

    `who` numbers whose stretch it is, from 0 to `size` − 1; `first` and `last` are its first and
    last day, as day numbers. A stretch that ends before it starts holds no day.

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


def _share_out(curve: Curve, days: int) -> Estimate:
    """Return the share still out after so many days."""
    if not curve.points:
        return Estimate(None, level=curve.level, method=LOG_LOG, why="no injuries")
    until = [point for point in curve.points if point.tick <= days]
    last = curve.points[-1]
    if not any(point.injuries for point in until) and last.tick >= days:
        why = "no limits: none has returned within so many days"
        return Estimate(1.0, level=curve.level, method=LOG_LOG, why=why)
    final = until[-1]
    if last.tick < days and not math.isclose(final.survival or 0.0, 0, abs_tol=1e-12):
        why = f"none has been followed for {days} days"
        return Estimate(None, level=curve.level, method=LOG_LOG, why=why)
    why = "" if final.low is not None else "no limits: none is left out"
    return Estimate(final.survival, final.low, final.high, curve.level, LOG_LOG, why)
