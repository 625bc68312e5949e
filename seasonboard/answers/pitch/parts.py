"""What the Pitch answer is made of."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from seasonboard.answers.base import Summary
from seasonboard.answers.claims.parts import FEWEST, Claim
from seasonboard.answers.pitch.options import EffectLimits, Fees, PitchOptions, PrintWay
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.stats.absence_duration import AbsenceLaw
from seasonboard.stats.prints_ahead import MadeAhead, PrintsAhead
from seasonboard.stats.season_ahead import SeasonAhead, Spread

LEAST = FEWEST
"""Injuries below which nothing is concluded from a group, nor shown of it to outsiders."""
TAKE_UP = 0.5
"""Share of athletes taken to wear a guard where nothing of one's own says otherwise."""
WEEKS = 16.0
"""Weeks of a season where none was recorded."""
ONE_IN = 10
"""Where no effect is shown, the answer says which ratio would keep one game missed in so many."""


class Basis(StrEnum):
    """What a team's injuries are pooled with, or rest on alone."""

    SPORT = "its sport, served"
    PUBLISHED = "published"
    SERVED = "all teams served"
    OWN = "its last season"
    NOT_KNOWN = "not known"


OPTIONS = PitchOptions


@dataclass(frozen=True, slots=True)
class Input:
    """One number that the plan rests on: its value, how far it may be off, and where it is from.

    Shares (of athletes, of sessions, of guards) lie between 0 and 1. `value` is None, with `why`,
    where it is not known.
    """

    name: str
    value: float | None
    low: float | None
    high: float | None
    unit: str
    source: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class Baseline:
    """How many injuries to the sites a team has in a season without guards.

    `like` is what teams like it would have; `injuries` that, pooled with its `own` of last season,
    which weigh `own_weight` (0 to 1); with 95 % limits of its mean, as sure as `shape` injuries.
    `shared` (0 to 1) is how much of what is not known all teams of a department have in common.
    """

    basis: Basis
    like: float | None
    injuries: float | None
    low: float | None
    high: float | None
    shape: float | None
    own: int | None
    own_weight: float | None
    shared: float
    source: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class SettingAhead:
    """One team's games or practices: exposures and injuries to expect, without guards.

    `taking_part` is the share of the roster that takes part in one session.
    """

    setting: str
    sessions: int
    taking_part: float
    is_own_taking_part: bool
    exposures: float
    injuries: float | None


@dataclass(frozen=True, slots=True)
class TeamAhead:
    """One team of the prospect; `injuries` and `games_missed` are means without guards.

    `athletes` are those of the position groups in scope. `out` is how long its athletes are out
    beside those served, from its own games missed. `why` says why `injuries` is None.
    """

    team: ProspectTeam
    athletes: int
    settings: tuple[SettingAhead, ...]
    baseline: Baseline
    injuries: float | None
    games_missed: float | None
    out: float = 1.0
    why: str = ""

    @property
    def name(self) -> str:
        """Return the team in words: `women's soccer`."""
        return self.team.name


@dataclass(frozen=True, slots=True)
class Effect:
    """The ratio guarded / bare that is planned with; without one, `why` says so.

    Counts of injuries are None where they are fewer than 11. `ratio_needed` is how often, at most,
    guarded sites would have to be hurt for one game missed in ten to be kept; None where too few
    exposures would be guarded for that.
    """

    limits: EffectLimits
    injuries_guarded: int | None
    injuries_unguarded: int | None
    ratio: float | None
    low: float | None
    high: float | None
    std_error: float | None
    ratio_needed: float | None
    why: str = ""


@dataclass(frozen=True, slots=True)
class ServedWork:
    """What departments on a plan were given: orders, days from requested to fitted, share in time.

    `ready` is the share fitted before the team's next game; None where a figure is not told.
    """

    departments: int
    orders: int | None
    median: float | None
    p80: float | None
    ready: float | None


