"""Drawn turns: every order equally likely, strata spread evenly, and what is learnt from them."""

import itertools
import math
from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chisquare

from seasonboard.stats.complier_range import DrawnStrata, complier_range
from seasonboard.stats.drawn_turns import draw_turns, injuries_needed
from seasonboard.stats.ratios import Strata, mantel_haenszel

WAITING = st.lists(st.sampled_from("abcd"), max_size=24)
SEEDS = st.integers(0, 2**31 - 1)


def order(strata, seed, prints=2):
    """Return who has which turn, the first turn first."""
    turns = draw_turns(strata, prints_per_week=prints, seed=seed)
    return sorted(range(len(strata)), key=lambda who: turns[who].turn)


@given(WAITING, st.integers(1, 9), SEEDS)
def test_turns_are_numbered_through_cut_into_weeks_and_the_same_for_the_same_seed(
    strata, prints, seed
):
    turns = draw_turns(strata, prints_per_week=prints, seed=seed)
    assert turns == draw_turns(strata, prints_per_week=prints, seed=seed)
    assert sorted(one.turn for one in turns) == list(range(1, len(strata) + 1))
    in_week = Counter(one.week for one in turns)
    assert all(count == prints for week, count in in_week.items() if week < len(in_week))
    assert all(a.week <= b.week for a in turns for b in turns if a.turn < b.turn)
    assert all(a.key <= b.key for a in turns for b in turns if a.turn < b.turn)


@given(WAITING, SEEDS)
def test_the_turns_of_each_stratum_are_spread_evenly(strata, seed):
    """Its k-th of n lies between the shares k/n and (k+1)/n of the queue, but for the strata."""
    queue = [strata[who] for who in order(strata, seed)]
    for stratum in set(strata):
        at = [turn for turn, one in enumerate(queue) if one == stratum]
        for rank, turn in enumerate(at):
            share, slack = len(queue) / len(at), len(set(strata))
            assert rank * share - slack <= turn <= (rank + 1) * share + slack


@pytest.mark.parametrize("number", [2, 3, 4])
def test_every_order_within_a_stratum_is_equally_likely(number):
    """Over 12,000 seeds each of n! orders comes as often as chance has it (chi-square, scipy)."""
    strata = ["a"] * number + ["b"] * 3
    seen = Counter(
        tuple(who for who in order(strata, seed) if who < number) for seed in range(12_000)
    )
    assert set(seen) == set(itertools.permutations(range(number)))
    assert chisquare(list(seen.values())).pvalue > 0.001


def test_every_turn_is_equally_likely_for_all_strata_large_or_small():
    """The key of each is even over (0, 1): its mean a half, its square a third, at 12,000 seeds."""
    strata = ["a", "b", "b", "c", "c", "c", "c"]
    keys = np.array(
        [[t.key for t in draw_turns(strata, prints_per_week=1, seed=s)] for s in range(12_000)]
    )
    assert np.abs(keys.mean(axis=0) - 1 / 2).max() < 4 * math.sqrt(1 / 12 / 12_000)
    assert np.abs((keys**2).mean(axis=0) - 1 / 3).max() < 4 * math.sqrt(4 / 45 / 12_000)


def test_a_seed_gives_the_same_turns_on_every_machine():
    """Python holds random() to one sequence for a seed; kept so that a change of ours is seen."""
    assert order(list("aabbbcccc"), 20261) == [6, 4, 7, 1, 3, 8, 5, 2, 0]


@pytest.mark.parametrize(("prints", "seed"), [(0, 1), (-1, 1), (2, -1)])
def test_no_prints_and_no_seed_under_nought(prints, seed):
    with pytest.raises(ValueError, match="1 or more"):
        draw_turns(["a"], prints_per_week=prints, seed=seed)


