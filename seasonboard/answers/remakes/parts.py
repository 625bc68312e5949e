"""What the Remakes answer is made of."""

from dataclasses import dataclass
from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.remakes.groups import Reason, RemakeGroup
from seasonboard.answers.remakes.monthly import AskedMonth
from seasonboard.answers.remakes.options import RemakesOptions
from seasonboard.answers.rows import Rows
from seasonboard.stats.control_charts import ControlLimits
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion

OPTIONS = RemakesOptions


@dataclass(frozen=True, slots=True)
class RemakeMonth:
    """Guards fitted in one month and known for the whole window: the share remade within it.

    A month of fewer than ten guards is not called outside its control limits.
    """

    month: date
    fitted: int
    remakes: int
    share: float | None
    control_limits: ControlLimits


@dataclass(frozen=True, slots=True)
class Chains:
    """Guards followed to the first of their chain, which is the first that was fitted.

    `remade_or_replaced` is the share of first guards that were asked for anew at least once,
    whatever the reason, with an exact interval in `remade_or_replaced_exact`;
    `remade_or_replaced_within` counts those asked for within the window of fitting among the first
    guards known for all of it. `units` are the guards asked for in the place of a fitted one;
    `longest` counts the guards of the longest chain. `days_to_stay` is the median of days from the
    first asking to the fitting of the last guard, of the `chains_fitted` whose last guard is
    fitted. Chains that began before the scope are in none.
    """

    firsts: int
    remade_or_replaced: Proportion
    remade_or_replaced_exact: Proportion
    remade_or_replaced_within: Proportion
    units: int
    longest: int
    days_to_stay: float | None
    chains_fitted: int


@dataclass(frozen=True, slots=True)
class RemakesAnswer:
    """What came back, and why.

    `life` is in sessions worn. `bare_exposures` are sessions taken part in with a site bare, over
    the `waits` for what was asked for in the place of a fitted guard. `rows` are the guards asked
    for anew.
    """

    summary: Summary
    options: RemakesOptions
    whole: RemakeGroup
    groups: tuple[RemakeGroup, ...]
    reasons: tuple[Reason, ...]
    months: tuple[RemakeMonth, ...]
    asked: tuple[AskedMonth, ...]
    chains: Chains
    life: Estimate
    guards_in_use: int
    bare_exposures: int
    waits: int
    rows: Rows

    @property
    def shown_groups(self) -> tuple[RemakeGroup, ...]:
        """Return the groups, then all guards together."""
        return (*self.groups, self.whole)
