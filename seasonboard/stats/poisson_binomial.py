"""The number of successes among trials that each have a chance of their own."""

from collections.abc import Iterable

import numpy as np

from seasonboard.stats.special import Floats


def poisson_binomial(chances: Iterable[float]) -> Floats:
    """Return the chances of 0, 1, 2 ... successes, exactly, by convolution.

    Raises:
        ValueError: A chance does not lie between 0 and 1.

    Source: Wang (1993), Statistica Sinica 3, 295-312, for the distribution.
    """
    law = np.ones(1)
    for chance in chances:
        if not 0 <= chance <= 1:
            raise ValueError(f"a chance lies between 0 and 1, not {chance}")
        law = np.convolve(law, (1 - chance, chance))
    return law


def upper_mid_p(successes: int, chances: Iterable[float]) -> float:
    """Return the chance of more successes than these, and half that of just as many (mid-P).

    Raises:
        ValueError: There cannot be as many successes.

    Source: Lancaster (1961), J Am Stat Assoc 56, 223-234, for the mid-P.
    """
    law = poisson_binomial(chances)
    if not 0 <= successes < len(law):
        raise ValueError(f"{successes} successes in {len(law) - 1} trials")
    return float(law[successes + 1 :].sum() + law[successes] / 2)
