"""What writing down one session needs to know: the sessions there are, and one session's sheet."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class LogSession:
    """A session whose attendance can be written down; `recorded` counts athletes with a row.

    `wear_complete` says whether wear was recorded for everybody, yes or no; None: nobody said.
    `starts_at` is its instant, `local_start` the same by the department's clock. `is_new` says that
    the store does not hold it yet.
    """

    session: str
    team: str
    season: str
    starts_at: datetime
    local_start: datetime
    setting: str
    label: str | None = None
    recorded: int = 0
    is_new: bool = False
    wear_complete: str | None = None

    @property
    def day(self) -> date:
        """Return the day it is on where it is played."""
        return self.local_start.date()


@dataclass(frozen=True, slots=True)
class LogTeam:
    """A team that a new session can be made for, in its last season; `time_zone` is IANA."""

    team: str
    name: str
    season: str
    time_zone: str


@dataclass(frozen=True, slots=True)
class LogSessions:
    """The sessions of a scope by start, the last one first, and which one is proposed.

    `proposed` is a place in `sessions`: today's first without attendance, else the last one before
    today without, else the last one held; None where there is none. `names` are team names by key.
    """

    sessions: tuple[LogSession, ...]
    proposed: int | None
    teams: tuple[LogTeam, ...]
    names: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class LogGuard:
    """A guard that an athlete could have worn: recorded as worn or not, and worn last time?

    `is_worn` is None where neither is recorded.
    """

    guard: str
    kind: str
    side: str
    is_worn: bool | None
    was_worn: bool

    @property
    def words(self) -> str:
        """Return it in words: `left shin`, `chest`."""
        return self.kind if self.side == "midline" else f"{self.side} {self.kind}"


@dataclass(frozen=True, slots=True)
class Mark:
    """What is written about one athlete in one session; `part` None: not recorded.

    `minutes` is time played, `plays` a count; `worn` holds the keys of guards.
    """

    part: str | None = None
    reason: str | None = None
    minutes: float | None = None
    plays: int | None = None
    worn: frozenset[str] = frozenset()

    @property
    def wears(self) -> frozenset[str]:
        """Return the guards worn; only who takes part wears one."""
        return self.worn if self.part in {"full", "limited"} else frozenset()


@dataclass(frozen=True, slots=True)
class LogAthlete:
    """One athlete of the sheet: who, what is known, what is recorded and what is proposed.

    `open_area` to `is_back` tell of an open injury; `is_back`: took part again since.
    `is_because` says that the proposal goes by that injury.
    """

    athlete: str
    name: str
    jersey: str | None
    is_listed: bool
    last_part: str | None
    last_reason: str | None
    last_on: date | None
    open_area: str | None
    open_side: str | None
    open_on: date | None
    is_back: bool
    guards: tuple[LogGuard, ...]
    recorded: Mark
    proposed: Mark
    is_because: bool

    @property
    def is_recorded(self) -> bool:
        """Say whether the store holds an attendance row."""
        return self.recorded.part is not None


@dataclass(frozen=True, slots=True)
class LogSheet:
    """One session with everybody whose attendance is to be written down, by jersey."""

    session: LogSession
    team_name: str
    athletes: tuple[LogAthlete, ...]

    @property
    def is_complete(self) -> bool | None:
        """Propose whether wear is recorded for everybody: yes in a sheet that was not begun."""
        recorded = {"yes": True, "no": False}.get(self.session.wear_complete or "")
        is_new = self.athletes and not self.session.recorded
        return True if recorded is None and is_new else recorded
