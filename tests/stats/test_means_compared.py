"""The difference of restricted means keeps limits when few or none were injured."""

import pytest
from pytest import approx
from scipy.special import gammaincinv

from seasonboard.stats.restricted_mean_difference import GAMMA, games_lost, means_compared
from seasonboard.stats.survival import kaplan_meier, restricted_mean
from tests.stats.spells import counts, freireich


def curve(spells):
    return kaplan_meier(counts(spells))


QUIET = curve([(0, 10, False)] * 20)
ONE_HURT = curve([(0, 10, False)] * 19 + [(0, 4, True)])


@pytest.mark.parametrize("arm", ["6-MP", "control"])
def test_ticks_lost_are_the_horizon_less_the_restricted_mean(arm):
    """Freireich et al. 1963: the weighted sum over injuries is the area above the curve."""
    found = curve(freireich(arm))
    mean = restricted_mean(found, 20).value
    assert games_lost(found, 20).lost == approx(20 - mean, abs=1e-12)


def test_with_enough_injuries_the_limits_are_the_published_normal_ones():
    """Freireich et al. 1963, 20 weeks, as R's survival package gives means and errors."""
    found = means_compared(curve(freireich("6-MP")), curve(freireich("control")), 20)
    assert (found.low, found.high) == approx((4.195897, 11.180013), abs=1e-5)
    assert found.method == "normal"


def test_without_injuries_the_limit_is_that_of_a_poisson_count_of_zero():
    """One weight for all (one tick before the horizon): 3.6889 injuries (Garwood 1936) times it."""
    single = curve([(0, 2, False)] * 50)
    found = games_lost(single, 2)
    assert (found.injuries, found.lost, found.low) == (0, 0.0, 0.0)
    assert found.high == approx(3.688879 / 50, abs=1e-6)


def test_equal_weights_give_the_exact_poisson_limits():
    """Fay & Feuer 1997: with one weight the gamma limits are Garwood's."""
    hurt = curve([(0, 1, True)] * 3 + [(0, 2, False)] * 97)
    found = games_lost(hurt, 2)
    assert found.low == approx(float(gammaincinv(3, 0.025)) / 100, abs=1e-9)
    assert found.high == approx(float(gammaincinv(4, 0.975)) / 100, abs=1e-9)


def test_two_quiet_groups_are_not_told_apart():
    found = means_compared(QUIET, QUIET, 10)
    assert found.value == 0
    assert found.low < 0 < found.high
    assert found.low == approx(-found.high)
    assert found.method == GAMMA


def test_a_quiet_group_is_not_taken_for_a_safe_one():
    """The normal limits would have no spread at all from the quiet group."""
    found = means_compared(QUIET, ONE_HURT, 10)
    assert found.value > 0
    assert found.low < 0
    back = means_compared(ONE_HURT, QUIET, 10)
    assert (back.low, back.high) == approx((-found.high, -found.low))


def test_more_confidence_is_wider():
    narrow, wide = (means_compared(QUIET, ONE_HURT, 10, level=level) for level in (0.8, 0.99))
    assert wide.low < narrow.low
    assert narrow.high < wide.high
