"""What would undo a ratio: E-values, tipping points, bias analysis."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.e_value import e_value
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.misclassification import OwnersBare, bias_analysis, missed_share
from seasonboard.stats.ratios import Strata, mantel_haenszel
from seasonboard.stats.tipping_points import (
    attendance_share,
    is_less,
    is_shown,
    mirrored,
    wear_flips,
)
from tests.stats.laws import law

STRATA = Strata([0] * 20 + [1] * 2, [1] * 20 + [0] * 2, [4] * 22, [8] * 22)
"""Twenty strata with one bare injury, two with a guarded one: 4 guarded and 8 bare in each."""


@pytest.mark.parametrize(
    ("ratio", "expected", "source"),
    [
        ((10.73, 8.02, 14.36), (20.95, 15.52), "VanderWeele & Ding 2017"),
        ((0.80, 0.71, 0.91), (1.81, 1.43), "VanderWeele & Ding 2017"),
        ((3.9, None, None), (7.26, None), "VanderWeele & Ding 2017"),
        ((0.59144, 0.30907, 1.1318), (2.77, 1.0), "by hand"),
        ((0.24, 0.10, 0.58), (7.80, 2.84), "by hand"),
        ((0.0, 0.0, 0.5), (None, 3.41), "by hand: 2 + √2, and no ratio of 0 turned about"),
        ((1.0, 0.5, 2.0), (1.0, 1.0), "by hand"),
    ],
)
def test_e_values_are_the_published_ones(ratio, expected, source):
    found = e_value(Estimate(*ratio, why="a limit may lack"))
    read = [None if one is None else round(one, 2) for one in (found.value, found.of_limit)]
    assert tuple(read) == expected, source


def test_one_of_twenty_bare_injuries_or_a_seventh_of_attendance_undoes_it():
    """Worked by hand: above 2·8/12, under 20·4/12, spread 22·32/144."""
    ratio = mantel_haenszel(STRATA)
    assert [round(one, 3) for one in (ratio.value, ratio.low, ratio.high)] == [0.2, 0.047, 0.856]
    found = e_value(ratio)
    assert [round(one, 2) for one in (found.value, found.of_limit)] == [9.47, 1.61]
    flips = wear_flips(STRATA, [1] * 20 + [0] * 2)
    assert (flips.needed, flips.candidates) == (1, 20)
    flipped = mantel_haenszel(
        Strata([1] + [0] * 19 + [1] * 2, [0] + [1] * 19 + [0] * 2, [5] + [4] * 21, [7] + [8] * 21)
    )
    assert [round(one, 3) for one in (flipped.value, flipped.high)] == [0.303, 1.053]
    assert attendance_share(STRATA) == pytest.approx(0.144, abs=0.0005)


def test_without_candidates_no_number_would_and_within_the_limits_nothing_is_to_undo():
    none = wear_flips(STRATA, [0] * 22)
    assert (none.needed, none.candidates, none.why) == (None, 0, "no number would undo it")
    assert none.all_flipped == mantel_haenszel(STRATA)
    even = Strata([3, 2], [3, 2], [50, 50], [50, 50])
    shown = wear_flips(even, [3, 2])
    assert (shown.needed, shown.why) == (None, "no difference is shown that could be undone")
    assert attendance_share(even) is None
    with pytest.raises(ValueError, match="more candidates than bare injuries"):
        wear_flips(STRATA, [2] * 22)


columns = st.lists(
    st.tuples(st.integers(0, 2), st.integers(0, 4), st.integers(3, 9), st.integers(5, 9)),
    min_size=1,
    max_size=6,
)


@law
@given(columns)
def test_a_ratio_over_1_is_undone_as_its_mirror_image_is(cells):
    strata = Strata(*map(list, zip(*cells, strict=True)))
    ratio, turned = mantel_haenszel(strata), mantel_haenszel(mirrored(strata))
    assert is_shown(ratio) == is_shown(turned)
    assert is_less(turned) == (ratio.low is not None and ratio.low > 1)


@law
@given(columns)
def test_each_flip_is_the_one_that_lifts_the_limit_most_of_all_there_are(cells):
    """Once more by trying every flip through the whole statistic."""
    held = [list(column) for column in zip(*cells, strict=True)]
    left, needed = list(held[1]), 0
    found = wear_flips(Strata(*held), held[1])
    if not is_less(mantel_haenszel(Strata(*held))):
        assert found.needed is None
        return
    while sum(left) and is_less(mantel_haenszel(Strata(*held))):
        tried = []
        for at in (n for n, many in enumerate(left) if many):
            after = [[*column] for column in held]
            for column, step in zip(after, (1, -1, 1, -1), strict=True):
                column[at] += step
            high = mantel_haenszel(Strata(*after)).high
            tried.append((high if high is not None else np.inf, -at, after))
        _, at, held = max(tried, key=lambda one: (round(one[0], 9), one[1]))
        left[-at] -= 1
        needed += 1
    assert found.needed == (None if is_less(mantel_haenszel(Strata(*held))) else needed)


@law
@given(columns)
def test_the_least_share_of_attendance_undoes_it_and_a_little_less_does_not(cells):
    a, b, t1, t0 = map(list, zip(*cells, strict=True))
    share = attendance_share(Strata(a, b, t1, t0))
    if share is not None:
        for lost, is_undone in ((share, True), (share - 1e-6, False)):
            more = [count / (1 - lost) for count in t0]
            assert is_less(mantel_haenszel(Strata(a, b, t1, more))) != is_undone


@pytest.mark.parametrize(
    ("worn", "sensitivity", "missed"),
    [(0.6, 0.8, 0.375), (0.9, 0.8, 1.0), (0.0, 0.5, 0.0), (1.0, 0.5, 0.0), (0.6, 1.0, 0.0)],
)
def test_who_wore_it_without_a_row(worn, sensitivity, missed):
    """Worked by hand: 0.6 / 0.8 = 0.75 wore it, 0.15 of the 0.4 without a row."""
    assert missed_share(worn, np.array([sensitivity]))[0] == pytest.approx(missed)


def test_a_bias_analysis_of_complete_records_is_the_ratio_and_its_limits():
    """Sensitivity all but 1: nothing is flipped, and the normal error alone is left."""
    owners = OwnersBare([1] * 20 + [0] * 2, [4] * 22)
    ratio = mantel_haenszel(STRATA)
    found = bias_analysis(STRATA, owners, sensitivity=(1e9, 1))
    assert np.log([found.value, found.low, found.high]) == pytest.approx(
        np.log([ratio.value, ratio.low, ratio.high]), abs=0.12
    )
    assert bias_analysis(STRATA, owners) == bias_analysis(STRATA, owners)
    wider = bias_analysis(STRATA, owners)
    assert wider.high / wider.low > found.high / found.low
    assert bias_analysis(STRATA, OwnersBare([0] * 22, [0] * 22)).why
