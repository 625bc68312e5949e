"""The order of prints: the published rule, by hand, and against every order there is."""

import math
from itertools import permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.print_order import PrintJob, best_order, in_order, moore_hodgson
from seasonboard.stats.queueing import waits
from tests.stats.laws import law

MEDICAL, DRAWN, REST = range(3)


def test_the_fewest_late_of_a_textbook_example():
    """Jobs of 7, 8, 4, 6, 6 due at 9, 17, 18, 19, 21.

    The example of the algorithm of Moore (1968) that Pinedo's “Scheduling” prints (example 3.3.3;
    numbers from memory): 3-4-5-1-2, of which the last two are late.
    """
    hours, dues = [7, 8, 4, 6, 6], [9, 17, 18, 19, 21]
    order = moore_hodgson(hours, dues)
    assert [number + 1 for number in order] == [3, 4, 5, 1, 2]
    ends = np.cumsum([hours[number] for number in order])
    assert [n + 1 for n, end in zip(order, ends, strict=True) if end > dues[n]] == [1, 2]


def test_a_printer_takes_the_first_that_is_ready_and_waits_only_where_none_is():
    """Two printers: A and B begin at 0, C is ready at 5, D follows B at 2; E never waits for C."""
    jobs = [PrintJob(ready, 4 if ready else hours, ()) for ready, hours in
            ((0, 6), (0, 2), (5, 4), (0, 1), (0, 1))]  # fmt: skip
    assert in_order(jobs, range(5), 2).ends == (6, 2, 9, 3, 4)
    assert in_order(jobs, range(5), 0).ends == (math.inf,) * 5


def test_games_missed_are_counted_game_by_game():
    job = PrintJob(0, 10, (4, 9, 12))
    found = in_order([job, PrintJob(0, 1, ())], [0, 1], 1)
    assert (found.missed, found.bare) == (1, 2)


def test_a_drawn_order_is_kept_whatever_it_costs():
    """Turn 1 takes 9 hours; turn 2, due at 2, misses its game for it, and need goes before both."""
    jobs = [
        PrintJob(0, 1, (2.0,), DRAWN, 2),
        PrintJob(0, 9, (99.0,), DRAWN, 1),
        PrintJob(0, 5, (99.0,), MEDICAL),
        PrintJob(0, 1, (1.0,), REST),
    ]
    kept = best_order(jobs, 1)
    assert kept.order == (2, 1, 0, 3)
    free = best_order([PrintJob(j.ready, j.hours, j.dues) for j in jobs], 1)
    assert (kept.missed, free.missed) == (2, 0)


TIMES = st.integers(0, 9).map(float)
JOB = st.builds(
    PrintJob, st.just(0.0), TIMES, st.lists(st.integers(0, 30).map(float), max_size=2).map(
        lambda dues: tuple(sorted(dues))), st.integers(0, 2),
)  # fmt: skip


def by_the_rules(jobs):
    """Return every order that keeps the blocks and the turns of a draw."""
    for order in permutations(range(len(jobs))):
        blocks = [jobs[number].block for number in order]
        turns = [jobs[number].turn for number in order if jobs[number].turn is not None]
        if blocks == sorted(blocks) and turns == sorted(turns):
            yield order


@st.composite
def queues(draw):
    jobs = draw(st.lists(JOB, max_size=6))
    return [
        PrintJob(one.ready, one.hours, one.dues, one.block, n if one.block == DRAWN else None)
        for n, one in enumerate(jobs)
    ]


@law
@given(queues())
def test_on_one_printer_no_order_within_the_rules_misses_fewer(jobs):
    best = best_order(jobs, 1)
    assert best.is_fewest
    assert best.order in set(by_the_rules(jobs))
    assert best.missed == min(in_order(jobs, order, 1).missed for order in by_the_rules(jobs))


@law
@given(queues(), st.lists(st.integers(0, 9), min_size=6, max_size=6), st.integers(1, 3))
def test_elsewhere_the_list_keeps_the_rules_and_never_claims_to_be_the_best(jobs, ready, printers):
    jobs = [
        PrintJob(at, one.hours, one.dues, one.block, one.turn)
        for at, one in zip(ready, jobs, strict=False)
    ]
    best = best_order(jobs, printers)
    assert best.order in set(by_the_rules(jobs))
    least = min(in_order(jobs, order, printers).missed for order in by_the_rules(jobs))
    assert best.missed >= least
    assert best.is_fewest == (printers == 1 and not any(ready[: len(jobs)]))


@law
@given(st.lists(st.tuples(TIMES, TIMES), min_size=1, max_size=8), st.integers(1, 3))
def test_first_come_first_served_ends_as_the_queue_of_kiefer_and_wolfowitz(pairs, printers):
    """Another recursion, for arrivals in order, of the same printers."""
    ready, hours = (np.array(column) for column in zip(*sorted(pairs), strict=True))
    jobs = [PrintJob(at, of, ()) for at, of in zip(ready, hours, strict=True)]
    waited = waits(ready[None], hours[None], printers)[0]
    assert in_order(jobs, range(len(jobs)), printers).ends == tuple(ready + waited + hours)


@pytest.mark.parametrize("order", [[0], [0, 0], [0, 1, 2]])
def test_an_order_that_is_none_is_refused(order):
    with pytest.raises(ValueError, match="every job once"):
        in_order([PrintJob(0, 1, ()), PrintJob(0, 1, ())], order, 1)


def test_a_hundred_jobs_come_to_an_end():
    jobs = [PrintJob(float(n % 7), 1.0 + n % 5, (float(n * 3 % 90),), n % 3) for n in range(120)]
    best = best_order(jobs, 2)
    assert best.cost <= in_order(jobs, sorted(range(120), key=lambda n: jobs[n].block), 2).cost
