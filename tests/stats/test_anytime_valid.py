"""A ratio that may be looked at every week: what is promised, counted out in full."""

import math
from collections.abc import Iterator
from itertools import accumulate, product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import comb
from scipy.stats import nchypergeom_fisher

from seasonboard.stats.anytime_valid import (
    _GRID,
    _LOG_WEIGHTS,
    RiskSet,
    _Likelihood,
    anytime_valid,
    anytime_valid_trace,
)
from tests.stats.laws import law

DESIGN = [(4, 3, 1), (4, 2, 2), (1, 5, 3), (2, 2, 2)]
"""A tiny season: guarded and unguarded at risk, and injuries, of its sessions."""


def seasons(
    design: list[tuple[int, int, int]], theta: float
) -> Iterator[tuple[float, list[RiskSet]]]:
    """Yield every season that can come of a design, with its probability at a ratio."""
    sessions = []
    for n1, n0, m in design:
        ways = {
            a: comb(n1, a) * comb(n0, m - a) * theta**a
            for a in range(max(0, m - n0), min(m, n1) + 1)
        }
        whole = sum(ways.values())
        sessions.append([(w / whole, RiskSet(n1, n0, a, m - a)) for a, w in ways.items()])
    for season in product(*sessions):
        yield math.prod(chance for chance, _ in season), [s for _, s in season]


@pytest.mark.parametrize("theta", [0.2, 0.7, 1.0, 3.0])
def test_the_likelihood_is_fishers_noncentral_hypergeometric(theta):
    """As scipy has it: m injuries drawn from n1 guarded at odds theta and n0 unguarded."""
    sets = [RiskSet(12, 30, 1, 0), RiskSet(12, 30, 2, 3), RiskSet(3, 2, 2, 1), RiskSet(40, 9, 0, 2)]
    expected = 0.0
    for s in sets:
        n, m = s.at_risk_guarded + s.at_risk_unguarded, s.injuries_guarded + s.injuries_unguarded
        expected += nchypergeom_fisher.logpmf(s.injuries_guarded, n, s.at_risk_guarded, m, theta)
        expected -= nchypergeom_fisher.logpmf(s.injuries_guarded, n, s.at_risk_guarded, m, 1.0)
    likelihood = _Likelihood(sets)
    told = likelihood.here(math.log(theta)).value - likelihood.here(0.0).value
    assert told == pytest.approx(expected)


def test_the_e_value_is_the_mean_likelihood_ratio_over_the_grid():
    ratios = [
        nchypergeom_fisher.pmf(0, 42, 12, 3, theta) / nchypergeom_fisher.pmf(0, 42, 12, 3, 1.0)
        for theta in np.exp(_GRID)
    ]
    expected = float(np.exp(_LOG_WEIGHTS) @ np.array(ratios))
    assert np.exp(_LOG_WEIGHTS).sum() == pytest.approx(1)
    assert anytime_valid([RiskSet(12, 30, 0, 3)]).anytime_evidence == pytest.approx(expected)


def test_over_all_seasons_without_an_effect_the_mean_e_value_is_one():
    """Counted out in full, after every session: the e-value is a martingale at a ratio of 1."""
    for sessions in range(1, len(DESIGN) + 1):
        every = list(seasons(DESIGN[:sessions], 1.0))
        assert sum(chance for chance, _ in every) == pytest.approx(1)
        mean = sum(chance * anytime_valid(season).anytime_evidence for chance, season in every)
        assert mean == pytest.approx(1, rel=1e-12)


def test_given_the_past_the_next_session_changes_nothing_on_average():
    """The martingale property itself: from each past, the mean next e-value is today's."""
    for _, past in seasons(DESIGN[:2], 1.0):
        today = anytime_valid(past).anytime_evidence
        after = sum(
            chance * anytime_valid([*past, *new]).anytime_evidence
            for chance, new in seasons(DESIGN[2:3], 1.0)
        )
        assert after == pytest.approx(today, rel=1e-12)


