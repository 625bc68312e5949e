"""How much more must be seen before a ratio worth having could be told from 1."""

import math
from dataclasses import dataclass

from seasonboard.stats.special import check_level, normal_quantile


@dataclass(frozen=True, slots=True)
class SampleSize:
    """Guarded exposures needed in all; None with `why` when no rate is known yet."""

    ratio: float
    power: float
    exposures_guarded: int | None
    more_guarded: int | None
    why: str = ""


def exposures_needed(
    *, ratio: float, rate: float, bare_per_guarded: float, power: float = 0.8, level: float = 0.95
) -> float:
    """Return the guarded exposures at which `ratio` is told from 1 with the given power.

    `rate` is the bare rate, injuries per exposure; `bare_per_guarded` the bare exposures for each
    guarded one; `power` the chance of telling the ratio from 1.

    Raises:
        ValueError: An argument is out of range.

    Source: Breslow & Day (1987), Statistical Methods in Cancer Research II, chapter 7: the log of a
    rate ratio has variance 1 / expected guarded + 1 / expected bare injuries.
    """
    check_level(level)
    if not 0 < power < 1:
        raise ValueError(f"power lies between 0 and 1, not {power}")
    if ratio <= 0 or ratio == 1 or rate <= 0 or bare_per_guarded <= 0:
        raise ValueError("ratio, rate and bare_per_guarded are above 0, and ratio is not 1")
    z = normal_quantile((1 + level) / 2) + normal_quantile(power)
    spread = 1 / (ratio * rate) + 1 / (rate * bare_per_guarded)
    return z**2 * spread / math.log(ratio) ** 2


def sample_size(  # noqa: PLR0913 - all by name
    *,
    injuries_unguarded: int,
    exposures_guarded: int,
    exposures_unguarded: int,
    ratio: float = 0.7,
    power: float = 0.8,
    level: float = 0.95,
) -> SampleSize:
    """Return how many guarded exposures are needed in all, and how many more, at today's mix."""
    if not injuries_unguarded or not exposures_guarded or not exposures_unguarded:
        why = "no bare rate is known yet" if exposures_guarded else "no guard was worn yet"
        return SampleSize(ratio, power, None, None, why)
    rate, mix = injuries_unguarded / exposures_unguarded, exposures_unguarded / exposures_guarded
    needed = exposures_needed(
        ratio=ratio, rate=rate, bare_per_guarded=mix, power=power, level=level
    )
    total = math.ceil(needed)
    return SampleSize(ratio, power, total, max(0, total - exposures_guarded))
