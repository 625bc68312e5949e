"""The chance to be finished by a time, of something that has waited for a while already."""

import math
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.bounded_intervals import log_log_limits
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import clopper_pearson
from seasonboard.stats.special import two_sided
from seasonboard.stats.waiting_times import Codes, Numbers, count_times

_TIE = 1e-12


@dataclass(frozen=True, slots=True)
class Chance(Estimate):
    """The chance to finish by a time, having waited for an age, 0 to 1.

    `orders` of the others had waited longer than that age: the chance rests on them. With
    `is_least` nobody was followed as long as that time, and the chance is only a lower bound.
    """

    orders: int = 0
    is_least: bool = False


def chances(
    durations: Numbers, endings: Codes, *, ages: Numbers, by: Numbers, level: float = 0.95
) -> tuple[Chance, ...]:
    """Return, for each of several that wait, the chance to finish by a time: P(T ≤ by | T > age).

    It is one minus Kaplan-Meier among those of the others that waited longer than that age, with
    log-log limits; the cancelled leave at their time. Where all or none of those seen through the
    stretch finished in it, the limits are the exact ones of a share (Clopper & Pearson 1934).

    `durations` and `endings` are those of the others, as in `wait_curve`. `ages` say how long each
    one has waited, `by` the time since its beginning by which it should be finished.

    Raises:
        ValueError: As `wait_curve`, or a time lies before its age.
    """
    since, until = np.asarray(ages, dtype=float), np.asarray(by, dtype=float)
    if since.shape != until.shape or (until < since).any():
        raise ValueError("every age needs a time at or after it")
    z = two_sided(level)
    times = count_times(durations, endings)
    n, d = times.at_risk.astype(float), times.finished.astype(float)
    with np.errstate(divide="ignore"):
        logs = np.concatenate(([0.0], np.cumsum(np.log1p(-d / n))))
        error = np.concatenate(([0.0], np.cumsum(np.where(d > 0, d / (n * (n - d)), 0.0))))
    at_age = np.searchsorted(times.time, since, side="right")
    at_by = np.searchsorted(times.time, until, side="right")
    at_risk = np.concatenate((times.at_risk, [0]))
    waited = at_risk[at_age]
    last = float(times.time[-1]) if len(times.time) else 0.0
    done = np.concatenate(([0], np.cumsum(times.finished)))
    columns = (
        logs[at_by] - np.where(waited > 0, logs[at_age], 0.0),
        error[at_by] - np.where(waited > 0, error[at_age], 0.0),
        waited,
        until <= last,
        done[at_by] - done[at_age],
        at_risk[at_by],
    )
    rows = zip(*(column.tolist() for column in columns), strict=True)
    return tuple(_chance(_Stretch(*row), z, level) for row in rows)


@dataclass(frozen=True, slots=True)
class _Stretch:
    """From an age to a time: the log of the share that goes on waiting, and who was seen in it."""

    log_waiting: float
    variance: float
    orders: int
    is_followed: bool
    finished: int
    still_waiting: int


def _chance(seen: _Stretch, z: float, level: float) -> Chance:
    if not seen.orders:
        return Chance(None, level=level, why="none of the comparable orders has waited so long")
    waiting = math.exp(seen.log_waiting)
    if not seen.is_followed and waiting > 0:
        why = "at least so much: none of the comparable orders was followed so long"
        return Chance(1 - waiting, level=level, why=why, orders=seen.orders, is_least=True)
    if waiting == 0 or waiting > 1 - _TIE:  # no error: the exact interval of those seen through
        exact = clopper_pearson(seen.finished, seen.finished + seen.still_waiting, level=level)
        limits = (exact.low, exact.high, level, exact.method, exact.why)
        return Chance(float(min(seen.finished, 1)), *limits, seen.orders)
    low, high = log_log_limits(waiting, waiting * math.sqrt(seen.variance), z)
    return Chance(1 - waiting, 1 - high, 1 - low, level, "log-log", orders=seen.orders)
