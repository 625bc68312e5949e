"""What the Return answer is made of."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from seasonboard.answers.base import Summary
from seasonboard.answers.returns.out_now import OutNow
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.multistate import StatePoint
from seasonboard.stats.proportions import Proportion
from seasonboard.stats.rates import Rate
from seasonboard.stats.ratios import RateRatio

STATES = ("out", "bare", "guarded", "hurt again")
"""Where an athlete can be after an injury: out, back bare, back in a return guard, hurt there."""
CLOCKS = ("games", "days")


@dataclass(frozen=True, slots=True)
class Wait:
    """How long one part of the way took; open ones are censored, those called off leave.

    `unit` is days or games. `median` and `p80` are of those still wanted.
    """

    name: str
    unit: str
    begun: int
    ended: int
    still_open: int
    called_off: int
    median: Estimate
    p80: Estimate


@dataclass(frozen=True, slots=True)
class Contrast:
    """Guarded against bare within strata, and the verdict by the rules of Compare.

    `name` is `back` (returns on a day out, with a return guard in hand or without) or `again` (the
    site hurt again in an exposure, in a return guard or bare).
    """

    name: str
    ratio: RateRatio
    verdict: str


@dataclass(frozen=True, slots=True)
class Recurrence:
    """Injuries to the same site within one stretch of time after the return, per 1000 exposures."""

    name: str
    guarded: Rate
    bare: Rate


@dataclass(frozen=True, slots=True)
class GamesWorn:
    """Games that athletes of one department, or of all, played in a return guard."""

    department: str
    games: int
    athletes: int
    guards: int


@dataclass(frozen=True, slots=True)
class StateRow:
    """The shares of the states at one tick of one clock."""

    clock: str
    point: StatePoint


@dataclass(frozen=True, slots=True)
class ReturnsAnswer:
    """How soon hurt athletes are back, and in what guard.

    `asked` is the share of injuries with a return guard asked for, `in_time` that of fitted first
    return guards that came by the day of return. `strata` are rows of `return/again`, `episodes` of
    `return/episodes`, `days` of `return/back`. `sayable` is what a founder may say of them.
    """

    summary: Summary
    injuries: int
    back: int
    out: int
    again: int
    asked: Proportion
    in_time: Proportion
    waits: tuple[Wait, ...]
    states: tuple[StateRow, ...]
    contrasts: tuple[Contrast, Contrast]
    recurrences: tuple[Recurrence, ...]
    games_worn: tuple[GamesWorn, ...]
    sayable: str
    out_now: tuple[OutNow, ...]
    strata: tuple[Mapping[str, Any], ...]
    days: tuple[Mapping[str, Any], ...]
    episodes: tuple[Mapping[str, Any], ...]
