"""Shares of a count, with limits that stay between 0 and 1."""

import math
from dataclasses import dataclass

from seasonboard.stats.special import beta_quantile, two_sided


@dataclass(frozen=True, slots=True)
class Proportion:
    """A share with its limits; None, with `why`, where nothing was counted."""

    successes: int
    trials: int
    share: float | None
    low: float | None
    high: float | None
    why: str = ""


def wilson(successes: int, trials: int, *, level: float = 0.95) -> Proportion:
    """Return a share with score limits.

    Source: Wilson EB (1927), J Am Stat Assoc 22:209-212; Brown, Cai & DasGupta (2001), Stat Sci
    16:101-133, equation 4.

    Raises:
        ValueError: More successes than trials, or a negative count.
    """
    _check(successes, trials)
    if trials == 0:
        return Proportion(successes, trials, None, None, None, "nothing was counted")
    share = successes / trials
    return Proportion(successes, trials, share, *score_limits(share, trials, level))


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
    """Return a share with exact binomial limits.

    Source: Clopper CJ, Pearson ES (1934), Biometrika 26:404-413.

    Raises:
        ValueError: More successes than trials, or a negative count.
    """
    _check(successes, trials)
    if trials == 0:
        return Proportion(successes, trials, None, None, None, "nothing was counted")
    tail = (1 - level) / 2
    low = 0.0 if successes == 0 else beta_quantile(successes, trials - successes + 1, tail)
    high = (
        1.0 if successes == trials else beta_quantile(successes + 1, trials - successes, 1 - tail)
    )
    return Proportion(successes, trials, successes / trials, low, high)


def _check(successes: int, trials: int) -> None:
    if not 0 <= successes <= trials:
        raise ValueError(f"{successes} of {trials} is not a share.")
