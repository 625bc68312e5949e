"""What the Capacity answer is made of."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from seasonboard.answers.base import Summary
from seasonboard.answers.options import option
from seasonboard.answers.orders.forecast import Chance
from seasonboard.stats.print_changes import PrintChange

DAYS_AHEAD = 28
"""Days in which games are looked at."""

WEEK_HOURS = 168.0


class ReturnGuards(StrEnum):
    """Where guards for a return after injury stand in the order to print."""

    FIRST = "first"
    AS_OTHERS = "as-others"


@dataclass(frozen=True, slots=True)
class CapacityOptions:
    """What the order to agree on keeps to."""

    returns: ReturnGuards = option(
        ReturnGuards.FIRST, "--return-guards", "Print guards for injured athletes first, or not."
    )


OPTIONS = CapacityOptions


@dataclass(frozen=True, slots=True)
class QueuedPrint:
    """One print that waits, at its place in the order to agree on.

    `rule` says why it stands where the fewest missed games alone would not put it. `over_at` is
    when its print would be over in this order, `print_by` until when it must be for its next game;
    None with `why`. `games_bare` are its team's games until it is fitted, as far as they are
    known, `games_bare_now` in the order asked for; `note` what is doubtful.
    """

    place: int
    asked_place: int
    department: str
    guard: str
    athlete: str
    name: str
    team: str
    kind: str
    side: str
    purpose: str
    stage: str
    rule: str
    hours: float | None
    game_on: date | None
    print_by: datetime | None
    over_at: datetime | None
    games_bare: int | None
    games_bare_now: int | None
    note: str
    why: str

    @property
    def is_in_time(self) -> bool | None:
        """Say whether it would be fitted by the next game; None where that cannot be told."""
        if self.print_by is None or self.over_at is None:
            return None
        return self.over_at <= self.print_by


@dataclass(frozen=True, slots=True)
class OrderCost:
    """What an order of printing costs: guards that miss their next game, and games played bare."""

    missed: int
    bare: int


@dataclass(frozen=True, slots=True)
class PrintLine:
    """The printers or the allotment of one department, with its queue.

    `asked` is the order in which guards were asked for, `planned` the one to agree on, `drawless`
    that without the draw; each None with `why`. `weeks_ahead` is how long the queue takes,
    `is_fewest` whether no order by the same rules has fewer missed. Past weeks are whole ones, and
    `remakes_low` to `remakes_high` holds the remakes of 95 in 100 such queues.
    """

    department: str
    name: str
    plan: str | None
    prints_per_week: int | None
    printers: int
    weekly_hours: float | None
    queue: int
    in_queue: tuple[QueuedPrint, ...]
    weeks_ahead: float | None
    asked: OrderCost | None
    planned: OrderCost | None
    drawless: OrderCost | None
    is_fewest: bool
    whole_weeks: int
    weeks_over: int
    used: float | None
    used_why: str
    remakes: float | None
    remakes_low: int | None
    remakes_high: int | None
    remakes_why: str
    why: str

    @property
    def draw_costs(self) -> int | None:
        """Return how many more guards miss their next game because the draw is kept."""
        if self.planned is None or self.drawless is None:
            return None
        return self.planned.missed - self.drawless.missed


@dataclass(frozen=True, slots=True)
class Printer:
    """One printer; hours not recorded are taken to be all of a week. Prints of 28 days."""

    printer: str
    department: str | None
    hours_per_week: float | None
    is_listed: bool
    prints: int
    hours: float
    without_hours: int
    hours_share: float
    note: str


@dataclass(frozen=True, slots=True)
class GameAhead:
    """A coming game, and the last day on which a guard has a chance of 80 % to be there.

    `ask_by` is None with `why`; `chance` is that of a guard asked for on the day after the last.
    """

    department: str
    team: str
    session: str
    starts_at: datetime
    on: date
    label: str | None
    ask_by: date | None
    is_over: bool
    chance: Chance
    why: str


@dataclass(frozen=True, slots=True)
class CapacityChange:
    """What one change would do to a department, simulated from its own past orders."""

    department: str
    change: str
    orders: int
    weeks: int
    seen_days: float | None
    simulated: PrintChange | None
    note: str
    why: str


@dataclass(frozen=True, slots=True)
class CapacityAnswer:
    """The answer of the Capacity screen; `through` is the last day known."""

    summary: Summary
    options: CapacityOptions
    through: date
    lines: tuple[PrintLine, ...]
    printers: tuple[Printer, ...]
    games: tuple[GameAhead, ...]
    changes: tuple[CapacityChange, ...]

    @property
    def in_queue(self) -> tuple[QueuedPrint, ...]:
        """Return every print that waits, department by department, in the order to agree on."""
        return tuple(one for line in self.lines for one in line.in_queue)
