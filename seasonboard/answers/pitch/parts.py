"""What the Pitch answer is made of."""

from dataclasses import dataclass
from enum import StrEnum

from seasonboard.answers.base import Summary
from seasonboard.answers.claims.parts import FEWEST, Claim
from seasonboard.answers.options import option
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.stats.absence_duration import AbsenceLaw
from seasonboard.stats.prints_ahead import PrintsAhead
from seasonboard.stats.season_ahead import SeasonAhead, Spread

LEAST = FEWEST
"""Injuries below which nothing is concluded from a group, nor shown of it to outsiders."""
SEASONS = 4000
SEED = 20261
TAKE_UP = 0.5
"""Share of athletes taken to wear a guard where nothing of one's own says otherwise."""
WEEKS = 16.0
"""Weeks of a season where none was recorded."""
ONE_IN = 10
"""Where no effect is shown, the answer says which ratio would keep one game missed in so many."""


class EffectLimits(StrEnum):
    """Which limits of the same-session ratio are planned with."""

    BY_ATHLETE = "by-athlete"
    PEEK_PROOF = "peek-proof"


class Basis(StrEnum):
    """What a team's expected injuries rest on, best first."""

    OWN = "own, this setting"
    OWN_BOTH = "own, both settings"
    PUBLISHED = "published"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True)
class PitchOptions:
    """What is asked: the prospect and how it would be served. What is None is taken from the store.

    `take_up` is the share of athletes who accept a guard and wear it; `price` that of one guard;
    `printer_hours` the hours a week that each of the `printers` may print. Either `prints_per_week`
    or `printers` says how prints are made; without both, waiting for a printer is left out.
    """

    prospect: Prospect | None = option(
        None,
        "--teams",
        "The prospect's teams as a table: sport, sex, position_group (may be left out), athletes, "
        "games, practices. Without it: a department like those served.",
    )
    take_up: float | None = option(
        None, "--take-up", "Share who accept a guard and wear it, as 0.6."
    )
    price: float | None = option(None, "--price", "Price of one guard, in any currency.")
    prints_per_week: float | None = option(None, "--prints-per-week", "Weekly allotment of prints.")
    printers: int | None = option(
        None, "--printers", "Printers on site, in the place of an allotment."
    )
    printer_hours: float | None = option(
        None, "--printer-hours", "Hours a week each may print; 168 without it."
    )
    hours_per_print: float | None = option(
        None, "--hours-per-print", "Hours of one print; else as recorded."
    )
    weeks: float | None = option(None, "--weeks", "Weeks of the season; else as recorded.")
    seasons: int = option(SEASONS, "--seasons", "To simulate.")
    seed: int = option(SEED, "--seed", "Same seed, same numbers.")
    limits: EffectLimits = option(
        EffectLimits.BY_ATHLETE, "--limits", "Which limits of the same-session ratio to plan with."
    )


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
    """How often the sites are injured without guards in one setting of one team.

    `rate` is injuries to the sites studied per 1000 athlete-exposures, with 95 % limits. Of an own
    rate `exposures` are bare site-exposures; of a published one they are athlete-exposures, and
    `share` is the part of all injuries that falls on the sites (0 to 1). `shape` is how many
    injuries the rate is as sure as; None: not known.
    """

    setting: str
    basis: Basis
    rate: float | None
    low: float | None
    high: float | None
    injuries: int | None
    exposures: int | None
    share: float | None
    shape: float | None
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
    baseline: Baseline
    injuries: float | None


@dataclass(frozen=True, slots=True)
class TeamAhead:
    """One team of the prospect; `injuries` and `games_missed` are means without guards.

    `athletes` are those of the position groups in scope. `why` says why `injuries` is None.
    """

    team: ProspectTeam
    athletes: int
    settings: tuple[SettingAhead, ...]
    injuries: float | None
    games_missed: float | None
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
class PrintPlan:
    """Prints and turnaround that follow.

    `made_by` is how prints are made, in words; `week_capacity` the prints that so can be made in a
    week. `hours` are printer hours over the season, `busiest_hours` those of its busiest week.
    `needed_per_week` is what 19 in 20 seasons' busiest week stays within. `turnaround_why` says why
    wait or turnaround is not known.
    """

    made_by: str
    week_capacity: float | None
    hours_per_print: float | None
    ahead: PrintsAhead
    hours: Spread | None
    busiest_hours: Spread | None
    needed_per_week: int
    turnaround_why: str = ""


@dataclass(frozen=True, slots=True)
class Cost:
    """What guards would cost and what a game kept would; None, with `why`, where not known."""

    price: float | None
    guards: Spread
    total: Spread | None
    per_game_kept: Spread | None
    why: str = ""


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

    `ahead` is None where no team's injuries are known. `guarded_share` is the mean share of
    exposures that would be guarded. `swings` are sorted, the widest first. `contact` is a sentence
    of mechanics, never of injuries. `claims` are what the records allow to be said.
    """

    summary: Summary
    options: PitchOptions
    prospect: Prospect
    is_given: bool
    sites: tuple[str, ...]
    sites_per_athlete: int
    athletes: int
    teams: tuple[TeamAhead, ...]
    inputs: tuple[Input, ...]
    guarded_share: float
    effect: Effect
    absence: AbsenceLaw | None
    ahead: SeasonAhead | None
    plan: PrintPlan
    cost: Cost
    swings: tuple[Swing, ...]
    swing_sentence: str
    contact: str
    claims: tuple[Claim, ...]

    def input(self, name: str) -> Input:
        """Return one input by its name."""
        return next(one for one in self.inputs if one.name == name)