@dataclass(frozen=True, slots=True)
class PlanAhead:
    """One of the two plans: how it makes the prints that are asked for, what that keeps and costs.

    `is_given` says whether its `printers` or `capacity` (prints a week) was given; else it is what
    the busiest week of half the seasons asks for. Without the hours of a print the printer's
    capacity is not known and nothing is `made`. `busiest` is what the busiest week asks for, in
    printer hours or in prints. `served` is of departments on that plan. `total` is
    all fees of `months`; remakes are free. `why` says why one of them is None.
    """

    way: PrintWay
    is_given: bool
    printers: int | None
    printer_hours: float | None
    capacity: float | None
    busiest: Spread | None
    made: MadeAhead | None
    served: ServedWork | None
    guarded_share: float
    ahead: SeasonAhead | None
    fees: Fees
    months: int
    total: Spread | None
    per_game_kept: Spread | None
    why: str = ""

    @property
    def holds(self) -> bool:
        """Say whether no print waits at the season's end, in half of the seasons."""
        return self.made is not None and self.made.queue.left_over < 1


@dataclass(frozen=True, slots=True)
class Choice:
    """The plan that is recommended and why; `way` is None where neither is clearly better."""

    way: PrintWay | None
    why: str


@dataclass(frozen=True, slots=True)
class Swing:
    """Games kept on average when one input alone is at its low or its high end, in its unit."""

    input: str
    unit: str
    low: float
    high: float
    kept_at_low: float
    kept_at_high: float

    @property
    def width(self) -> float:
        """Return by how many games the input moves what is kept."""
        return abs(self.kept_at_high - self.kept_at_low)


@dataclass(frozen=True, slots=True)
class PitchAnswer:
    """What can be promised to a department like the prospect, for one season.

    Prints, cost, injuries and games are those of the `planned` teams: those whose injuries are
    known, or all where none is. `prints` are asked for under both plans alike; `hours` are printer
    hours. `swings` are sorted, the widest first. `contact` is a sentence of mechanics, never of
    injuries. `claims` are what the records allow to be said. `plays_per_game` is the mean
    of an athlete's game. `again` plans anew from the same records.
    """

    summary: Summary
    options: PitchOptions
    prospect: Prospect
    is_given: bool
    sites: tuple[str, ...]
    sites_per_athlete: int
    teams: tuple[TeamAhead, ...]
    inputs: tuple[Input, ...]
    effect: Effect
    absence: AbsenceLaw | None
    prints: PrintsAhead
    hours: Spread | None
    busiest_hours: Spread | None
    plans: tuple[PlanAhead, PlanAhead]
    choice: Choice
    swings: tuple[Swing, ...]
    swing_sentence: str
    contact: str
    claims: tuple[Claim, ...]
    plays_per_game: float | None = None
    again: "Callable[[PitchOptions], PitchAnswer] | None" = field(
        default=None, compare=False, repr=False
    )

    def input(self, name: str) -> Input:
        """Return one input by its name."""
        return next(one for one in self.inputs if one.name == name)

    def plan(self, way: PrintWay) -> PlanAhead:
        """Return one of the two plans."""
        return next(plan for plan in self.plans if plan.way is way)

    @property
    def shown(self) -> PlanAhead:
        """Return the plan that is recommended, else the first."""
        return self.plans[0] if self.choice.way is None else self.plan(self.choice.way)

    @property
    def ahead(self) -> SeasonAhead | None:
        """Return the season ahead under the plan that is shown."""
        return self.shown.ahead

    @property
    def guarded_share(self) -> float:
        """Return the share of exposures guarded under the plan that is shown."""
        return self.shown.guarded_share

    @property
    def plays_kept(self) -> Spread | None:
        """Return the plays of the games kept, at the mean plays of an athlete's game."""
        kept = None if self.ahead is None else self.ahead.games_kept
        plays = self.plays_per_game
        return None if kept is None or plays is None else kept.times(plays)

    @property
    def planned(self) -> tuple[TeamAhead, ...]:
        """Return the teams that everything is told of."""
        return planned_teams(self.teams)

    @property
    def aside(self) -> tuple[TeamAhead, ...]:
        """Return the teams that nothing is told of, since their injuries are not known."""
        planned = self.planned
        return tuple(team for team in self.teams if team not in planned)

    @property
    def athletes(self) -> int:
        """Return the athletes of the planned teams."""
        return sum(team.athletes for team in self.planned)


def planned_teams(teams: Sequence[TeamAhead]) -> tuple[TeamAhead, ...]:
    """Return the teams whose injuries are known; all, where none's are."""
    known = tuple(team for team in teams if team.injuries is not None)
    return known or tuple(teams)
