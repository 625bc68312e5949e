"""Shares of a count, with confidence intervals that stay between 0 and 1."""

import math
from dataclasses import dataclass

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.special import beta_quantile, two_sided


@dataclass(frozen=True, slots=True)
class Proportion(Estimate):
    """A share of what was counted, 0 to 1; not known where nothing was counted."""

    successes: int = 0
    trials: int = 0


def _nothing_counted(level: float, method: str) -> Proportion:
    return Proportion(None, level=level, method=method, why="nothing was counted")


def wilson(successes: int, trials: int, *, level: float = 0.95) -> Proportion:
    """Return a share with its score interval.

    Source: Wilson EB (1927), J Am Stat Assoc 22:209-212; Brown, Cai & DasGupta (2001), Stat Sci
    16:101-133, equation 4.

    Raises:
        ValueError: More successes than trials, or a negative count.
    """
    _check(successes, trials)
    if trials == 0:
        return _nothing_counted(level, "wilson")
    share = successes / trials
    low, high = score_limits(share, trials, level)
    return Proportion(share, low, high, level, "wilson", "", successes, trials)


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
    _check(successes, trials)
    if trials == 0:
        return _nothing_counted(level, "clopper-pearson")
    tail = (1 - level) / 2
    low = 0.0 if successes == 0 else beta_quantile(successes, trials - successes + 1, tail)
    high = (
        1.0 if successes == trials else beta_quantile(successes + 1, trials - successes, 1 - tail)
    )
    share = successes / trials
    return Proportion(share, low, high, level, "clopper-pearson", "", successes, trials)


def _check(successes: int, trials: int) -> None:
    if not 0 <= successes <= trials:
        raise ValueError(f"{successes} of {trials} is not a share.")
