"""Shares of a count, with limits that stay between 0 and 1."""

import math
from dataclasses import dataclass

from scipy.special import betaincinv, ndtri


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
    z = float(ndtri((1 + level) / 2))
    share = successes / trials
    middle = (share + z * z / (2 * trials)) / (1 + z * z / trials)
    half = (
        z
        / (1 + z * z / trials)
        * math.sqrt(share * (1 - share) / trials + z * z / (4 * trials * trials))
    )
    low = 0.0 if successes == 0 else max(0.0, middle - half)
    high = 1.0 if successes == trials else min(1.0, middle + half)
    return Proportion(successes, trials, share, low, high)


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
    low = 0.0 if successes == 0 else float(betaincinv(successes, trials - successes + 1, tail))
    high = (
        1.0
        if successes == trials
        else float(betaincinv(successes + 1, trials - successes, 1 - tail))
    )
    return Proportion(successes, trials, successes / trials, low, high)


def _check(successes: int, trials: int) -> None:
    if not 0 <= successes <= trials:
        raise ValueError(f"{successes} of {trials} is not a share.")
