"""How long something takes when some of it is still under way, and some was called off.

Times are real numbers in any unit. What is still open has lasted at least so long: it is censored,
never dropped. What was cancelled can no longer finish: it competes. Two readings are offered.
`wait_curve` is Kaplan-Meier for finishing, where the cancelled leave at their time: the wait of
those that are still wanted. `shares_by_age` is Aalen-Johansen: of all that began, which share had
finished, and which had been cancelled, by an age; these add up with the open ones to 1.

At one time, those that finish are counted before those that leave open or cancelled.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum
from itertools import pairwise
from typing import Any

import numpy as np
import numpy.typing as npt

from seasonboard.stats.competing import CauseTick, cumulative_incidence
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.survival import TickCount, kaplan_meier

_TIE = 1e-12
Numbers = Sequence[float] | npt.NDArray[Any]
Codes = Sequence[int] | npt.NDArray[Any]


class Ending(IntEnum):
    """What became of one that began."""

    OPEN = 0
    FINISHED = 1
    CANCELLED = 2


@dataclass(frozen=True, slots=True)
class WaitPoint:
    """One time at which something happened; `waiting` is the share not finished after it."""

    time: float
    at_risk: int
    finished: int
    cancelled: int
    open: int
    waiting: float
    std_error: float | None
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class WaitCurve:
    """The share still waiting by age, of those still wanted; without any, `why` says so."""

    orders: int
    finished: int
    open: int
    cancelled: int
    points: tuple[WaitPoint, ...]
    level: float
    why: str = ""


@dataclass(frozen=True, slots=True)
class AgeShare:
    """Of all that began: the shares finished, cancelled and still open after one age."""

    time: float
    finished: float
    finished_low: float | None
    finished_high: float | None
    cancelled: float
    open: float


@dataclass(frozen=True, slots=True)
class FinishedOnly:
    """Mean and median of the finished alone, with what they leave out; never the answer itself."""

    finished: int
    mean: float | None
    median: float | None
    open_left_out: int
    longest_open: float | None
    why: str = ""


@dataclass(frozen=True, slots=True)
class TimeCounts:
    """Distinct times rising, with who was at risk at each and what became of them."""

    time: npt.NDArray[np.float64]
    at_risk: npt.NDArray[np.int64]
    finished: npt.NDArray[np.int64]
    cancelled: npt.NDArray[np.int64]
    open: npt.NDArray[np.int64]


def wait_curve(durations: Numbers, endings: Codes, *, level: float = 0.95) -> WaitCurve:
    """Return the share still waiting by age, the cancelled leaving at their time.

    `durations` say how long each lasted, or has lasted so far; `endings`, as `Ending`, what became
    of each. Limits are log-log.

    Raises:
        ValueError: A duration is negative or not a number, an ending is unknown, or the columns
            differ in length.

    Source: Kaplan & Meier (1958), J Am Stat Assoc 53, 457-481.
    """
    times = count_times(durations, endings)
    columns = [c.tolist() for c in (times.at_risk, times.finished, times.cancelled, times.open)]
    rows = list(zip(*columns, strict=True))
    # The integer clock of the curves is used with the rank of each time as its tick.
    counts = [TickCount(k, n, d, 0, c + o) for k, (n, d, c, o) in enumerate(rows, 1)]
    curve = kaplan_meier(counts, level=level)
    points = tuple(
        WaitPoint(time, n, d, c, o, p.survival or 0.0, p.std_error, p.low, p.high)
        for time, (n, d, c, o), p in zip(times.time.tolist(), rows, curve.points, strict=True)
    )
    sums = (int(times.finished.sum()), int(times.open.sum()), int(times.cancelled.sum()))
    return WaitCurve(sum(sums), *sums, points, level, "" if points else "there are no orders")


def wait_quantile(curve: WaitCurve, share: float = 0.5) -> Estimate:
    """Return the time by which `share` had finished, of those still wanted: the median by default.

    The value is the first time at which no more than 1 − `share` were waiting; where exactly so
    many waited up to the next finish, it is the middle of that stretch, as a plain median is of an
    even number (Hyndman & Fan's type 2 where none is open). Limits are where the curve's limits
    cross.

    Raises:
        ValueError: `share` does not lie between 0 and 1.

    Source: Brookmeyer & Crowley (1982), Biometrics 38, 29-41, with log-log limits.
    """
    if not 0 < share < 1:
        raise ValueError(f"a share lies between 0 and 1, not {share}")
    wanted = 1 - share
    steps = [p for p in curve.points if p.finished]
    # Where nobody waits any more the curve has no error; its lower limit is there at the latest.
    low = _first([(p.time, 0.0 if p.waiting == 0 else p.low) for p in steps], wanted)
    high = _first([(p.time, p.high) for p in steps], wanted)
    value = _first([(p.time, p.waiting) for p in steps], wanted)
    if value is None:
        why = curve.why or "not reached: none has finished yet"
        if curve.finished:
            last = curve.points[-1].waiting
            why = f"not reached: {last * 100:.0f} % were still waiting at the last"
        return Estimate(None, low, None, curve.level, "brookmeyer-crowley", why)
    for here, after in pairwise(steps):
        if here.time == value and abs(here.waiting - wanted) <= _TIE:
            value = (here.time + after.time) / 2
    why = "" if high is not None else "no upper limit yet"
    return Estimate(value, low, high, curve.level, "brookmeyer-crowley", why)


def shares_by_age(
    durations: Numbers, endings: Codes, *, level: float = 0.95
) -> tuple[AgeShare, ...]:
    """Return, of all that began, the shares finished, cancelled and still open at each time.

    Raises:
        ValueError: As `wait_curve`.

    Source: Aalen & Johansen (1978), Scand J Stat 5, 141-150.
    """
    times = count_times(durations, endings)
    columns = (c.tolist() for c in (times.at_risk, times.finished, times.cancelled))
    ticks = [CauseTick(k, n, (d, c)) for k, (n, d, c) in enumerate(zip(*columns, strict=True), 1)]
    incidence = cumulative_incidence(ticks, ("finished", "cancelled"), level=level)
    finished, cancelled = (cause.points for cause in incidence.causes)
    rows = zip(times.time.tolist(), finished, cancelled, incidence.survival, strict=True)
    return tuple(
        AgeShare(time, f.share or 0.0, f.low, f.high, c.share or 0.0, s.share or 0.0)
        for time, f, c, s in rows
    )


def finished_only(durations: Numbers, endings: Codes) -> FinishedOnly:
    """Return mean and median (the middle two averaged) of the finished, and what is left out.

    Raises:
        ValueError: As `wait_curve`.
    """
    count_times(durations, endings)
    lasted, ended = np.asarray(durations, dtype=float), np.asarray(endings)
    done, open_ = lasted[ended == Ending.FINISHED], lasted[ended == Ending.OPEN]
    longest = float(open_.max()) if len(open_) else None
    if not len(done):
        return FinishedOnly(0, None, None, len(open_), longest, "none has finished")
    return FinishedOnly(len(done), float(done.mean()), float(np.median(done)), len(open_), longest)


def count_times(durations: Numbers, endings: Codes) -> TimeCounts:
    """Return who was at risk at each distinct time, and what became of them.

    Raises:
        ValueError: As `wait_curve`.
    """
    lasted, ended = np.asarray(durations, dtype=float), np.asarray(endings, dtype=np.int64)
    if lasted.shape != ended.shape:
        raise ValueError("durations and endings differ in number")
    if not np.isfinite(lasted).all() or (lasted < 0).any():
        raise ValueError("a duration is a number of 0 or more; set others aside, and say so")
    if not np.isin(ended, list(Ending)).all():
        raise ValueError("an ending is open, finished or cancelled")
    time, where = np.unique(lasted, return_inverse=True)
    finished, cancelled, open_ = (
        np.bincount(where[ended == ending], minlength=len(time))
        for ending in (Ending.FINISHED, Ending.CANCELLED, Ending.OPEN)
    )
    at_risk = np.cumsum((finished + cancelled + open_)[::-1])[::-1]
    return TimeCounts(time, at_risk, finished, cancelled, open_)


def _first(values: Sequence[tuple[float, float | None]], wanted: float) -> float | None:
    return next((t for t, v in values if v is not None and v <= wanted + _TIE), None)
