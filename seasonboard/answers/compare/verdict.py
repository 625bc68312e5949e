"""From intervals to one of a few sentences, by fixed rules.

The headline is the same-session comparison. Read top to bottom; the first rule that holds speaks:

1. no site was ever guarded, or none ever bare: nothing to compare.
2. no informative stratum, fewer than 10 informative injuries, or an interval that holds both 0.7
   and 1/0.7: too few injuries to tell.
3. the interval lies under 1: hurt less often, provided that no other adjusted comparison lies
   wholly on the other side; else the comparisons disagree.
4. the interval lies over 1: hurt more often, with the same proviso.
5. the interval holds 1: no difference shown; said apart for what it still allows.

Games opens with the same verdict. A difference in games stands beside it only where it goes with
it: on the side of the ratio, and beyond chance only where the verdict is.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.ratios import RateRatio

FEWEST_INJURIES = 10
WORTHWHILE = 0.7
"""A ratio this far below 1 would be worth having; its mirror image is 1 / 0.7."""

NOTHING = "nothing to compare yet"
TOO_FEW = "too few injuries to tell"
LESS = "guarded sites were hurt less often"
MORE = "guarded sites were hurt more often"
DISAGREE = "the comparisons disagree"
NO_LARGE = "no difference shown, and a large one is unlikely"
NONE_YET = "no difference shown yet"


@dataclass(frozen=True, slots=True)
class Judged:
    """The verdict on a scope, with the same-session ratio that it is on."""

    verdict: str
    ratio: RateRatio


def verdict(headline: RateRatio, others: Mapping[str, RateRatio]) -> str:
    """Return the verdict on the headline comparison in the light of the others.

    Args:
        headline: The same-session ratio.
        others: The other adjusted ratios by name; the crude one has no say.
    """
    if not headline.exposures_guarded or not headline.exposures_unguarded:
        return NOTHING
    low, high = headline.low, headline.high
    if headline.informative_injuries < FEWEST_INJURIES or low is None:
        return TOO_FEW
    holds_both = low <= WORTHWHILE and (high is None or high >= 1 / WORTHWHILE)
    if holds_both or (high is None and low <= 1):
        return TOO_FEW
    if high is not None and high < 1:
        is_over = any(one.low is not None and one.low > 1 for one in others.values())
        return DISAGREE if is_over else LESS
    if low > 1:
        is_under = any(one.high is not None and one.high < 1 for one in others.values())
        return DISAGREE if is_under else MORE
    narrow = low > WORTHWHILE and high is not None and high < 1 / WORTHWHILE
    return NO_LARGE if narrow else NONE_YET


def excludes_one(headline: RateRatio) -> bool:
    """Say whether the verdict asks the other comparisons: the interval lies on one side of 1."""
    low, high = headline.low, headline.high
    return (high is not None and high < 1) or (low is not None and low > 1)


def why_not_beside(judged: Judged, difference: Estimate) -> str:
    """Return why a difference in games, guarded minus bare, may not stand beside the verdict.

    Empty: it may. More games go with a ratio under 1, fewer with one over it.
    """
    value, low, high = difference.value, difference.low, difference.high
    if value is None:
        return difference.why
    ratio = judged.ratio.value
    if judged.verdict in {NOTHING, DISAGREE} or ratio is None:
        return judged.ratio.why if ratio is None else judged.verdict
    is_more, is_fewer = low is not None and low > 0, high is not None and high < 0
    is_alone = (is_more and judged.verdict != LESS) or (is_fewer and judged.verdict != MORE)
    if is_alone or value * (1 - ratio) < 0:
        return "the games alone do not bear out the ratio of Compare"
    return ""