@pytest.mark.parametrize(
    ("weeks", "ratio", "injuries"),
    [(4, 0.7, 1029), (8, 0.7, 772), (12, 0.7, 617), (16, 0.7, 561), (40, 0.7, 561), (8, 0.5, 205)],
)
def test_injuries_needed_by_length_of_the_queue(weeks, ratio, injuries):
    """By hand: (2.80 / ln 0.7)² = 61.6, over 0.06, 0.08, 0.10, 0.11; 2.8016 gives these."""
    needed = injuries_needed(injuries=40, weeks=weeks, ratio=ratio)
    assert (needed.injuries, needed.more) == (injuries, injuries - 40)
    by_hand = (2.80 / math.log(ratio)) ** 2 / {4: 0.06, 8: 0.08, 12: 0.10}.get(weeks, 0.11)
    assert needed.injuries == pytest.approx(by_hand, rel=0.006)


def test_enough_injuries_leave_none_missing_and_one_week_tells_nothing():
    assert injuries_needed(injuries=5000, weeks=12).more == 0
    assert injuries_needed(injuries=0, weeks=6).injuries == math.ceil(
        2.8015852**2 / 0.127217 / 0.07
    )
    assert injuries_needed(injuries=0, weeks=0).why.startswith("nobody waits")
    with pytest.raises(ValueError, match="not 1"):
        injuries_needed(injuries=0, weeks=8, ratio=1)


def halves(come_guarded, come_bare, waiting_guarded, waiting_bare):
    """One stratum as often exposed come as waiting, so that every weight is a half."""
    counts = come_guarded, come_bare, waiting_guarded, waiting_bare, 100, 100
    return DrawnStrata(*([count] for count in counts))


@pytest.mark.parametrize(
    ("counts", "value", "low", "high"),
    [
        ((20, 10, 0, 60), 0.40, 0.211, 0.685),
        ((5, 4, 0, 14), 0.50, 0.059, 3.18),
        ((3, 4, 0, 5), 3.0, 0.0, None),
        ((30, 6, 0, 3), None, 10.08, None),
        ((0, 0, 0, 5), 0.0, 0.0, None),
        ((0, 0, 0, 0), None, None, None),
    ],
)
def test_the_complier_range_by_hand(counts, value, low, high):
    """p = A_g − B_g and so on worked out by hand; the first two also by a second program."""
    found = complier_range(halves(*counts))
    for got, expected in zip((found.value, found.low, found.high), (value, low, high), strict=True):
        assert got == (None if expected is None else pytest.approx(expected, rel=0.005))
    assert bool(found.why) is (high is None)


def test_by_turns_the_first_of_them_is_a_half():
    assert mantel_haenszel(Strata([30], [60], [100], [100])).value == pytest.approx(0.5)


COUNT = st.integers(0, 12)
ROW = st.tuples(COUNT, COUNT, COUNT, COUNT, st.integers(12, 40), st.integers(12, 40))


@given(st.lists(ROW, min_size=1, max_size=4))
def test_the_range_holds_just_the_ratios_that_its_rule_leaves(rows):
    found = complier_range(DrawnStrata(*zip(*rows, strict=True)))
    p = q = r = t = 0.0
    for cg, cb, wg, wb, t1, t0 in rows:
        come, waiting = t0 / (t1 + t0), t1 / (t1 + t0)
        p += cg * come - wg * waiting
        q += wb * waiting - cb * come
        r += cg * come**2 + wg * waiting**2
        t += cb * come**2 + wb * waiting**2
    if r == 0:
        assert found.high is None
        return
    grid = np.linspace(0, 20, 4001)
    left = grid[(p - grid * q) ** 2 <= 3.841459 * (r + grid**2 * t)]
    if len(left):
        assert found.low is not None
        assert found.low - 1e-9 <= left[0] <= found.low + 0.005
    else:
        assert found.low is None or found.low > 19.9 or found.high is not None
    if found.high is not None and len(left):
        assert left[-1] <= found.high + 1e-9
        assert found.high > 20 or left[-1] >= found.high - 0.005
    if q > 0:
        assert found.value == pytest.approx(max(p / q, 0))
