"""Seasons simulated ahead: against closed forms, and what must hold whatever is asked."""

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from pytest import approx
from scipy.special import bdtr

from seasonboard.stats.absence_duration import absence_law, mean_days_out
from seasonboard.stats.season_ahead import (
    Cell,
    Chances,
    RatioLaw,
    expected_kept,
    season_ahead,
    spread,
)

LAW = absence_law([(2, 5, 0), (7, 4, 1), (30, 2, 1)])
DAYS = 100.0
CELLS = (Cell(20.0, 0.0, 0.0, 25.0),)


def simulate(cells=CELLS, ratio=None, share=0.4, n=4000, absence=LAW, seed=1, in_sessions=1.0):
    chances = Chances(np.full(n, float(share)), in_sessions, ratio, absence)
    return season_ahead(cells, chances, days_in_season=DAYS, seed=seed)


def test_without_guards_injuries_are_poisson():
    found = simulate(n=20_000).injuries
    assert found.mean == approx(20, rel=0.01)
    assert (found.low_95, found.median, found.high_95) == (12, 20, 29)  # scipy.stats.poisson.ppf


def test_a_rate_that_rests_on_few_injuries_spreads_by_the_law_of_total_variance():
    """Var = λ + λ² / shape: 20 + 400 / 16 = 45, of a negative binomial; ranges of its normal."""
    found = simulate((Cell(20.0, 16.0, 0.0, 25.0),), n=40_000).injuries
    assert found.mean == approx(20, rel=0.01)
    assert (found.high_80 - found.low_80) / 2.563 == approx(math.sqrt(45), rel=0.06)


def test_teams_stray_together_as_far_as_they_share_what_is_not_known():
    """Var of 2 × 50: 100 + 100²/20 where all is shared; 100 + 2·50²/20 where nothing is."""
    one, two = (simulate((Cell(50, 20, shared, 1),) * 2, n=20_000).injuries for shared in (1, 0))
    assert (one.high_95 - one.low_95) / 3.92 == approx(math.sqrt(600), rel=0.05)
    assert (two.high_95 - two.low_95) / 3.92 == approx(math.sqrt(350), rel=0.05)


def test_what_is_kept_on_average_is_the_product_of_its_inputs():
    """E(ratio) of a log-normal is exp(μ + σ²/2)."""
    law = RatioLaw(0.6, 0.3)
    found = simulate((Cell(20.0, 30.0, 0.0, 25.0),), law, n=40_000)
    expected = expected_kept(
        20, 25, guarded=0.4, ratio=0.6 * math.exp(0.3**2 / 2), days_out=mean_days_out(LAW, DAYS),
        days_in_season=DAYS,
    )  # fmt: skip
    assert found.games_kept.mean == approx(expected, rel=0.035), "a little less: seasons end"
    assert found.averted.mean == approx(20 * 0.4 * (1 - 0.6 * math.exp(0.045)), rel=0.02)
    assert found.days_kept.mean == approx(expected * DAYS / 25, rel=0.035)


def test_a_guard_acts_on_injuries_in_sessions_alone():
    """Half of 20 · 0.4 · 0.5 are averted where half of the injuries happen outside sessions."""
    found = simulate(ratio=RatioLaw(0.5, 0.0), n=20_000, in_sessions=0.5)
    assert found.averted.mean == approx(20 * 0.4 * 0.5 / 2, rel=0.03)


def test_athletes_who_are_out_longer_miss_as_many_games_more():
    """LAW is short beside the season: twice the days are nearly twice the games."""
    short = absence_law([(2, 90, 0), (4, 10, 0)])
    once, twice = (
        simulate((Cell(20.0, 0.0, 0.0, 25.0, out),), n=20_000, absence=short) for out in (1.0, 2.0)
    )
    assert twice.games_missed.mean == approx(2 * once.games_missed.mean, rel=0.05)
    assert twice.injuries == once.injuries


