"""How long prints wait at printers, first come first served."""

import numpy as np
import numpy.typing as npt

Times = npt.NDArray[np.float64]


def waits(arrivals: npt.ArrayLike, services: npt.ArrayLike, servers: int) -> Times:
    """Return how long each job waits before it is begun, first come first served.

    The Kiefer-Wolfowitz recursion: each job takes the server that is free first. All seasons are
    followed at once, job by job.

    Args:
        arrivals: When jobs arrive, one simulated season a row, in order of arrival; a row with
            fewer jobs ends in `inf`.
        services: How long each job holds a server, of the same shape and in the same unit; what
            stands beside an arrival at `inf` does not count.
        servers: How many jobs are served at a time.

    Returns:
        Waits of the same shape and unit; `nan` where there is no job.

    Raises:
        ValueError: The shapes differ, jobs are not in order of arrival, a service is negative or
            not known, or there is no server.

    Source: Kiefer & Wolfowitz (1955), Trans Am Math Soc 78, 1-18 (from memory).
    """
    arrive, serve = np.asarray(arrivals, dtype=float), np.asarray(services, dtype=float)
    _check(arrive, serve, servers)
    result = np.full(arrive.shape, np.nan)
    row = np.arange(arrive.shape[0])
    free = np.full((arrive.shape[0], servers), -np.inf)
    for job in range(arrive.shape[1]):
        came, is_job = arrive[:, job], np.isfinite(arrive[:, job])
        first = free.argmin(axis=1)
        begun = np.maximum(came, free[row, first])
        result[is_job, job] = begun[is_job] - came[is_job]
        free[row, first] = np.where(is_job, begun + serve[:, job], np.inf)
    return result


def _check(arrive: Times, serve: Times, servers: int) -> None:
    if arrive.ndim != 2 or arrive.shape != serve.shape:
        raise ValueError("arrivals and services are two tables of one shape, a season a row")
    if servers < 1:
        raise ValueError("there is no server")
    later, earlier = arrive[:, 1:], arrive[:, :-1]
    if np.isnan(arrive).any() or np.isneginf(arrive).any():
        raise ValueError("an arrival is not known")
    if (later < earlier).any():
        raise ValueError("jobs are not in order of arrival")
    there = serve[np.isfinite(arrive)]
    if not (np.isfinite(there) & (there >= 0)).all():
        raise ValueError("a service is negative or not known")
