"""Waiting for a printer: by hand, against the textbook's means, and by laws."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from seasonboard.stats.queueing import waits
from tests.stats.laws import law

INF, NAN = math.inf, math.nan
SEASONS, JOBS, WARM_UP = 400, 1600, 400
STANDARD_ERRORS = 4
"""With a fixed seed nothing is left to chance; so many would be passed once in 16,000 seeds."""


def one_server(rate, service_squared):
    """Mean wait at services of mean 1: λ E(S²) / (2 (1 - ρ)); Pollaczek-Khinchine (from memory)."""
    return rate * service_squared / (2 * (1 - rate))


def several_servers(load, servers):
    """Mean wait at exponential services of mean 1: C / (c - a), Erlang's C (from memory)."""
    top = load**servers / math.factorial(servers) * servers / (servers - load)
    below = sum(load**k / math.factorial(k) for k in range(servers))
    return top / (below + top) / (servers - load)


def simulated(draw_service, rate, servers):
    """Return the mean wait and its standard error, the first jobs of each season left out."""
    random = np.random.default_rng(20261)
    shape = (SEASONS, JOBS)
    arrivals = np.cumsum(random.exponential(1 / rate, shape), axis=1)
    found = waits(arrivals, draw_service(random, shape), servers)
    by_season = found[:, WARM_UP:].mean(axis=1)
    return by_season.mean(), by_season.std(ddof=1) / math.sqrt(SEASONS)


@pytest.mark.parametrize(
    ("draw_service", "rate", "servers", "expected"),
    [
        (lambda r, n: r.exponential(1, n), 0.6, 1, one_server(0.6, 2)),
        (lambda _, n: np.ones(n), 0.7, 1, one_server(0.7, 1)),
        (lambda r, n: r.exponential(1, n), 1.5, 2, several_servers(1.5, 2)),
        (lambda r, n: r.exponential(1, n), 4.0, 5, several_servers(4.0, 5)),
        # a gamma of shape 4 and mean 1 has the variance 1/4
        (lambda r, n: r.gamma(4, 0.25, n), 0.7, 1, one_server(0.7, 1.25)),
        # one print in five takes 3 hours, the others half an hour: the mean is 1, the square 2
        (lambda r, n: r.choice([3, 0.5], n, p=[0.2, 0.8]), 0.5, 1, 1.0),
    ],
    ids=["M/M/1", "M/D/1", "M/M/2", "M/M/5", "M/G/1 gamma", "M/G/1 two kinds"],
)
def test_the_mean_wait_is_the_textbooks(draw_service, rate, servers, expected):
    mean, error = simulated(draw_service, rate, servers)
    assert abs(mean - expected) < STANDARD_ERRORS * error
    assert error < 0.03 * expected


def test_the_textbooks_means_by_hand():
    """λ = 0.8, S = 1: 0.8/0.2; half of it without spread; two servers at a = 1 wait 1 in 3."""
    assert one_server(0.8, 2) == pytest.approx(4)
    assert one_server(0.8, 1) == pytest.approx(2)
    assert one_server(0.5, 0.2 * 9 + 0.8 * 0.25) == pytest.approx(1)
    assert several_servers(1, 2) == pytest.approx(1 / 3)
    assert several_servers(0.6, 1) == pytest.approx(one_server(0.6, 2))


def test_one_printer_by_hand():
    """Jobs at 0, 1, 2 and 9 of 3 hours each are begun at 0, 3, 6 and 9."""
    assert waits([[0, 1, 2, 9]], [[3, 3, 3, 3]], 1).tolist() == [[0, 2, 4, 0]]


def test_two_printers_by_hand():
    """Jobs of 5, 1, 2 and 1 hours asked for at 0, 0, 0, 1: the third follows the second."""
    assert waits([[0, 0, 0, 1]], [[5, 1, 2, 1]], 2).tolist() == [[0, 0, 1, 2]]


def test_seasons_are_apart_and_may_have_fewer_jobs():
    arrivals = [[0, 0, INF], [0, INF, INF], [INF, INF, INF], [2, 2, 2]]
    services = [[4, 4, NAN], [1, 7, 7], [NAN, 1, 1], [1, 1, 1]]
    expected = [[0, 4, NAN], [0, NAN, NAN], [NAN, NAN, NAN], [0, 1, 2]]
    np.testing.assert_array_equal(waits(arrivals, services, 1), expected)


def test_no_job_and_no_season_are_no_trouble():
    assert waits(np.empty((3, 0)), np.empty((3, 0)), 2).shape == (3, 0)
    assert waits(np.empty((0, 3)), np.empty((0, 3)), 2).shape == (0, 3)


SEASON = arrays(int, st.tuples(st.just(3), st.integers(0, 12)), elements=st.integers(0, 9))


@st.composite
def jobs(draw):
    gaps = draw(SEASON)
    services = draw(arrays(int, gaps.shape, elements=st.integers(0, 9)))
    return np.cumsum(gaps, axis=1).astype(float), services.astype(float)


@law
@given(jobs(), st.integers(1, 4))
def test_nobody_waits_less_than_nothing_and_the_order_is_kept(season, servers):
    arrivals, services = season
    found = waits(arrivals, services, servers)
    assert (found >= 0).all()
    assert (np.diff(arrivals + found, axis=1) >= 0).all()


@law
@given(jobs(), st.integers(1, 4))
def test_one_more_printer_makes_nobody_wait_longer(season, servers):
    few, more = (waits(*season, count) for count in (servers, servers + 1))
    assert (more <= few).all()


@law
@given(jobs(), st.integers(1, 4))
def test_never_are_more_served_at_once_than_there_are_printers(season, servers):
    arrivals, services = season
    begun = arrivals + waits(arrivals, services, servers)
    busy = (begun[:, :, None] <= begun[:, None, :]) & (
        begun[:, None, :] < (begun + services)[:, :, None]
    )
    assert (busy.sum(axis=1) <= servers).all()