def test_with_an_effect_the_mean_e_value_is_above_one():
    for theta in (0.3, 2.5):
        mean = sum(
            chance * anytime_valid(s).anytime_evidence for chance, s in seasons(DESIGN, theta)
        )
        assert mean > 1.05


@pytest.mark.parametrize("theta", [1.0, 0.5])
def test_at_every_look_at_once_the_limits_miss_the_truth_at_most_as_often_as_said(theta):
    """All 1024 seasons of ten injuries, looked at after each: 20 % limits miss in under 20 %."""
    states = {
        (a, b): anytime_valid([RiskSet(5, 5, 1, 0)] * a + [RiskSet(5, 5, 0, 1)] * b, level=0.8)
        for a, b in product(range(11), range(11))
        if 1 <= a + b <= 10
    }
    missed, reached = 0.0, 0.0
    for chance, season in seasons([(5, 5, 1)] * 10, theta):
        guarded = list(accumulate(s.injuries_guarded for s in season))
        looks = [states[a, seen - a] for seen, a in enumerate(guarded, start=1)]
        missed += chance * any(
            theta < (look.low or 0.0) or theta > (look.high or math.inf) for look in looks
        )
        reached += chance * any(look.anytime_evidence >= 5 for look in looks)
    assert 0 < missed <= 0.2
    assert (reached <= 0.2) or theta != 1.0


def test_at_its_limits_a_ratio_is_just_refused():
    """There the mean likelihood over the grid is 1 / α times that of the limit."""
    sets = [RiskSet(20, 30, 1, 0)] * 9 + [RiskSet(20, 30, 0, 1)] * 21 + [RiskSet(15, 12, 1, 2)]
    found = anytime_valid(sets)
    likelihood = _Likelihood(sets)
    mixed = math.log(np.exp(likelihood.at(_GRID) + _LOG_WEIGHTS).sum())
    for limit in (found.low, found.high):
        told = likelihood.here(math.log(limit)).value
        assert mixed - told == pytest.approx(math.log(20), abs=1e-6)
    assert found.anytime_evidence == pytest.approx(math.exp(mixed - likelihood.here(0.0).value))


def test_one_of_each_at_even_odds():
    """Single injuries with n1 = n0: the ratio is that of the injuries, a : b."""
    found = anytime_valid([RiskSet(10, 10, 1, 0)] * 6 + [RiskSet(10, 10, 0, 1)] * 12)
    assert found.value == pytest.approx(0.5, abs=1e-6)
    assert found.injuries == 18
    assert found.low < 0.5 < found.high
    assert found.why == ""


def test_the_e_value_reaches_twenty_just_when_the_limits_leave_one_out():
    states = anytime_valid_trace([[RiskSet(10, 10, 0, 1)]] * 14)
    out = [state.high < 1 for state in states]
    assert out == [state.anytime_evidence > 20 for state in states]
    assert (out[0], out[-1]) == (False, True)


def test_without_a_guarded_injury_there_is_an_upper_limit_only():
    found = anytime_valid([RiskSet(10, 10, 0, 1)] * 14)
    assert (found.value, found.low, found.why) == (0.0, 0.0, "no guarded injury that tells")
    assert found.high < 1


def test_with_guarded_injuries_only_there_is_a_lower_limit_only():
    found = anytime_valid([RiskSet(10, 10, 1, 0)] * 14)
    assert (found.value, found.high) == (None, None)
    assert found.low > 1
    assert found.why == "no upper limit yet: every injury that tells was guarded"


def test_none_and_all_guarded_mirror_each_other():
    none, everyone = (
        anytime_valid([RiskSet(10, 10, *hurt), RiskSet(8, 8, *hurt)] * 5)
        for hurt in ((0, 1), (1, 0))
    )
    assert none.high * everyone.low == pytest.approx(1, rel=1e-6)
    assert none.anytime_evidence == pytest.approx(everyone.anytime_evidence)


def test_a_single_injury_among_very_few_guarded_sets_no_limit():
    """One guarded site in ten million: its not being the one hurt says nothing about any ratio."""
    found = anytime_valid([RiskSet(1, 10_000_000, 0, 1)])
    assert (found.value, found.low, found.high) == (0.0, 0.0, None)
    assert found.why == "no upper limit yet"
    assert found.anytime_evidence == pytest.approx(1, abs=1e-5)