def test_without_effect_seasons_with_and_without_guards_are_about_equal():
    found = simulate(ratio=RatioLaw(1.0, 0.2))
    assert found.injuries_with.median == approx(found.injuries.median, abs=1)
    assert found.games_missed_with.median == approx(found.games_missed.median, abs=2)
    assert found.games_kept.median == 0
    assert found.games_kept.low_95 < 0 < found.games_kept.high_95, "it may be harm"


def test_an_exact_ratio_of_1_keeps_nothing_in_any_season():
    found = simulate(ratio=RatioLaw(1.0, 0.0))
    assert found.injuries_with == found.injuries
    assert found.games_kept == spread(np.zeros(10))


def test_nobody_guarded_keeps_nothing_and_shows_nothing():
    found = simulate(ratio=RatioLaw(0.3, 0.4), share=0.0)
    assert found.games_kept == found.days_kept == found.averted == spread(np.zeros(10))
    assert found.visible is None


def test_harm_adds_injuries_and_loses_games():
    found = simulate(ratio=RatioLaw(2.0, 0.0), n=20_000)
    assert found.averted.mean == approx(-20 * 0.4, rel=0.02)
    assert found.games_kept.high_95 <= 0


def test_without_a_ratio_only_seasons_without_guards_are_told():
    found = simulate()
    assert found.injuries == simulate(ratio=RatioLaw(0.5, 0.2)).injuries
    assert found.games_missed.mean == approx(20 * 25 / DAYS * mean_days_out(LAW, DAYS), rel=0.03)
    assert found.games_kept is found.averted is found.visible is None


def test_without_a_law_of_absences_injuries_alone_are_told():
    found = simulate(ratio=RatioLaw(0.5, 0.2), absence=None)
    assert found.averted.mean > 0
    assert found.games_missed is found.games_kept is found.days_kept is None


def test_a_difference_is_seen_as_often_as_the_exact_test_says():
    """Poisson 30·0.5·0.4 guarded and 30·0.5 bare: summed over all outcomes, p = 2 × the tail."""
    found = simulate(
        (Cell(30.0, 0, 0, 1.0),), ratio=RatioLaw(0.4, 0.0), share=0.5, n=40_000
    ).visible
    x = np.arange(80)
    lgamma = np.array([math.lgamma(k + 1) for k in x])
    a = np.exp(x * math.log(6) - 6 - lgamma)
    b = np.exp(x * math.log(15) - 15 - lgamma)
    guarded, bare = np.meshgrid(x, x, indexing="ij")
    seen = 2 * bdtr(guarded, guarded + bare, 0.5) <= 0.05
    assert found.fewer == approx(float((np.outer(a, b) * seen).sum()), abs=0.01)
    assert found.chance == approx(found.fewer + found.more)


def test_without_effect_a_difference_is_seen_in_at_most_5_percent():
    assert simulate((Cell(60, 0, 0, 1),), ratio=RatioLaw(1.0, 0.0), n=20_000).visible.chance <= 0.05


def test_the_same_seed_gives_the_same_numbers_and_another_does_not():
    law = RatioLaw(0.6, 0.3)
    assert simulate(ratio=law) == simulate(ratio=law)
    assert simulate(ratio=law, seed=2) != simulate(ratio=law)


@settings(max_examples=15)
@given(
    expected=st.floats(0.5, 60),
    share=st.floats(0, 0.8),
    more=st.floats(0.01, 0.2),
    ratio=st.floats(0.2, 0.9),
    lower=st.floats(0.3, 0.95),
)
def test_more_guarded_or_a_lower_ratio_never_keeps_less(expected, share, more, ratio, lower):
    """The same seasons are looked at, so this holds season by season and not only on average."""
    cells = (Cell(expected, 25.0, 0.5, 20.0),)

    def kept(ratio, share):
        return simulate(cells, RatioLaw(ratio, 0.0), share, n=300).games_kept_each

    base = kept(ratio, share)
    assert (kept(ratio, share + more) >= base).all()
    assert (kept(ratio * lower, share) >= base).all()
