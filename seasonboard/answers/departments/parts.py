"""What the Departments answer is made of."""

from dataclasses import dataclass
from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion

TREND_WEEKS = 12
"""Weeks of a trend, the last one up to the last day known."""

AVAILABILITY_DAYS = 28
"""Days over which availability is told."""

FELL = 0.05
"""A fall of availability by this much, over as many days before, calls for attention."""


@dataclass(frozen=True, slots=True)
class Allotment:
    """Prints against the plan: in the last whole week (its Monday), and over all whole weeks.

    `used` is prints / prints allowed; None without an allotment, with `why`. `queue` are orders
    not yet printed.
    """

    prints_per_week: int | None
    week: date | None = None
    week_prints: int | None = None
    week_used: float | None = None
    used: float | None = None
    weeks_over: int = 0
    queue: int = 0
    why: str = ""


@dataclass(frozen=True, slots=True)
class Available:
    """Availability over team sessions; the share is None, with `why`, where nothing is recorded."""

    sessions: int
    available: int
    recorded: int
    not_known: int
    share: float | None
    why: str = ""


Numbers = tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Trends:
    """One number a week; None: none that week. `weeks` are Mondays, the last may be under way.

    `turnaround` is the median in days of orders that began in the week, open ones counted;
    `remakes` how many were asked for in it.
    """

    weeks: tuple[date, ...]
    turnaround: Numbers
    remakes: Numbers
    availability: Numbers
    worn: Numbers


@dataclass(frozen=True, slots=True)
class DepartmentRow:
    """One department: what is open, how it goes, and what calls for attention, in sentences.

    `late` is None where orders are open and it cannot be told which are late, `oldest_days` where
    none is open.
    """

    department: str
    name: str
    plan: str
    open: int
    late: int | None
    oldest_days: int | None
    turnaround: Estimate
    ready: Proportion
    remakes: Proportion
    allotment: Allotment
    available: Available
    available_before: Available
    worn: ClusteredShare
    overdue: int
    trends: Trends
    attention: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DepartmentsAnswer:
    """The answer of the Departments screen: those first that need attention most."""

    summary: Summary
    departments: tuple[DepartmentRow, ...]
