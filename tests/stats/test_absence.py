"""Days lost as a law: Kaplan-Meier steps, and games that fall into an absence."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from seasonboard.stats.absence_duration import absence_law, draw_absences, mean_days_out
from seasonboard.stats.days_lost import return_curve


def test_open_orders_table_of_the_survival_tests_gives_its_steps():
    """3 5 5 6 8+ 9 12+ 14 15+ 16: still out .9, .7, .6, .48, .32, 0 (by hand, and lifelines)."""
    returns, opens = {3: 1, 5: 2, 6: 1, 9: 1, 14: 1, 16: 1}, {8: 1, 12: 1, 15: 1}
    days = sorted(returns | opens)
    law = absence_law([(day, returns.get(day, 0), opens.get(day, 0)) for day in days])
    assert law.days == (3, 5, 6, 8, 9, 12, 14, 15, 16)
    assert law.chances == approx((0.1, 0.2, 0.1, 0, 0.12, 0, 0.16, 0, 0.32))
    assert (law.injuries, law.still_open, law.beyond) == (10, 3, 0)


def test_what_is_still_open_at_the_end_is_put_on_the_last_day_and_told():
    law = absence_law([(2, 1, 0), (10, 0, 1)])
    assert law.chances == approx((0.5, 0.5))
    assert law.beyond == approx(0.5)


counts = st.lists(
    st.tuples(st.integers(0, 60), st.integers(0, 5), st.integers(0, 3)).filter(
        lambda row: row[1] + row[2] > 0
    ),
    min_size=1,
    max_size=12,
    unique_by=lambda row: row[0],
).map(sorted)


@given(counts)
def test_chances_add_up_and_are_the_steps_of_the_curve_of_returns(rows):
    law = absence_law(rows)
    assert sum(law.chances) == approx(1)
    out = [point.survival for point in return_curve(rows).points]
    assert 1 - np.cumsum(law.chances)[:-1] == approx(out[:-1])
    assert law.beyond == approx(out[-1])


@pytest.mark.parametrize(("days", "season"), [(7, 100), (40, 100), (100, 100), (300, 100)])
def test_games_missed_are_days_out_times_games_a_day(days, season):
    """An injury falls on any day alike: out on average d − d²/2D days, or half the season."""
    law = absence_law([(days, 1, 0)])
    random = np.random.default_rng(1)
    out, missed = draw_absences(law, np.full(200_000, 30.0), season, random)
    expected = min(days, season) - min(days, season) ** 2 / (2 * season)
    assert mean_days_out(law, season) == approx(expected)
    assert out.mean() == approx(expected, rel=0.01)
    assert missed.mean() == approx(expected * 30 / season, rel=0.01)
    assert missed.max() <= 31


def test_days_are_drawn_as_often_as_their_chance():
    law = absence_law([(1, 3, 0), (5, 1, 0)])
    out, _ = draw_absences(law, np.ones(100_000), 1e9, np.random.default_rng(2))
    assert (out == 1).mean() == approx(0.75, abs=0.01)


def test_days_that_do_not_rise_are_refused():
    with pytest.raises(ValueError, match="days rise"):
        absence_law([(5, 1, 0), (5, 1, 0)])
    assert absence_law([]) is None
