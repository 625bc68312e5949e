"""Waiting for a printer: by hand, against the textbook's means, and by laws."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from seasonboard.stats import queueing as queue
from tests.stats.laws import law

INF, NAN = math.inf, math.nan
SEASONS, JOBS, WARM_UP = 400, 1600, 400
STANDARD_ERRORS = 4
"""With a fixed seed nothing is left to chance; so many would be passed once in 16,000 seeds."""


def simulated(draw_service, rate, servers):
    """Return the mean wait and its standard error, the first jobs of each season left out."""
    random = np.random.default_rng(20261)
    shape = (SEASONS, JOBS)
    arrivals = np.cumsum(random.exponential(1 / rate, shape), axis=1)
    found = queue.waits(arrivals, draw_service(random, shape), servers)
    by_season = found[:, WARM_UP:].mean(axis=1)
    return by_season.mean(), by_season.std(ddof=1) / math.sqrt(SEASONS)


@pytest.mark.parametrize(
    ("draw_service", "rate", "servers", "expected"),
    [
        (lambda r, n: r.exponential(1, n), 0.6, 1, queue.mm1_wait(0.6, 1)),
        (lambda _, n: np.ones(n), 0.7, 1, queue.md1_wait(0.7, 1)),
        (lambda r, n: r.exponential(1, n), 1.5, 2, queue.mmc_wait(1.5, 1, 2)),
        (lambda r, n: r.exponential(1, n), 4.0, 5, queue.mmc_wait(4.0, 1, 5)),
        # a gamma of shape 4 and mean 1 has the variance 1/4
        (lambda r, n: r.gamma(4, 0.25, n), 0.7, 1, queue.pollaczek_khinchine(0.7, 1, 1.25)),
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
    assert queue.mm1_wait(0.8, 1) == pytest.approx(4)
    assert queue.md1_wait(0.8, 1) == pytest.approx(2)
    assert queue.chance_to_wait(1, 1, 2) == pytest.approx(1 / 3)
    assert queue.mmc_wait(1, 1, 2) == pytest.approx(1 / 3)
    assert queue.pollaczek_khinchine(0.5, 1, 0.2 * 9 + 0.8 * 0.25) == pytest.approx(1)


@pytest.mark.parametrize(("load", "servers"), [(0.5, 1), (2.5, 4), (10, 14), (17.3, 20)])
def test_erlangs_c_is_its_own_sum(load, servers):
    """C = T / (Σ a^k/k! + T) over k < c, with T = a^c/c! · c/(c - a)."""
    top = load**servers / math.factorial(servers) * servers / (servers - load)
    below = sum(load**k / math.factorial(k) for k in range(servers))
    assert queue.chance_to_wait(load, 1, servers) == pytest.approx(top / (below + top))


def test_one_exponential_server_waits_the_same_in_both_formulas():
    assert queue.mmc_wait(0.6, 1.2, 1) == pytest.approx(queue.mm1_wait(0.6, 1.2))


def test_a_queue_without_an_end_has_no_mean():
    assert queue.mm1_wait(1, 1) is None
    assert queue.md1_wait(2, 1) is None
    assert queue.mmc_wait(3, 1, 3) is None
    assert queue.chance_to_wait(4, 1, 3) is None


def test_one_printer_by_hand():
    """Jobs at 0, 1, 2 and 9 of 3 hours each are begun at 0, 3, 6 and 9."""
    assert queue.waits([[0, 1, 2, 9]], [[3, 3, 3, 3]], 1).tolist() == [[0, 2, 4, 0]]


def test_two_printers_by_hand():
    """Jobs of 5, 1, 2 and 1 hours asked for at 0, 0, 0, 1: the third follows the second."""
    assert queue.waits([[0, 0, 0, 1]], [[5, 1, 2, 1]], 2).tolist() == [[0, 0, 1, 2]]


def test_seasons_are_apart_and_may_have_fewer_jobs():
    arrivals = [[0, 0, INF], [0, INF, INF], [INF, INF, INF], [2, 2, 2]]
    services = [[4, 4, NAN], [1, 7, 7], [NAN, 1, 1], [1, 1, 1]]
    expected = [[0, 4, NAN], [0, NAN, NAN], [NAN, NAN, NAN], [0, 1, 2]]
    np.testing.assert_array_equal(queue.waits(arrivals, services, 1), expected)


def test_no_job_and_no_season_are_no_trouble():
    assert queue.waits(np.empty((3, 0)), np.empty((3, 0)), 2).shape == (3, 0)
    assert queue.waits(np.empty((0, 3)), np.empty((0, 3)), 2).shape == (0, 3)


@pytest.mark.parametrize(
    ("arrivals", "services", "servers", "said"),
    [
        ([[1, 0]], [[1, 1]], 1, "order of arrival"),
        ([[INF, 0]], [[1, 1]], 1, "order of arrival"),
        ([[0, NAN]], [[1, 1]], 1, "not known"),
        ([[0, 1]], [[1, -1]], 1, "negative"),
        ([[0, 1]], [[1, NAN]], 1, "negative or not known"),
        ([[0, 1]], [[1]], 1, "one shape"),
        ([0, 1], [1, 1], 1, "one shape"),
        ([[0, 1]], [[1, 1]], 0, "no server"),
    ],
)
def test_what_is_no_queue_is_refused(arrivals, services, servers, said):
    with pytest.raises(ValueError, match=said):
        queue.waits(arrivals, services, servers)


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
    found = queue.waits(arrivals, services, servers)
    assert (found >= 0).all()
    assert (np.diff(arrivals + found, axis=1) >= 0).all()


@law
@given(jobs(), st.integers(1, 4))
def test_one_more_printer_makes_nobody_wait_longer(season, servers):
    few, more = (queue.waits(*season, count) for count in (servers, servers + 1))
    assert (more <= few).all()


@law
@given(jobs(), st.integers(1, 4))
def test_never_are_more_served_at_once_than_there_are_printers(season, servers):
    arrivals, services = season
    begun = arrivals + queue.waits(arrivals, services, servers)
    busy = (begun[:, :, None] <= begun[:, None, :]) & (
        begun[:, None, :] < (begun + services)[:, :, None]
    )
    assert (busy.sum(axis=1) <= servers).all()


def test_an_allotment_by_hand():
    """At 4 a week of 10, 0, 0, 5 asked for: 6, 2, 0 and 1 are left over."""
    assert queue.left_over([[10, 0, 0, 5], [4, 4, 0, 4]], 4).tolist() == [[6, 2, 0, 1], [0] * 4]
    assert queue.weeks_waited([[10, 0, 0, 5]], 4).tolist() == [[2, 1, 0, 1]]


@law
@given(SEASON, st.integers(1, 6))
def test_an_allotment_is_week_by_week_what_a_clerk_would_write(asked, per_week):
    expected = np.zeros_like(asked)
    for season, weeks in enumerate(asked):
        open_prints = 0
        for week, new in enumerate(weeks):
            open_prints = max(0, open_prints + new - per_week)
            expected[season, week] = open_prints
    found = queue.left_over(asked, per_week)
    assert (found == expected).all()
    assert (queue.weeks_waited(asked, per_week) * per_week >= found).all()
    assert ((queue.weeks_waited(asked, per_week) - 1) * per_week < np.maximum(found, 1)).all()


@pytest.mark.parametrize(
    ("asked", "per_week", "said"),
    [
        ([[1, -1]], 3, "0 or more"), ([[1.5]], 3, "whole"), ([1, 2], 3, "a row"),
        ([[1]], 0, "at least"),
    ],
)  # fmt: skip
def test_what_is_no_allotment_is_refused(asked, per_week, said):
    with pytest.raises(ValueError, match=said):
        queue.left_over(asked, per_week)


@pytest.mark.parametrize("numbers", [(0, 1, 1), (1, 0, 1), (1, 1, 0), (1, INF, 1), (-1, 1, 1)])
def test_what_is_no_rate_is_refused(numbers):
    with pytest.raises(ValueError, match="positive"):
        queue.mmc_wait(*numbers)


def test_a_square_below_that_of_the_mean_is_refused():
    with pytest.raises(ValueError, match="square"):
        queue.pollaczek_khinchine(0.5, 1, 0.9)
