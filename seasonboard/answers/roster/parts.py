"""What the Roster answer is made of."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from seasonboard.answers.base import Summary
from seasonboard.answers.orders.lateness import LateAfter
from seasonboard.answers.returns.out_now import OutNow
from seasonboard.answers.roster.availability import Availability


class Status(StrEnum):
    """In what state an athlete was last recorded; not recorded is not out."""

    FULL = "full"
    LIMITED = "limited"
    OUT = "out"
    NOT_RECORDED = "not recorded"


class GuardState(StrEnum):
    """How it stands with a guard."""

    LATE = "late"
    MAKING = "being made"
    FIT_CHECK = "awaiting fit check"
    REMAKE = "due a remake"
    CHECK = "hurt at its site"
    UNWORN = "unworn lately"
    IN_HAND = "in hand"


STRIP = 12
"""Sessions of the strip."""

NOT_JOINED = "not yet joined"
"""State in the strip of a session before an athlete joined the roster."""

ATTENTION = (
    "out, injured or ill",
    "limited",
    "a late guard",
    "a guard to be remade or looked at",
    "a guard unworn lately",
    "a fit check to do",
    "not recorded",
    "out, not for health",
    "a guard being made",
    "nothing to do",
)
"""Rows stand in this order: the first that holds; then by next game, team and name."""


@dataclass(frozen=True, slots=True)
class RosterGuard:
    """One guard of an athlete, of the scope's kinds.

    `age_days` counts calendar days from the asking while it is open, `games_missed` the team's
    games since then; `is_late` holds also of one that was delivered and is not fitted. `worn` of
    `taken_part` are sessions since it was fitted of which is known whether it was worn, `not_known`
    the others; the share is None, with `why`, where there are none.
    `because` says the ground for the state in words.
    """

    guard: str
    kind: str
    side: str
    purpose: str
    state: GuardState
    is_in_hand: bool
    is_late: bool
    stage: str | None
    asked_on: date | None
    fitted_on: date | None
    age_days: int | None
    games_missed: int
    taken_part: int
    worn: int
    not_known: int
    worn_share: float | None
    why: str
    last_worn_on: date | None
    remade_by: str | None
    hurt_on: date | None
    because: str


@dataclass(frozen=True, slots=True)
class StripCell:
    """One session of the strip: a part, not recorded, or not yet joined; and was a guard worn?

    `is_guarded` is None where nobody recorded whether the athlete's guard was worn.
    """

    state: str
    is_guarded: bool | None


@dataclass(frozen=True, slots=True)
class OpenInjury:
    """An injury without a known return; `day` counts from its onset, day 0.

    `others` are further open injuries of the athlete, which came later.
    """

    injury: str
    area: str
    side: str
    occurred_on: date
    day: int
    others: int


@dataclass(frozen=True, slots=True)
class ComparableInjuries:
    """How long injuries of one body area kept athletes out, of all in the store.

    `median_days_lost` allows for those still open; None, with `why`, where it is not known.
    """

    area: str
    injuries: int
    still_open: int
    median_days_lost: int | None
    why: str = ""


@dataclass(frozen=True, slots=True)
class StripSession:
    """One of the last sessions of a team: a column of its athletes' strips."""

    session: str
    played_on: date
    setting: str
    label: str | None


@dataclass(frozen=True, slots=True)
class NextGame:
    """The next game of one team; without one, `why` says so.

    `starts_at` is in the department's time. `is_listed`: its athletes are rows of the answer.
    """

    team: str
    team_name: str
    season: str
    department: str
    department_name: str
    session: str | None
    starts_at: datetime | None
    played_on: date | None
    label: str | None
    rostered: int
    is_listed: bool
    why: str
    strip_sessions: tuple[StripSession, ...]


@dataclass(frozen=True, slots=True)
class RosterAthlete:
    """One athlete of one team, by the last record.

    `because` is None where there is nothing to say; `expected_back_why` says why no such day is
    known. `days_lost` are days out through injury this season, those so far of an open one
    included. `strip` holds the team's last sessions, oldest first. `out_now` is told of who is out
    with an injury at a site that guards of the scope cover.
    """

    athlete: str
    name: str
    team: str
    season: str
    jersey: str | None
    position: str | None
    position_group: str | None
    status: Status
    reason: str | None
    because: str | None
    last_on: date | None
    sessions_since: int
    injury: OpenInjury | None
    comparable: ComparableInjuries | None
    days_lost: int
    expected_back_why: str
    guards: tuple[RosterGuard, ...]
    taken_part: int
    worn: int
    worn_share: float | None
    worn_share_why: str
    needs: tuple[str, ...]
    attention: str
    strip: tuple[StripCell, ...]
    next_game: NextGame
    out_now: OutNow | None = None


@dataclass(frozen=True, slots=True)
class Headline:
    """The counts at the top: athletes by status, by reason in words, and guards by state.

    `out_for_health` of the `out` are injured or ill; the others may well be able to play.
    `late` guards are those that are open for too long, delivered or not.
    """

    rostered: int
    full: int
    limited: int
    out: int
    not_recorded: int
    out_for_health: int
    limited_because: Mapping[str, int]
    out_because: Mapping[str, int]
    guards: Mapping[GuardState, int]
    late: int
    guards_in_hand: int
    athletes_with_guard: int


@dataclass(frozen=True, slots=True)
class RosterAnswer:
    """The answer of the Roster screen; `next_game` is the earliest of `next_games`.

    `late_after` says for each department when an open order is late.
    """

    summary: Summary
    next_game: NextGame | None
    next_games: tuple[NextGame, ...]
    athletes: tuple[RosterAthlete, ...]
    headline: Headline
    late_after: tuple[LateAfter, ...]
    availability: Availability
