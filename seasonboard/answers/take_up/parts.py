"""What the Take-up answer is made of."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from seasonboard.answers.base import Summary
from seasonboard.answers.options import option
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.proportions import Proportion

ELIGIBLE, OFFERED, ACCEPTED, FITTED, WORN = "eligible", "offered", "accepted", "fitted", "worn"
STEPS = (ELIGIBLE, OFFERED, ACCEPTED, FITTED, WORN)
"""The steps in their order."""

NOT_RECORDED = "not recorded"
"""The name of the group of those whose position group is not recorded."""


class TakeUpBy(StrEnum):
    """What the rows of the answer stand for."""

    TEAM = "team"
    POSITION_GROUP = "position-group"
    KIND = "kind"


@dataclass(frozen=True, slots=True)
class TakeUpOptions:
    """How the answer is broken down."""

    by: TakeUpBy = option(TakeUpBy.TEAM, "--by", "What the groups are.")


OPTIONS = TakeUpOptions


@dataclass(frozen=True, slots=True)
class Step:
    """One step: how many athletes reached it.

    `of_before` is the share of those at the step before who reached this one too, for one kind of
    guard; `without_before` reached this step with a kind for which the step before is not recorded:
    they count in `count`, not in `of_before`. Shares of the first step are None with `why`.
    """

    step: str
    count: int
    of_before: Proportion
    of_eligible: Proportion
    without_before: int


@dataclass(frozen=True, slots=True)
class WornWeek:
    """One week (its Monday): the share of sessions with a guard fitted in which one was worn."""

    week: date
    worn: ClusteredShare


@dataclass(frozen=True, slots=True)
class TakeUpGroup:
    """The steps of one group, and how the guards are worn.

    Of those offered, by the answer to the last offer: accepted (a step), else `declined`, else
    `undecided`. `waiting` accepted or not, have an open order and no guard fitted yet.
    `worn` counts sessions of an athlete with a kind of guard; `weeks` the same, week by week.
    """

    group: str
    steps: tuple[Step, ...]
    declined: int
    undecided: int
    waiting: int
    worn: ClusteredShare
    weeks: tuple[WornWeek, ...]

    def step(self, name: str) -> Step:
        """Return one step by its name."""
        return next(step for step in self.steps if step.step == name)


@dataclass(frozen=True, slots=True)
class Reason:
    """How many last offers were answered so, with this reason; None where none was recorded."""

    answer: str
    reason: str | None
    count: int


@dataclass(frozen=True, slots=True)
class Break:
    """Something recorded out of the order of the steps: it is counted, and told."""

    what: str
    athletes: int


@dataclass(frozen=True, slots=True)
class TakeUpAnswer:
    """The answer of the Take-up screen.

    `whole` counts athletes with any kind of guard in scope; `kinds` the same kind by kind, where
    there are several; `groups` by team, position group or kind, as asked for. `breaks` are places
    where what was recorded breaks the order of the steps.
    """

    summary: Summary
    by: TakeUpBy
    whole: TakeUpGroup
    kinds: tuple[TakeUpGroup, ...]
    groups: tuple[TakeUpGroup, ...]
    reasons: tuple[Reason, ...]
    breaks: tuple[Break, ...]
