"""Injury rates with exact limits."""

from dataclasses import dataclass

from seasonboard.stats.special import check_level, gamma_quantile

PER = 1000
"""Rates are injuries per this many exposures, or hours."""


@dataclass(frozen=True, slots=True)
class Rate:
    """Injuries per 1000 exposures; `why` says in words why `rate` is None."""

    injuries: int
    exposures: int
    rate: float | None
    low: float | None
    high: float | None
    level: float
    why: str = ""


def injury_rate(injuries: int, exposures: int, *, level: float = 0.95) -> Rate:
    """Return injuries per 1000 exposures with the exact Poisson interval.

    Args:
        injuries: Injuries counted, 0 or more.
        exposures: Athlete- or site-exposures they are counted over.
        level: Two-sided confidence level, between 0 and 1.

    Returns:
        The rate and its limits, per 1000. Without exposures they are None and `why` is set.

    Raises:
        ValueError: A count is negative, there are injuries without exposures, or `level` is off.

    References:
        Garwood (1936), Biometrika 28, 437-442.
    """
    check_level(level)
    if injuries < 0 or exposures < 0:
        raise ValueError(f"counts are 0 or more, not {injuries} injuries / {exposures} exposures")
    if exposures == 0:
        if injuries:
            raise ValueError(f"{injuries} injuries without exposures")
        return Rate(0, 0, None, None, None, level, "no exposures")
    low, high = poisson_limits(injuries, level=level)
    scale = PER / exposures
    return Rate(injuries, exposures, injuries * scale, low * scale, high * scale, level)


@dataclass(frozen=True, slots=True)
class HourlyRate:
    """Injuries per 1000 hours; `why` says in words why `rate` is None."""

    injuries: int
    hours: float
    rate: float | None
    low: float | None
    high: float | None
    level: float
    why: str = ""


def hourly_rate(injuries: int, minutes: int, *, level: float = 0.95) -> HourlyRate:
    """Return injuries per 1000 hours with the exact Poisson interval.

    Args:
        injuries: Injuries counted, 0 or more.
        minutes: Minutes of exposure they are counted over.
        level: Two-sided confidence level, between 0 and 1.

    Returns:
        The rate and its limits, per 1000 hours. Without a minute they are None and `why` is set,
        also where there was an injury: minutes are whole, and it may have come in the first one.

    Raises:
        ValueError: A count is negative, or `level` is off.

    References:
        Garwood (1936), Biometrika 28, 437-442.
    """
    check_level(level)
    if injuries < 0 or minutes < 0:
        raise ValueError(f"counts are 0 or more, not {injuries} injuries / {minutes} minutes")
    hours = minutes / 60
    if minutes == 0:
        return HourlyRate(injuries, hours, None, None, None, level, "no minutes")
    low, high = poisson_limits(injuries, level=level)
    scale = PER / hours
    return HourlyRate(injuries, hours, injuries * scale, low * scale, high * scale, level)


def poisson_limits(count: int, *, level: float = 0.95) -> tuple[float, float]:
    """Return the exact limits of a Poisson mean, given one count (Garwood 1936)."""
    tail = (1 - level) / 2
    return gamma_quantile(count, tail), gamma_quantile(count + 1, 1 - tail)