@pytest.mark.parametrize(
    "sets",
    [
        [], [RiskSet(0, 9, 0, 2)], [RiskSet(9, 0, 2, 0)], [RiskSet(9, 9, 0, 0)],
        [RiskSet(2, 1, 2, 1)],
    ],
)  # fmt: skip
def test_sets_that_do_not_tell_give_words_and_an_e_value_of_one(sets):
    """One group at risk alone, nobody hurt, or everybody hurt."""
    found = anytime_valid(sets)
    assert (found.value, found.low, found.high) == (None, None, None)
    assert (found.anytime_evidence, found.injuries) == (1.0, 0)
    assert found.why == "no injury where both groups were at risk"
    known = [RiskSet(10, 12, 1, 0), RiskSet(10, 12, 0, 1)]
    assert anytime_valid([*known, *sets]) == anytime_valid(known)


def test_where_the_numbers_force_guarded_injuries_they_are_not_evidence():
    """Three hurt of four guarded and one unguarded: two guarded at least, whatever the ratio."""
    found = anytime_valid([RiskSet(4, 1, 2, 1)])
    assert (found.value, found.low) == (0.0, 0.0)


def test_the_trace_shows_the_state_at_each_look():
    weeks = [[RiskSet(9, 9, 1, 0)], [], [RiskSet(9, 9, 0, 1), RiskSet(8, 9, 0, 1)]]
    trace = anytime_valid_trace(weeks)
    assert [state.injuries for state in trace] == [1, 1, 3]
    assert trace[0] == trace[1] == anytime_valid(weeks[0])
    assert trace[2] == anytime_valid(weeks[0] + weeks[2])
    assert anytime_valid_trace([]) == ()


@st.composite
def risk_sets(draw: st.DrawFn) -> RiskSet:
    n1, n0 = draw(st.integers(0, 30)), draw(st.integers(0, 30))
    return RiskSet(n1, n0, draw(st.integers(0, min(2, n1))), draw(st.integers(0, min(3, n0))))


histories = st.lists(risk_sets(), max_size=12)


@law
@given(histories, st.randoms(use_true_random=False))
def test_the_order_of_injuries_does_not_matter_for_the_last_state(sets, chance):
    shuffled = list(sets)
    chance.shuffle(shuffled)
    one, other = anytime_valid(sets), anytime_valid(shuffled)
    assert (one.injuries, one.why) == (other.injuries, other.why)
    assert one.anytime_evidence == pytest.approx(other.anytime_evidence)
    for value, same in ((one.value, other.value), (one.low, other.low), (one.high, other.high)):
        assert value == (None if same is None else pytest.approx(same, rel=1e-6))


@law
@given(histories)
def test_the_ratio_lies_within_its_limits_and_wider_levels_hold_narrower(sets):
    found, narrow = anytime_valid(sets), anytime_valid(sets, level=0.5)
    assert found.anytime_evidence > 0
    if found.value is not None:
        assert (found.low or 0.0) <= found.value <= (found.high or math.inf)
    if narrow.low is not None and found.low is not None:
        assert found.low <= narrow.low * (1 + 1e-9)
    if found.high is not None and narrow.high is not None:
        assert found.high >= narrow.high * (1 - 1e-9)


@law
@given(histories)
def test_swapping_the_groups_turns_everything_upside_down(sets):
    one = anytime_valid(sets)
    other = anytime_valid(
        [
            RiskSet(
                s.at_risk_unguarded, s.at_risk_guarded, s.injuries_unguarded, s.injuries_guarded
            )
            for s in sets
        ]
    )
    assert one.anytime_evidence == pytest.approx(other.anytime_evidence)
    for value, mirrored in ((one.low, other.high), (one.high, other.low)):
        if value and mirrored:
            assert value * mirrored == pytest.approx(1, rel=1e-6)
        else:
            assert not value
            assert not mirrored
