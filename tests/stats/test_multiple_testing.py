"""Comparisons side by side: adjusted p-values, against statsmodels and a worked dozen."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from statsmodels.stats.multitest import multipletests

from seasonboard.stats.multiple_testing import chance_of_a_false_alarm, holm

SHARES = st.lists(st.floats(0, 1), min_size=1, max_size=15)
DOZEN = (0.012, 0.034, 0.041, 0.19, 0.22, 0.31, 0.38, 0.44, 0.52, 0.67, 0.81, 0.95)
"""Invented: three of twelve below 0.05, as twelve nulls may well give."""


@settings(max_examples=25)
@given(SHARES)
def test_they_are_those_of_statsmodels(p_values):
    theirs = multipletests(p_values, method="holm")[1]
    assert holm(p_values) == pytest.approx(list(theirs), rel=1e-12)


def test_of_a_dozen_with_three_below_a_twentieth_none_stands():
    assert min(holm(DOZEN)) == pytest.approx(0.144)
    assert chance_of_a_false_alarm(12) == pytest.approx(0.4596399, rel=1e-6)


@given(SHARES)
def test_adjusting_never_helps(p_values):
    for p, more in zip(p_values, holm(p_values), strict=True):
        assert p - 1e-12 <= more <= 1 + 1e-9


def test_nothing_compared_gives_nothing_and_nonsense_is_refused():
    assert holm([]) == ()
    with pytest.raises(ValueError, match="between 0 and 1"):
        holm([1.2])
