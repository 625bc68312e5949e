"""What the sample season itself knows of an open order: its own chance to be fitted in time."""

from dataclasses import dataclass

import numpy as np

from seasonboard.sample.schedule import DAY
from seasonboard.sample.turnaround import FITTED, MODELLED, NEVER, PRINTED, SCANNED, working_hours

MEDIANS = (0.0, 2.0, 1.4, 0.8, 0.7, 0.5, 2.2, 1.3)
"""Median days to each stage, as `seasonboard/sample/turnaround.py` plants them; a phone scan: 1."""
SHAPE = 2.2
DRAWS = 200


class Stream:
    """Draws of whole numbers, as `working_hours` takes them."""

    def __init__(self, rng):
        self.rng = rng

    def below(self, count, high):
        return self.rng.integers(0, high, count)


@dataclass(frozen=True)
class Queue:
    """Prints that were ready in one department, one batch of orders, and its prints a week."""

    ready: np.ndarray
    prints: int

    def slots(self, now, own):
        """Return week and place of prints that are ready at `now`, among the others."""
        ready = (
            self.ready if own is None else np.delete(self.ready, np.searchsorted(self.ready, own))
        )
        week = (ready // DAY + 3) // 7
        slot = np.zeros(len(ready), dtype=np.int64)
        for number in range(len(ready)):
            before = slot[number - self.prints] + 1 if number >= self.prints else 0
            slot[number] = max(week[number], before)
        place = np.searchsorted(ready, now)
        before = slot[np.maximum(place - self.prints, 0)] + 1 if len(slot) else 0
        waits = np.where(place >= self.prints, before, 0)
        return np.maximum((now // DAY + 3) // 7, waits), place % self.prints


def generator_chance(orders, row, as_of, by, queue, rng):
    """Return how often the planted laws have an order fitted before `by`, from how it stood."""
    times = orders.times[row]
    stage = int(np.flatnonzero(times < as_of)[-1])
    now = np.full(DRAWS, times[stage])
    for later in range(stage + 1, FITTED + 1):
        if orders.onsite[row] and later in {5, 6}:
            continue
        median = 1.0 if later == SCANNED and orders.phone[row] else MEDIANS[later]
        printed = None
        if later == PRINTED and queue is not None:
            own = times[MODELLED] if times[MODELLED] < NEVER else None
            printed = _printed(queue, now, own)
        share = rng.random(DRAWS)
        if now[0] == times[stage] and later == _next(orders, row, stage):
            passed = _passed(times[stage], as_of, median)
            if printed is not None:
                passed = np.where(printed >= as_of, 0.0, passed)
            share = passed + share * (1 - passed)
        lag = np.floor(median * (share / (1 - share)) ** (1 / SHAPE) * DAY).astype(np.int64) + 5
        now = working_hours(now + np.minimum(lag, 45 * DAY), Stream(rng))
        if printed is not None:
            now = np.maximum(now, printed)
    return float((now < by).mean())


def _next(orders, row, stage):
    return FITTED if orders.onsite[row] and stage == 4 else stage + 1


def _passed(begun, as_of, median):
    """Return the share of stays that would have ended by the last working hour before `as_of`."""
    day = as_of // DAY - 1
    while (day + 3) % 7 >= 5:
        day -= 1
    lasted = max(day * DAY + 18 * 60 - begun - 5, 0) / DAY
    return lasted**SHAPE / (lasted**SHAPE + median**SHAPE)


def _printed(queue, now, own):
    slot, lane = queue.slots(now, own)
    hours = (slot * 7 - 3) * DAY + 8 * 60 + (lane * 5 * DAY) // queue.prints
    at = hours - hours % DAY + np.minimum(hours % DAY, 17 * 60 + 30)
    return np.where(slot > (now // DAY + 3) // 7, at, -1)
