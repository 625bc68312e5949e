"""What the Orders answer is made of."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from seasonboard.answers.base import Summary
from seasonboard.answers.orders.comparable import LateAfter
from seasonboard.stats.conditional_chance import Chance

UNLIKELY = 0.5
"""Below this chance an order is not likely to be there by the next game."""

NO_GAME = "no game of the team is recorded ahead"
NO_REQUEST = "no request is recorded, so how long it has waited is not known"


class Attention(StrEnum):
    """What an open order needs, the most pressing first; the order of the rows."""

    LATE = "late"
    UNLIKELY = "not likely by the next game"
    WORN = "worn already: is its fitting recorded?"
    ON_ITS_WAY = "on its way"


@dataclass(frozen=True, slots=True)
class Reached:
    """One stage and when it was reached, in the department's time zone."""

    stage: str
    reached_at: datetime


@dataclass(frozen=True, slots=True)
class NextGame:
    """The team's next game as seen from the last day known; `days_ahead` from that day."""

    session: str
    starts_at: datetime
    on: date
    label: str | None
    days_ahead: int


@dataclass(frozen=True, slots=True)
class OpenOrder:
    """One order that is neither fitted, cancelled nor retired.

    `age_days` are calendar days since the request (since the first stage, where no request is
    recorded), `stage_days` since the stage was reached that it is in. `exposures` are sessions the
    athlete took part in since then, `bare` those with a site of this guard uncovered, `worn` those
    in which this very guard was worn. `chance` is None without a game ahead or a request; `why`
    says which. `age_hours` runs from the request to the end of the last day known.
    """

    guard: str
    athlete: str
    name: str
    team: str
    department: str
    department_name: str
    plan: str
    kind: str
    side: str
    purpose: str
    scan_method: str | None
    remake_of: str | None
    stages: tuple[Reached, ...]
    stage: str
    stage_days: int
    age_days: int
    age_working_days: int
    age_hours: float
    next_game: NextGame | None
    chance: Chance | None
    likeness: str | None
    why: str
    exposures: int
    bare: int
    worn: int
    late_after: LateAfter
    attention: Attention

    @property
    def is_late(self) -> bool:
        """Say whether it is open for longer than four in five of its department's orders take."""
        return self.attention is Attention.LATE


@dataclass(frozen=True, slots=True)
class OrdersAnswer:
    """The answer of the Orders screen: open orders, the most pressing first.

    `known` counts every order of the scope; `fitted` (also when retired since), `cancelled` and
    `retired` (without a fitting recorded) are those that are over. `as_of` is the last day known;
    `late_after` the rule of each department.
    """

    summary: Summary
    as_of: date
    orders: tuple[OpenOrder, ...]
    known: int
    fitted: int
    cancelled: int
    retired: int
    late_after: tuple[LateAfter, ...]

    @property
    def late(self) -> tuple[OpenOrder, ...]:
        """Return the late ones."""
        return tuple(order for order in self.orders if order.is_late)

    @property
    def unlikely(self) -> tuple[OpenOrder, ...]:
        """Return those that are not late and yet not likely to be there by the next game."""
        return tuple(o for o in self.orders if o.attention is Attention.UNLIKELY)
