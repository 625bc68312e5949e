"""How long prints wait: at printers, first come first served, and under a weekly allotment."""

import numpy as np
import numpy.typing as npt

Times = npt.NDArray[np.float64]
Counts = npt.NDArray[np.int64]


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

    References:
        Kiefer & Wolfowitz (1955), Trans Am Math Soc 78, 1-18 (from memory).
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
    if bool(np.isnan(arrive).any()) or bool(np.isneginf(arrive).any()):
        raise ValueError("an arrival is not known")
    if bool((later < earlier).any()):
        raise ValueError("jobs are not in order of arrival")
    there = serve[np.isfinite(arrive)]
    if not bool((np.isfinite(there) & (there >= 0)).all()):
        raise ValueError("a service is negative or not known")


def left_over(asked_per_week: npt.ArrayLike, per_week: int) -> Counts:
    """Return how many prints are still to be made at the end of each week.

    In a week at most `per_week` prints are made; what is not used is lost (Lindley's recursion,
    in the closed form of a walk reflected at 0).

    Args:
        asked_per_week: Prints asked for, one simulated season a row, one week a column.
        per_week: The allotment, in prints.

    Raises:
        ValueError: A number is negative or not whole, or nothing may be printed.

    References:
        Lindley (1952), Proc Camb Phil Soc 48, 277-289 (from memory).
    """
    asked = np.asarray(asked_per_week)
    if asked.ndim != 2 or not np.issubdtype(asked.dtype, np.integer) or bool((asked < 0).any()):
        raise ValueError("prints asked for are whole numbers of 0 or more, a season a row")
    if per_week < 1:
        raise ValueError("an allotment is at least 1 print a week")
    walk = np.cumsum(asked.astype(np.int64) - per_week, axis=1)
    return walk - np.minimum(np.minimum.accumulate(walk, axis=1), 0)


def weeks_waited(asked_per_week: npt.ArrayLike, per_week: int) -> Counts:
    """Return how many weeks the last print asked for in each week waits, first asked first made.

    0 says that it is made in the week in which it is asked for. A week without a print tells how
    long one more would have waited for those before it.

    Args:
        asked_per_week: As `left_over`.
        per_week: As `left_over`.

    Raises:
        ValueError: As `left_over`.
    """
    return -(-left_over(asked_per_week, per_week) // per_week)


def pollaczek_khinchine(
    arrival_rate: float, service: float, service_squared: float
) -> float | None:
    """Return the mean wait at one server with any law of service (M/G/1); None without an end.

    Args:
        arrival_rate: Jobs that arrive in a unit of time, at random.
        service: Mean time of service.
        service_squared: Mean of its square: variance + mean².

    Raises:
        ValueError: A number is not positive, or the square is below that of the mean.

    References:
        Kleinrock (1975), Queueing Systems I, chapter 5: λ E(S²) / (2 (1 - ρ)) (from memory).
    """
    _check_positive(arrival_rate, service)
    if service_squared < service * service * (1 - 1e-12):
        raise ValueError("the mean square of the service lies below the square of its mean")
    load = arrival_rate * service
    return arrival_rate * service_squared / (2 * (1 - load)) if load < 1 else None


def mm1_wait(arrival_rate: float, service: float) -> float | None:
    """Return the mean wait at one server with exponential service of mean `service`.

    None, and what is raised, as `pollaczek_khinchine`, of which it is a case: ρ S / (1 - ρ).
    """
    return pollaczek_khinchine(arrival_rate, service, 2 * service * service)


def md1_wait(arrival_rate: float, service: float) -> float | None:
    """Return the mean wait at one server with services that all last `service`.

    None, and what is raised, as `pollaczek_khinchine`, of which it is a case: half of `mm1_wait`.
    """
    return pollaczek_khinchine(arrival_rate, service, service * service)


def mmc_wait(arrival_rate: float, service: float, servers: int) -> float | None:
    """Return the mean wait at several servers with exponential service; None without an end.

    Raises:
        ValueError: A number is not positive.

    References:
        Kleinrock (1975), Queueing Systems I, section 3.5: C(c, a) S / (c - a) (from memory).
    """
    chance = chance_to_wait(arrival_rate, service, servers)
    load = arrival_rate * service
    return None if chance is None else chance * service / (servers - load)


def chance_to_wait(arrival_rate: float, service: float, servers: int) -> float | None:
    """Return the share of jobs that find every server busy (Erlang's C); None without an end.

    It is made from Erlang's B by its recursion, which overflows for no number of servers.

    Raises:
        ValueError: A number is not positive.

    References:
        Erlang (1917); Kleinrock (1975), Queueing Systems I, section 3.5 (both from memory).
    """
    _check_positive(arrival_rate, service, servers)
    load = arrival_rate * service
    if load >= servers:
        return None
    lost = 1.0
    for server in range(1, servers + 1):
        lost = load * lost / (server + load * lost)
    return lost / (1 - load / servers * (1 - lost))


def _check_positive(*numbers: float) -> None:
    if not all(number > 0 and np.isfinite(number) for number in numbers):
        raise ValueError("rates, times and servers are positive numbers")
