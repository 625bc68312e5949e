"""Limits that stay where they belong: shares within 0 and 1, means above 0."""

import math


def log_log_limits(share: float, std_error: float, z: float) -> tuple[float, float]:
    """Return limits of a share, drawn on the scale of the log of its negative log.

    Raises:
        ValueError: The share is not between 0 and 1, where that scale has no value.

    Source: Kalbfleisch & Prentice (1980), section 1.3.
    """
    if not 0 < share < 1:
        raise ValueError(f"limits on the log-log scale need a share between 0 and 1, not {share}")
    reach = math.exp(z * std_error / (share * abs(math.log(share))))
    return share**reach, share ** (1 / reach)


def log_limits(mean: float, std_error: float, z: float) -> tuple[float, float]:
    """Return limits of a mean above 0, drawn on the log scale.

    Raises:
        ValueError: The mean is not above 0.

    Source: Meeker & Escobar (1998), Statistical Methods for Reliability Data, section 16.2.
    """
    if mean <= 0:
        raise ValueError(f"limits on the log scale need a mean above 0, not {mean}")
    reach = math.exp(z * std_error / mean)
    return mean / reach, mean * reach
