"""What the Turnaround answer is asked with and made of."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from seasonboard.answers.base import Summary
from seasonboard.answers.options import option
from seasonboard.answers.orders.open_orders import OpenOrder
from seasonboard.answers.orders.order_times import MAKING, Unit, read_stage
from seasonboard.stats.control_charts import IndividualsChart
from seasonboard.stats.proportions import Proportion
from seasonboard.stats.waiting_times import AgeShare, FinishedOnly, WaitCurve, WaitQuantile
from seasonboard.terms import Stage


class By(StrEnum):
    """What orders are grouped by."""

    DEPARTMENT = "department"
    PLAN = "plan"
    KIND = "kind"
    SCAN_METHOD = "scan-method"
    PRINTER = "printer"


@dataclass(frozen=True, slots=True)
class OrderGroup:
    """One group of orders: by what, its key (empty where that is not recorded), and its name."""

    by: By
    key: str
    name: str


@dataclass(frozen=True, slots=True)
class TurnaroundOptions:
    """Between which stages, in which unit, grouped by what; holidays for working days.

    `holidays` are days that nobody works beside weekends, `holidays_of` says whose they are.
    """

    start: Stage = option(
        Stage.REQUESTED, "--from", f"First stage: {', '.join(MAKING)}.", parse=read_stage
    )
    end: Stage = option(Stage.FITTED, "--to", "Second stage, later in that row.", parse=read_stage)
    unit: Unit = option(Unit.DAYS, "--unit", "Elapsed hours, calendar days, or Mondays to Fridays.")
    by: By | None = option(None, "--by", "Group the orders.")
    holidays: tuple[date, ...] = ()
    holidays_of: str = option(
        "",
        "--holidays",
        "Leave public holidays out of working days, as US or US-NY (needs “holidays”).",
        metavar="COUNTRY[-PART]",
    )


OPTIONS = TurnaroundOptions


@dataclass(frozen=True, slots=True)
class Ready:
    """Orders fitted before the team's first game that starts after the request.

    `share.trials` are the orders of which it is decided; the rest is counted apart: `undecided`
    (not fitted, that game is still to come), `cancelled` (before that game), `no_game` (none of
    that season is recorded after the request).
    """

    share: Proportion
    undecided: int
    cancelled: int
    no_game: int


@dataclass(frozen=True, slots=True)
class StageTime:
    """Time from one stage to the next one that is recorded, whichever that is.

    `orders` reached the stage, `finished` went on to a later one, `waiting` are open and in it now,
    `cancelled` were called off in it; `median` counts those waiting up to now. `next_stages` are
    the stages gone on to, the most frequent first.
    """

    stage: str
    next_stages: tuple[str, ...]
    orders: int
    finished: int
    waiting: int
    cancelled: int
    median: WaitQuantile


@dataclass(frozen=True, slots=True)
class Together:
    """Guards that one athlete began on one day, as one request: done when its last guard is.

    `median` counts open requests up to their age, `finished_median` is of complete ones alone.
    """

    requests: int
    complete: int
    open: int
    cancelled: int
    median: WaitQuantile
    finished_median: float | None


@dataclass(frozen=True, slots=True)
class TurnaroundGroup:
    """The turnaround of one group; its name is how it is shown, its key what it is called."""

    key: str
    name: str
    curve: WaitCurve
    shares: tuple[AgeShare, ...]
    median: WaitQuantile
    p80: WaitQuantile
    p95: WaitQuantile
    finished_only: FinishedOnly
    ready: Ready
    stages: tuple[StageTime, ...]
    together: Together

    @property
    def orders(self) -> int:
        """Return how many orders were timed."""
        return self.curve.orders


@dataclass(frozen=True, slots=True)
class Week:
    """Orders that began in one ISO week (`monday`), open ones counted up to their age.

    `is_charted` weeks set the limits: reached, and old enough that a slow week would show.
    """

    monday: date
    orders: int
    finished: int
    median: WaitQuantile
    is_charted: bool
    is_outside: bool
    why: str


@dataclass(frozen=True, slots=True)
class TurnaroundAnswer:
    """The answer of the Turnaround screen; `whole` is all orders together.

    `groups` holds `whole` alone when they are not grouped. `chart` is None, with `chart_why`, where
    too few weeks can be charted.
    """

    summary: Summary
    options: TurnaroundOptions
    whole: TurnaroundGroup
    groups: tuple[TurnaroundGroup, ...]
    weeks: tuple[Week, ...]
    chart: IndividualsChart | None
    chart_why: str
    open_orders: tuple[OpenOrder, ...]

    def group(self, key: str) -> OrderGroup | None:
        """Return one of the groups by its key; None where the orders are not grouped by it."""
        by = self.options.by
        names = [group.name for group in self.groups if group.key == key]
        return OrderGroup(by, key, names[0]) if by is not None and names else None
