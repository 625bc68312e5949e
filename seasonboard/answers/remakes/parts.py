"""What the Remakes answer is made of."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from seasonboard.answers.base import Summary
from seasonboard.answers.options import option
from seasonboard.answers.rows import Rows
from seasonboard.stats.proportions import Proportion
from seasonboard.stats.waiting_times import WaitQuantile

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
    SIDE = "side"
    CONTACT = "contact"
    PURPOSE = "purpose"


@dataclass(frozen=True, slots=True)
class RemakesOptions:
    """How the answer is broken down, and the days after fitting that are looked at."""

    by: RemakesBy = option(RemakesBy.KIND, "--by", "What the groups are.")
    window: int = option(
        WINDOW, "--window", "Days after fitting within which a remake is looked at."
    )
    group_reasons: bool = option(
        False, "--group-reasons", "In text, the reasons of every group too (JSON has them)."
    )


OPTIONS = RemakesOptions


@dataclass(frozen=True, slots=True)
class Within:
    """Share remade within some days of fitting, recent guards counted as far as they are known."""

    days: int
    share: float | None
    low: float | None
    high: float | None
    why: str = ""


class Reading(StrEnum):
    """How a group stands to its limits, in words."""

    TOO_FEW = "too few to tell"
    NO_LIMITS = "no limits"
    ABOVE = "above its limits"
    BELOW = "below its limits"
    WITHIN = "within its limits"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why fitted guards were asked for anew: the reason, whether that is a remake, how often.

    `share` is of all fitted guards asked for anew. `before_fitting` are guards asked for anew for
    this reason that had never been fitted; they are in no share.
    """

    reason: str
    counts_as: str
    count: int
    share: float
    before_fitting: int = 0


@dataclass(frozen=True, slots=True)
class RemakeGroup:
    """Guards of one group: how many were fitted, and how many of those came back.

    `limit_low` and `limit_high` are the group's control limits around the share of all;
    `outside_limits` is None where no limits are drawn or the group is too small to be called
    different. `per_100_worn` is remakes per 100 sessions worn, all remakes of the guard counted,
    with limits and `worn_outside` of its own.
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
    worn_outside: bool | None = None
    reasons: tuple[Reason, ...] = ()

    @property
    def is_small(self) -> bool:
        """Say whether the group is too small to be called different."""
        return self.fitted < FEWEST

    @property
    def reading(self) -> Reading:
        """Say how the group stands to its limits; a small one is not called different."""
        if self.is_small:
            return Reading.TOO_FEW
        if self.outside_limits is None or self.limit_high is None or self.share.share is None:
            return Reading.NO_LIMITS
        if not self.outside_limits:
            return Reading.WITHIN
        return Reading.ABOVE if self.share.share > self.limit_high else Reading.BELOW


@dataclass(frozen=True, slots=True)
class RemakeMonth:
    """Guards fitted in one month and known for the whole window: the share remade within it.

    A month of fewer than ten guards is not called outside its limits.
    """

    month: date
    fitted: int
    remakes: int
    share: float | None
    low: float | None
    high: float | None
    outside_limits: bool


@dataclass(frozen=True, slots=True)
class Chains:
    """Guards followed to the first of their chain, which is the first that was fitted.

    `redone` is the share of first guards that were asked for anew at least once, whatever the
    reason, with exact limits in `redone_exact`; `redone_within` counts those asked for within the
    window of fitting among the first guards known for all of it. `units` are the guards asked for
    in the place of a fitted one; `longest` counts the guards of the longest chain. `days_to_stay`
    are the middle days from the first asking to the fitting of the last guard, of the
    `chains_fitted` whose last guard is fitted. Chains that began before the scope are in none.
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
    """What came back, and why.

    `life` is in sessions worn. `bare_exposures` are sessions taken part in with a site bare, over
    the `waits` for what was asked for in the place of a fitted guard. `rows` are the guards asked
    for anew.
    """

    summary: Summary
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
