"""Repeat injuries: the mean number per unit by each tick, which no first injury ends."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.bounded_intervals import log_limits
from seasonboard.stats.special import Floats, two_sided
from seasonboard.stats.survival import never_enough

_Ints = np.ndarray[tuple[int], np.dtype[np.int64]]

_NOTHING = 1e-10


@dataclass(frozen=True, slots=True)
class AtRisk:
    """When each unit was at risk, as columns of one length.

    A position is one spell of a unit, at risk at the ticks `entry` + 1 to `leaving`. A unit may
    have several spells, apart (it left and came back) or at once (an athlete with two sites at
    risk). `sites` is how many like sites a spell stands for, 1 unless given. The unit is what the
    standard error takes as independent: an athlete, whose sites belong together.
    """

    unit: Sequence[int]
    entry: Sequence[int]
    leaving: Sequence[int]
    sites: Sequence[int] | None = None


@dataclass(frozen=True, slots=True)
class Events:
    """What happened, as columns of one length: a unit, a tick, and how many events at it."""

    unit: Sequence[int]
    tick: Sequence[int]
    events: Sequence[int]


@dataclass(frozen=True, slots=True)
class MeanPoint:
    """One tick of the curve; `mean` is the number of events per site by then.

    `mean` is None before the curve's start. The standard error and limits are None there, before
    the first event, and while the units do not differ, so that there is no spread to go by.
    """

    tick: int
    at_risk: int
    events: int
    mean: float | None
    std_error: float | None
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class MeanCumulative:
    """Mean cumulative function; with a `start` above 1 it counts events from there on."""

    points: tuple[MeanPoint, ...]
    units: int
    start: int | None
    min_at_risk: int
    level: float
    why: str = ""


def mean_cumulative(
    at_risk: AtRisk,
    events: Events,
    *,
    min_at_risk: int = 1,
    start: int | None = None,
    level: float = 0.95,
) -> MeanCumulative:
    """Return the mean number of events by each tick, with an error that allows for clustering.

    The mean adds up events over those at risk. The error squares what each unit had beyond what
    the mean leads one to expect while it was at risk, and adds that up over all units: events of
    one unit need not be independent. That takes when every unit was at risk, also those without
    events; the number at risk alone would not do.

    Args:
        at_risk: The spells of all units.
        events: The events; several of one unit at one tick all count.
        min_at_risk: The curve starts at the first tick with this many sites at risk.
        start: Start at this tick or later.
        level: Confidence level of the limits, drawn on the log scale.

    Raises:
        ValueError: Columns differ in length, a spell holds no tick, a count is negative, or an
            event falls where its unit is not at risk; the message names the first positions.

    Source: Nelson (1995), J Qual Technol 27, 147-157; Lawless & Nadeau (1995), Technometrics 37,
    158-168, for the robust variance (with n, not n − 1, as divisor).
    """
    z = two_sided(level)
    spells = _Spells(at_risk)
    units, ticks, times = spells.checked(events)
    size = spells.size
    numbers = spells.at_risk()
    happened: Floats = np.bincount(ticks, times, minlength=size).astype(np.float64)
    enough = (numbers >= min_at_risk) & (np.arange(size) >= (start or 0)) & (numbers > 0)
    first = int(np.argmax(enough)) if enough.any() else None
    counted = np.arange(size) >= (size if first is None else first)
    share = np.where(counted & (numbers > 0), 1 / np.maximum(numbers, 1), 0.0)
    means = np.cumsum(happened * share)
    variances = spells.variances((units, ticks, times), happened, share)
    points = []
    for tick, variance in zip(range(size), variances, strict=True):
        if numbers[tick]:
            mean, error = float(means[tick]) if counted[tick] else None, math.sqrt(variance)
            spread: tuple[float | None, ...] = (None, None, None)
            if mean and error > _NOTHING * mean:
                spread = (error, *log_limits(mean, error, z))
            row = (tick, int(numbers[tick]), int(happened[tick]), mean)
            points.append(MeanPoint(*row, *spread))
    why = "" if first is not None else never_enough(points, min_at_risk)
    return MeanCumulative(tuple(points), spells.units, first, min_at_risk, level, why)


class _Spells:
    """Spells as arrays: units numbered from 0, ticks from 0 to `size` − 1."""

    def __init__(self, at_risk: AtRisk) -> None:
        self._entry, self._leaving = _whole(at_risk.entry), _whole(at_risk.leaving)
        ones = [1] * len(at_risk.unit)
        self._sites = _whole(ones if at_risk.sites is None else at_risk.sites)
        if len({len(at_risk.unit), *map(len, (self._entry, self._leaving, self._sites))}) != 1:
            raise ValueError("unit, entry, leaving and sites differ in length")
        _refuse((self._leaving <= self._entry) | (self._entry < 0), "spells that hold no tick")
        _refuse(self._sites < 0, "spells of fewer than 0 sites")
        self._names, numbers = np.unique(_whole(at_risk.unit), return_inverse=True)
        self._unit: _Ints = numbers.astype(np.int64)
        self.units = len(self._names)
        self.size = int(self._leaving.max(initial=0)) + 1

    def at_risk(self) -> _Ints:
        """Return the sites at risk at each tick."""
        came = np.bincount(self._entry + 1, self._sites, minlength=self.size + 1)
        went = np.bincount(self._leaving + 1, self._sites, minlength=self.size + 1)
        numbers: _Ints = np.cumsum(came - went)[: self.size].astype(np.int64)
        return numbers

    def checked(self, events: Events) -> tuple[_Ints, _Ints, _Ints]:
        """Return the events' units, ticks and numbers, all of them of units at risk then."""
        names, ticks, times = _whole(events.unit), _whole(events.tick), _whole(events.events)
        if not len(names) == len(ticks) == len(times):
            raise ValueError("unit, tick and events differ in length")
        _refuse(times < 0, "events counted below 0")
        units = np.minimum(np.searchsorted(self._names, names), max(self.units - 1, 0))
        known = self._names[units] == names if self.units else np.zeros(len(names), dtype=bool)
        known &= (ticks > 0) & (ticks < self.size)
        place = units * self.size + ticks
        present = self._begun(self._entry, place) - self._begun(self._leaving, place)
        _refuse(~known | (present <= 0), "events of units not at risk at their tick")
        return units, ticks, times

    def _begun(self, ticks: _Ints, places: _Ints) -> _Ints:
        """Count, up to each place, the sites whose `ticks` lie before it (unit by unit)."""
        keys = self._unit * self.size + ticks
        order = np.argsort(keys)
        sums = np.concatenate(([0], np.cumsum(self._sites[order])))
        begun: _Ints = sums[np.searchsorted(keys[order], places)]
        return begun

    def variances(
        self, events: tuple[_Ints, _Ints, _Ints], happened: Floats, share: Floats
    ) -> Iterator[float]:
        """Yield the robust variance of the mean at each tick: a sum of squares over units."""
        units, ticks, times = events
        coming, going, happening = (
            _by_tick(column, self.size) for column in (self._entry + 1, self._leaving + 1, ticks)
        )
        present, beyond = np.zeros(self.units), np.zeros(self.units)
        variance = 0.0
        for tick in range(self.size):
            came, went = coming[tick], going[tick]
            np.add.at(present, self._unit[came], self._sites[came])
            np.subtract.at(present, self._unit[went], self._sites[went])
            if happened[tick] and share[tick]:
                beyond -= present * happened[tick] * share[tick] ** 2
                now = happening[tick]
                np.add.at(beyond, units[now], times[now] * share[tick])
                variance = float(beyond @ beyond)
            yield variance


def _by_tick(ticks: _Ints, size: int) -> list[_Ints]:
    """Return, for each tick from 0 to `size` − 1, the positions with that tick."""
    order = np.argsort(ticks, kind="stable")
    ends = np.searchsorted(ticks[order], np.arange(1, size + 1))
    return np.split(order, ends)


def _whole(column: Sequence[int]) -> _Ints:
    return np.asarray(column, dtype=np.int64)


def _refuse(wrong: np.ndarray[tuple[int], np.dtype[np.bool_]], what: str) -> None:
    positions = np.flatnonzero(wrong)
    if len(positions):
        named = ", ".join(str(position) for position in positions[:10])
        raise ValueError(f"{len(positions)} {what}, at positions: {named}")
