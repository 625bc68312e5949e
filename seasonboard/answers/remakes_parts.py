"""What the Remakes answer is made of."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from seasonboard.answers.base import Said
from seasonboard.answers.rows import Rows
from seasonboard.stats.durations import WaitQuantile
from seasonboard.stats.proportions import Proportion

WINDOW = 30
"""Days after fitting within which a remake tells of the making rather than of the wearing."""
FEWEST = 10
"""Fitted guards below which a group is too small to be called different."""
NOT_RECORDED = "not recorded"

CONTACT_BANDS = ((0.0, 85.0, "under 85 %"), (85.0, 92.0, "85 to 92 %"), (92.0, 101.0, "92 % up"))
"""Bands of the share of the pad in contact: from, up to (not counted), in words. Our own choice."""


class RemakesBy(StrEnum):
    """What the groups of the answer are."""

    KIND = "kind"
    SCAN_METHOD = "scan-method"
    PRINTER = "printer"
    DEPARTMENT = "department"
    CONTACT = "contact"
    PURPOSE = "purpose"


@dataclass(frozen=True, slots=True)
class RemakesOptions:
    """How the answer is broken down, and the days after fitting that are looked at."""

    by: RemakesBy = RemakesBy.KIND
    window: int = WINDOW


@dataclass(frozen=True, slots=True)
class Within:
    """Share remade within some days of fitting, recent guards counted as far as they are known."""

    days: int
    share: float | None
    low: float | None
    high: float | None
    why: str = ""


@dataclass(frozen=True, slots=True)
class RemakeGroup:
    """Guards of one group: how many were fitted, and how many of those came back.

    `limit_low` and `limit_high` are the group's control limits around the share of all;
    `outside_limits` is None where no limits are drawn. `per_100_worn` is remakes per 100 sessions
    worn, all remakes of the guard counted, with limits of its own.
    """

    group: str
    fitted: int
    remakes: int
    replacements: int
    reason_not_recorded: int
    share: Proportion
    within: Within
    limit_low: float | None
    limit_high: float | None
    outside_limits: bool | None
    sessions_worn: int
    per_100_worn: float | None
    worn_limit_low: float | None
    worn_limit_high: float | None

    @property
    def is_small(self) -> bool:
        """Say whether the group is too small to be called different."""
        return self.fitted < FEWEST


@dataclass(frozen=True, slots=True)
class Reason:
    """Why guards were asked for anew: the reason, whether that is a remake, how often."""

    reason: str
    counts_as: str
    count: int
    share: float


@dataclass(frozen=True, slots=True)
class RemakeMonth:
    """Guards fitted in one month and known for the whole window: the share remade within it."""

    month: date
    fitted: int
    remakes: int
    share: float | None
    low: float | None
    high: float | None
    outside_limits: bool


@dataclass(frozen=True, slots=True)
class Chains:
    """Guards followed to the first of their chain.

    `redone` is the share of first guards that were asked for anew at least once, whatever the
    reason, with exact limits in `redone_exact`; `redone_within` counts those asked for within the
    window of fitting among the first guards known for all of it. `units` are the guards made in
    their place; `longest` counts the guards of the longest chain. `days_to_stay` are the middle
    days from the first asking to the fitting of the last guard, of the chains whose last guard is
    fitted.
    """

    firsts: int
    redone: Proportion
    redone_exact: Proportion
    redone_within: Proportion
    units: int
    longest: int
    days_to_stay: float | None
    chains_fitted: int


@dataclass(frozen=True, slots=True)
class RemakesAnswer:
    """What came back, and why. `rows` are the guards asked for anew."""

    said: Said
    options: RemakesOptions
    whole: RemakeGroup
    groups: tuple[RemakeGroup, ...]
    reasons: tuple[Reason, ...]
    months: tuple[RemakeMonth, ...]
    chains: Chains
    life: WaitQuantile
    guards_in_use: int
    bare_exposures: int
    waits: int
    rows: Rows
