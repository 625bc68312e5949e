"""What the Games answer is made of."""

from dataclasses import dataclass
from enum import StrEnum

from seasonboard.answers.base import Summary
from seasonboard.answers.compare.verdict import Judged
from seasonboard.answers.games.beside_curves import EverNever, PerGame
from seasonboard.answers.options import option
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, Settings
from seasonboard.stats.competing import Incidence
from seasonboard.stats.direct_standardisation import Standardised
from seasonboard.stats.estimate import Quantile
from seasonboard.stats.log_rank import LogRank
from seasonboard.stats.recurrent import MeanCumulative
from seasonboard.stats.survival import Curve, RestrictedMean

MIN_AT_RISK = 5


class Clock(StrEnum):
    """What ticks: the athlete's own games, sessions, plays, minutes; or the team's games."""

    GAMES = "games"
    SESSIONS = "sessions"
    SEASON_GAMES = "season-games"
    PLAYS = "plays"
    MINUTES = "minutes"

    @property
    def is_fine(self) -> bool:
        """Say whether one session is many ticks."""
        return self in {Clock.PLAYS, Clock.MINUTES}


@dataclass(frozen=True, slots=True)
class GamesOptions:
    """How Games is asked: `horizon` None takes the 80th percentile of an athlete's season.

    `naive` adds the misleading ever/never tally, for contrast.
    """

    clock: Clock = option(
        Clock.GAMES,
        "--clock",
        "What ticks: own games, sessions, plays or minutes; or the team's games.",
    )
    horizon: int | None = option(
        None, "--horizon", "Games (plays, minutes) to look ahead for the restricted mean."
    )
    min_at_risk: int = option(
        MIN_AT_RISK, "--min-at-risk", "A curve starts at the first tick with this many at risk."
    )
    naive: bool = option(False, "--naive", "Add the misleading ever/never tally, for contrast.")


OPTIONS = GamesOptions


def ticking_params(scope: Scope, clock: Clock) -> dict[str, object]:
    """Return the scope's parameters with the sessions that tick `clock`.

    Raises:
        ScopeError: The clock counts games and the scope asks for practices only.
    """
    settings = scope.settings()
    if clock is not Clock.SESSIONS:
        if scope.setting is Settings.PRACTICES:
            raise ScopeError(
                f"No practice ticks the clock “{clock.value}”.",
                "Ask with --clock sessions, or with --setting both.",
            )
        settings = ["game"]
    return {**scope.params(), "settings": settings, "clock": clock.value}


@dataclass(frozen=True, slots=True)
class Ending:
    """Why follow-up ended without an injury that counts, and for how many sites."""

    why: str
    count: int


@dataclass(frozen=True, slots=True)
class Group:
    """One group's curve and what is read from it.

    `curve` starts where this group is large enough; `compared` starts where both are, and is what
    the restricted mean and the picture use.
    """

    name: str
    athletes: int
    sites: int
    ticks: int
    injuries: int
    left: int
    endings: tuple[Ending, ...]
    curve: Curve
    compared: Curve
    median: Quantile
    quartiles: tuple[Quantile, Quantile]
    restricted_mean: RestrictedMean


@dataclass(frozen=True, slots=True)
class GamesAnswer:
    """The answer of the Games screen.

    `judged` is the verdict of Compare; `one_mix` holds the curves at the same mix of athletes and
    their difference, the one to quote; the groups, `start` and `log_rank` are as played.
    `incidence` and `repeats` hold both groups, guarded first: shares ended by each cause, and mean
    injuries with repeats. `per_game` is told on the clocks of plays and minutes: what turns games
    kept into plays kept.
    """

    summary: Summary
    options: GamesOptions
    guarded: Group
    unguarded: Group
    start: int | None
    horizon: int | None
    judged: Judged
    one_mix: Standardised
    log_rank: LogRank
    log_rank_stratified: LogRank
    incidence: tuple[Incidence, Incidence]
    repeats: tuple[MeanCumulative, MeanCumulative]
    ever_never: EverNever | None
    per_game: tuple[PerGame, ...] | None = None

    @property
    def groups(self) -> tuple[Group, Group]:
        """Return both groups, guarded first."""
        return self.guarded, self.unguarded
