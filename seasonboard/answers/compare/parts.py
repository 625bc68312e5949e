"""What the Compare answer is made of."""

from dataclasses import dataclass
from typing import NamedTuple

from seasonboard.answers.base import Summary
from seasonboard.answers.claims.rules import ClaimVerdict
from seasonboard.answers.compare.burden import Burdens
from seasonboard.answers.compare.comparisons import HEADLINE, AreaRatio, Comparison
from seasonboard.answers.compare.control_sites import ControlSites
from seasonboard.answers.compare.drawn_turns import DrawnTurns
from seasonboard.answers.compare.fixed_questions import FixedQuestion
from seasonboard.answers.compare.hours import Hours, Per
from seasonboard.answers.compare.recording_checks import Recording
from seasonboard.answers.compare.undo import Undo
from seasonboard.answers.compare.verdict import Judged
from seasonboard.answers.compare.weekly_looks import Watched
from seasonboard.answers.options import option
from seasonboard.looks import UNCOUNTED, Looks
from seasonboard.stats.rates import Rate
from seasonboard.stats.sample_size import SampleSize


@dataclass(frozen=True, slots=True)
class CompareOptions:
    """What the rates are shown per; `is_whole`: also what is only worked out when asked for."""

    per: Per = option(
        Per.EXPOSURES,
        "--per",
        "Show the rates per 1000 exposures, or per 1000 hours where minutes are recorded.",
    )
    is_whole: bool = False


OPTIONS = CompareOptions


class GroupRates(NamedTuple):
    """The rates of one group, per exposures and per hours."""

    name: str
    rate: Rate
    hours: Hours


@dataclass(frozen=True, slots=True)
class CompareAnswer:
    """The answer of the Compare screen.

    `decliners` is the same-session comparison with bare sites of those who declined a guard;
    `areas` is the headline for each body area, where several are studied;
    `watched` is the peek-proof (anytime-valid) form of the headline, `sample_size` what it would
    take to tell 0.7 from 1, `games_needed` the same in games at the pace so far; `hours` are the
    rates per hour of the guarded and of the bare, `per` what the rates are shown per; `controls` is
    harm at sites that no guard in scope covers, `recording` whether attendance and wear are
    recorded alike, `claim` how far “less often” may be said; `burden` is what injuries cost both;
    `undo` is what would undo the headline, None where that was not asked for; `drawn_turns` is
    what the register of draws shows, None without a draw; `fixed` is the question as it was fixed
    with a day, None where nobody did; `looks` is how many scopes were looked at since.
    """

    summary: Summary
    guarded: Rate
    unguarded: Rate
    comparisons: tuple[Comparison, ...]
    decliners: Comparison
    areas: tuple[AreaRatio, ...]
    watched: Watched
    sample_size: SampleSize
    games_needed: int | None
    verdict: str
    hours: tuple[Hours, Hours]
    controls: ControlSites
    burden: Burdens
    recording: Recording
    claim: ClaimVerdict
    fixed: FixedQuestion | None = None
    looks: Looks = UNCOUNTED
    per: Per = Per.EXPOSURES
    undo: Undo | None = None
    drawn_turns: DrawnTurns | None = None

    @property
    def groups(self) -> tuple[GroupRates, GroupRates]:
        """Return the rates of both groups, guarded first."""
        guarded = GroupRates("guarded", self.guarded, self.hours[0])
        return guarded, GroupRates("bare", self.unguarded, self.hours[1])

    @property
    def judged(self) -> Judged:
        """Return the verdict with the ratio that it is on."""
        return Judged(self.verdict, self.comparison(HEADLINE).ratio)

    def comparison(self, name: str) -> Comparison:
        """Return one comparison by its name."""
        return next(c for c in (*self.comparisons, *self.apart) if c.name == name)

    @property
    def apart(self) -> tuple[Comparison, ...]:
        """Return the comparisons of other groups: with decliners, and of drawn turns if any."""
        drawn = () if self.drawn_turns is None else (self.drawn_turns.comparison,)
        return (self.decliners, *drawn)
