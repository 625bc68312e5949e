"""How much more must be seen before a ratio can be told from 1."""

import math
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.sample_size import SampleSize, exposures_needed, sample_size
from tests.stats.laws import law


def test_seven_against_ten_injuries_per_1000_take_14984_exposures_each():
    """The log formula of Breslow & Day 1987, chapter 7, at 80 % power and 95 % level."""
    found = exposures_needed(ratio=0.7, rate=0.010, bare_per_guarded=1)
    assert math.ceil(found) == 14984


def test_the_injuries_that_go_with_it_are_schoenfelds_247_and_a_little():
    """Schoenfeld 1981 takes the spread at a ratio of 1: 4 (z + z)² / log² = 246.8 injuries.

    At a ratio r the injuries spread unevenly, which takes (1 + r)² / 4r times as many.
    """
    exposures = exposures_needed(ratio=0.7, rate=0.010, bare_per_guarded=1)
    injuries = exposures * (0.7 + 1) * 0.010
    schoenfeld = injuries / ((1 + 0.7) ** 2 / (4 * 0.7))
    assert schoenfeld == pytest.approx(246.8, abs=0.05)
    assert math.ceil(schoenfeld) == 247
    assert injuries == pytest.approx(254.7, abs=0.05)


@pytest.mark.parametrize(
    ("ratio", "rate", "guarded", "bare"),
    [(0.4521, 8 / 1000, 5000, 5000), (0.2733, 9.31 / 1000, 2000, 6000)],
)
def test_the_smallest_ratio_that_can_be_told_takes_just_the_exposures_there_are(
    ratio, rate, guarded, bare
):
    """Found the other way round, as the ratio at which the power is 80 %."""
    found = exposures_needed(ratio=ratio, rate=rate, bare_per_guarded=bare / guarded)
    assert found == pytest.approx(guarded, rel=1e-3)
    assert exposures_needed(ratio=ratio + 0.01, rate=rate, bare_per_guarded=bare / guarded) > found


@pytest.mark.parametrize(("power", "level"), [(0.8, 0.95), (0.9, 0.95), (0.8, 0.99)])
def test_at_the_exposures_needed_the_power_is_the_one_asked_for(power, level):
    """A normal log ratio of that spread passes its critical value with the chance asked for."""
    n = exposures_needed(ratio=0.6, rate=0.02, bare_per_guarded=2, power=power, level=level)
    error = math.sqrt(1 / (n * 0.6 * 0.02) + 1 / (n * 2 * 0.02))
    z = NormalDist().inv_cdf((1 + level) / 2)
    assert NormalDist().cdf(-math.log(0.6) / error - z) == pytest.approx(power)


def test_needed_works_at_todays_rate_and_mix():
    found = sample_size(injuries_unguarded=30, exposures_guarded=1000, exposures_unguarded=3000)
    whole = exposures_needed(ratio=0.7, rate=0.01, bare_per_guarded=3)
    assert found == SampleSize(0.7, 0.8, math.ceil(whole), math.ceil(whole) - 1000)


def test_who_has_seen_enough_needs_no_more():
    found = sample_size(
        injuries_unguarded=3000, exposures_guarded=100_000, exposures_unguarded=300_000, ratio=0.5
    )
    assert found.exposures_guarded < 100_000
    assert (found.more_guarded, found.why) == (0, "")


@pytest.mark.parametrize(
    ("injuries", "guarded", "bare", "why"),
    [
        (0, 100, 300, "no bare rate is known yet"), (0, 100, 0, "no bare rate is known yet"),
        (4, 0, 300, "no guard was worn yet"), (0, 0, 0, "no guard was worn yet"),
    ],
)  # fmt: skip
def test_without_a_rate_or_a_guard_there_are_words(injuries, guarded, bare, why):
    found = sample_size(
        injuries_unguarded=injuries, exposures_guarded=guarded, exposures_unguarded=bare, power=0.9
    )
    assert found == SampleSize(0.7, 0.9, None, None, why)


@law
@given(st.floats(0.05, 0.95), st.floats(1e-4, 0.2), st.floats(0.05, 20))
def test_weaker_effects_and_rarer_injuries_take_more(ratio, rate, bare):
    known = exposures_needed(ratio=ratio, rate=rate, bare_per_guarded=bare)
    assert exposures_needed(ratio=ratio, rate=rate / 2, bare_per_guarded=bare) == pytest.approx(
        2 * known
    )
    assert exposures_needed(ratio=ratio, rate=rate, bare_per_guarded=2 * bare) < known
    assert exposures_needed(ratio=ratio, rate=rate, bare_per_guarded=bare, power=0.9) > known
    weaker = (ratio + 1) / 2
    assert exposures_needed(ratio=weaker, rate=rate, bare_per_guarded=bare) > known


@law
@given(st.floats(0.05, 0.95), st.floats(1e-4, 0.2), st.floats(0.05, 20))
def test_which_group_is_called_guarded_does_not_matter(ratio, rate, bare):
    guarded = exposures_needed(ratio=ratio, rate=rate, bare_per_guarded=bare)
    swapped = exposures_needed(ratio=1 / ratio, rate=ratio * rate, bare_per_guarded=1 / bare)
    assert swapped == pytest.approx(guarded * bare)
