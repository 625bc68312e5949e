"""Injury rates with exact limits."""

from dataclasses import dataclass

from seasonboard.stats.estimate import Estimate
from seasonboard.stats.special import check_level, gamma_quantile

GARWOOD = "exact Poisson (Garwood)"

PER = 1000
"""Rates are injuries per this many exposures, or hours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate(Estimate):
    """Injuries per 1000 exposures, with the counts that it is made of."""

    injuries: int
    exposures: int


def injury_rate(injuries: int, exposures: int, *, level: float = 0.95) -> Rate:
    """Return injuries per 1000 exposures with the exact Poisson interval.

    `exposures` are athlete- or site-exposures; without any the rate is None, and `why` is set.

    Raises:
        ValueError: A count is negative, there are injuries without exposures, or `level` is off.

    Source: Garwood (1936), Biometrika 28, 437-442.
    """
    check_level(level)
    if injuries < 0 or exposures < 0:
        raise ValueError(f"counts are 0 or more, not {injuries} injuries / {exposures} exposures")
    if exposures == 0:
        if injuries:
            raise ValueError(f"{injuries} injuries without exposures")
        return Rate(None, level=level, why="no exposures", injuries=0, exposures=0)
    rate = (*_per(injuries, exposures, level), level, GARWOOD)
    return Rate(*rate, injuries=injuries, exposures=exposures)


@dataclass(frozen=True, slots=True, kw_only=True)
class HourlyRate(Estimate):
    """Injuries per 1000 hours, with what it is made of."""

    injuries: int
    hours: float


def hourly_rate(injuries: int, minutes: int, *, level: float = 0.95) -> HourlyRate:
    """Return injuries per 1000 hours with the exact Poisson interval.

    Without a minute the rate is None and `why` is set, also where there was an injury: minutes are
    whole, and it may have come in the first one.

    Raises:
        ValueError: A count is negative, or `level` is off.

    Source: Garwood (1936), Biometrika 28, 437-442.
    """
    check_level(level)
    if injuries < 0 or minutes < 0:
        raise ValueError(f"counts are 0 or more, not {injuries} injuries / {minutes} minutes")
    hours = minutes / 60
    if minutes == 0:
        return HourlyRate(None, level=level, why="no minutes", injuries=injuries, hours=hours)
    return HourlyRate(*_per(injuries, hours, level), level, GARWOOD, injuries=injuries, hours=hours)


def _per(injuries: int, exposed: float, level: float) -> tuple[float, float, float]:
    """Return a rate and its limits, per 1000 of what was exposed."""
    low, high = poisson_limits(injuries, level=level)
    scale = PER / exposed
    return injuries * scale, low * scale, high * scale


def poisson_limits(count: int, *, level: float = 0.95) -> tuple[float, float]:
    """Return the exact limits of a Poisson mean, given one count (Garwood 1936)."""
    tail = (1 - level) / 2
    return gamma_quantile(count, tail), gamma_quantile(count + 1, 1 - tail)
