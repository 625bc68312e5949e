"""How long injuries keep athletes out: a law to draw from, and the games that fall into it."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class AbsenceLaw:
    """The chance of each number of days lost; `days` rise, `chances` add up to 1.

    `beyond` is the part of the last chance that stands for injuries that had lasted so long and
    were still open: they last at least so many days.
    """

    days: tuple[int, ...]
    chances: tuple[float, ...]
    injuries: int
    still_open: int
    beyond: float

    @property
    def mean(self) -> float:
        """Return the mean number of days, at least so many where something is `beyond`."""
        return float(np.dot(self.days, self.chances))

    @property
    def std_error(self) -> float:
        """Return the standard error of the mean, from the injuries that have ended."""
        ended = max(self.injuries - self.still_open, 1)
        spread = np.dot((np.asarray(self.days) - self.mean) ** 2, self.chances)
        return float(np.sqrt(spread / ended))


def absence_law(counts: Sequence[tuple[int, int, int]]) -> AbsenceLaw | None:
    """Return the law of days lost, open injuries counted as far as they have lasted.

    What is left of the Kaplan-Meier curve after the last day is put on that day. `counts` are (days
    lost, injuries with a return then, injuries open since so long), days rising.

    Returns:
        The law; None without an injury.

    Raises:
        ValueError: The days do not rise, or a count is negative.

    Source: Kaplan & Meier (1958), J Am Stat Assoc 53, 457-481.
    """
    if not counts:
        return None
    days, returned, still_open = np.asarray(counts, dtype=np.int64).T
    if (np.diff(days) <= 0).any() or min(days.min(), returned.min(), still_open.min()) < 0:
        raise ValueError("days rise, and days and counts are 0 or more")
    leaving = returned + still_open
    at_risk = leaving[::-1].cumsum()[::-1]
    out = np.cumprod(1 - returned / np.maximum(at_risk, 1))
    chances = np.concatenate(([1.0], out[:-1])) - out
    chances[-1] += out[-1]
    law = (tuple(days.tolist()), tuple(chances.tolist()))
    return AbsenceLaw(*law, int(leaving.sum()), int(still_open.sum()), float(out[-1]))


def draw_absences(
    law: AbsenceLaw,
    games: Floats,
    days_in_season: float,
    random: np.random.Generator,
    longer: Floats | float = 1.0,
) -> tuple[Floats, Floats]:
    """Draw, for each injury, the days out within the season and the games missed.

    An injury falls on any moment of the season alike and keeps the athlete out for the days drawn,
    at most to the season's end. The team's games are spread evenly, from a start drawn at random,
    so that on average days out × games / days of the season are missed. `games` has the games in
    the season of the team of each injury, `longer` by how much its days are longer.
    """
    size = len(games)
    step = np.searchsorted(np.cumsum(law.chances), random.random(size), side="right")
    days = np.asarray(law.days, dtype=np.float64)[np.minimum(step, len(law.days) - 1)] * longer
    begin, phase = random.random(size) * days_in_season, random.random(size)
    out = np.minimum(days, days_in_season - begin)
    pace = games / days_in_season
    missed = np.floor((begin + out) * pace + phase) - np.floor(begin * pace + phase)
    return out, missed


def mean_days_out(law: AbsenceLaw, days_in_season: float) -> float:
    """Return the mean days out within the season that `draw_absences` draws around."""
    days = np.minimum(np.asarray(law.days, dtype=np.float64), days_in_season)
    within = days - days**2 / (2 * days_in_season)
    return float(np.dot(within, law.chances))
