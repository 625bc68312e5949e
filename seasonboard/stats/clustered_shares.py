"""A share of sessions, where each athlete gives many: its interval knows how athletes differ.

Sessions of one athlete are alike, so that a thousand sessions of ten athletes tell less than a
thousand sessions of a thousand. The share is as it is counted; only its interval widens, as if
there were fewer sessions.
"""

from dataclasses import dataclass

from seasonboard.stats.proportions import Proportion, score_limits

_METHOD = "wilson on the effective number"


@dataclass(frozen=True, slots=True)
class ClusterSums:
    """What the clusters (athletes) add up to: n trials and x successes of each, summed.

    `successes` Σx, `trials` Σn, `successes_squared` Σx², `products` Σxn, `trials_squared` Σn².
    """

    clusters: int
    successes: int
    trials: int
    successes_squared: int
    products: int
    trials_squared: int


@dataclass(frozen=True, slots=True)
class ClusteredShare(Proportion):
    """A share whose interval comes from the spread between so many clusters that have a trial."""

    clusters: int = 0


def clustered_share(sums: ClusterSums, *, level: float = 0.95) -> ClusteredShare:
    """Return a share of all trials with an interval that allows for likeness within clusters.

    The design effect compares the linearised variance of the ratio Σx / Σn over clusters with that
    of as many independent trials, and is never taken to be below 1; score limits follow from the
    trials divided by it. Where every trial ends alike no spread can be seen, and each cluster
    counts as one trial. With one trial a cluster the limits are Wilson's.

    Raises:
        ValueError: More successes than trials, or a negative count.

    Source: Kish (1965), Survey Sampling, chapters 6 and 8; Korn & Graubard (1998), Survey
    Methodology 24, 193-201, for the effective number; Wilson (1927), J Am Stat Assoc 22, 209-212.
    """
    x, n, m = sums.successes, sums.trials, sums.clusters
    if not 0 <= x <= n or m < 0:
        raise ValueError(f"{x} of {n} is not a share.")
    counts = (x, n, m)
    if n == 0:
        return ClusteredShare(None, None, None, level, _METHOD, "nothing was counted", *counts)
    share = x / n
    if m < 2:
        why = "a single athlete shows no spread"
        return ClusteredShare(share, None, None, level, _METHOD, why, *counts)
    effective = float(m)
    if x not in {0, n}:
        spread = sums.successes_squared - 2 * share * sums.products + share**2 * sums.trials_squared
        clustered = max(0.0, spread) / n**2 * m / (m - 1)
        effective = n / max(1.0, clustered / (share * (1 - share) / (n - 1)))
    low, high = score_limits(share, effective, level)
    return ClusteredShare(share, low, high, level, _METHOD, "", *counts)
