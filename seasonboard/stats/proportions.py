"""Shares of a count, with confidence intervals that stay between 0 and 1."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.special import beta_quantile, two_sided

_Limits = Callable[[float, int, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Proportion(Estimate):
    """A share of what was counted, 0 to 1; not known where nothing was counted."""

    successes: int = 0
    trials: int = 0


def wilson(successes: int, trials: int, *, level: float = 0.95) -> Proportion:
    """Return a share with its score interval.

    Source: Wilson EB (1927), J Am Stat Assoc 22:209-212; Brown, Cai & DasGupta (2001), Stat Sci
    16:101-133, equation 4.

    Raises:
        ValueError: More successes than trials, or a negative count.
    """
    return _proportion(successes, trials, level, "wilson", score_limits)


def score_limits(share: float, trials: float, level: float) -> tuple[float, float]:
    """Return Wilson's score limits of a share of `trials`, which need not be a whole number.

    A limit beside a share of 0 or 1 is that share itself.

    Source: As `wilson`.
    """
    z = two_sided(level)
    scale = 1 + z * z / trials
    middle = (share + z * z / (2 * trials)) / scale
    half = z / scale * math.sqrt(share * (1 - share) / trials + (z / (2 * trials)) ** 2)
    low = 0.0 if share == 0 else max(0.0, middle - half)
    high = 1.0 if share == 1 else min(1.0, middle + half)
    return low, high


def clopper_pearson(successes: int, trials: int, *, level: float = 0.95) -> Proportion:
    """Return a share with its exact binomial interval.

    Source: Clopper CJ, Pearson ES (1934), Biometrika 26:404-413.

    Raises:
        ValueError: More successes than trials, or a negative count.
    """

    def limits(share: float, trials: int, level: float) -> tuple[float, float]:
        tail, failures = (1 - level) / 2, trials - successes
        low = 0.0 if share == 0 else beta_quantile(successes, failures + 1, tail)
        high = 1.0 if share == 1 else beta_quantile(successes + 1, failures, 1 - tail)
        return low, high

    return _proportion(successes, trials, level, "clopper-pearson", limits)


def _proportion(
    successes: int, trials: int, level: float, method: str, limits: _Limits
) -> Proportion:
    if not 0 <= successes <= trials:
        raise ValueError(f"{successes} of {trials} is not a share.")
    if trials == 0:
        return Proportion(None, level=level, method=method, why="nothing was counted")
    share = successes / trials
    return Proportion(share, *limits(share, trials, level), level, method, "", successes, trials)


def likely_count(share: float, trials: int, ahead: int, *, level: float = 0.95) -> tuple[int, int]:
    """Return the range in which a later count lies, of `ahead` trials, after `share` of `trials`.

    The beta-binomial law with Jeffreys' prior: what is not known of the share is in it.

    Raises:
        ValueError: A number is negative, or the share is none.

    Source: Brown, Cai & DasGupta (2001), Stat Sci 16:101-133, for the prior; the law from memory.
    """
    from scipy.special import betaln, gammaln

    if not 0 <= share <= 1 or trials < 0 or ahead < 0:
        raise ValueError("a share lies between 0 and 1, and numbers are 0 or more")
    seen = share * trials
    a, b = seen + 0.5, trials - seen + 0.5
    count = np.arange(ahead + 1.0)
    ways = gammaln(ahead + 1) - gammaln(count + 1) - gammaln(ahead - count + 1)
    reached = np.cumsum(np.exp(ways + betaln(count + a, ahead - count + b) - betaln(a, b)))
    tail = (1 - level) / 2
    return int(np.searchsorted(reached, tail)), int(np.searchsorted(reached, 1 - tail))
