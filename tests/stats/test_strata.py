"""The rate ratio common to strata: published tables, and strata that say little or nothing."""

import math
import random
from dataclasses import astuple, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from seasonboard.stats.ratios import (
    GREENLAND_ROBINS,
    MID_P,
    RateRatio,
    Strata,
    mantel_haenszel,
)
from tests.front_door import reference_rows

Row = tuple[int, int, int, int]
"""Guarded injuries, unguarded injuries, guarded exposures, unguarded exposures."""

CLOZAPINE: list[Row] = [(196, 111, 62119, 15763), (167, 157, 6085, 2780)]


def over(rows: list[Row], *, standing_for=None, level=0.95) -> RateRatio:
    a, b, t1, t0 = zip(*rows, strict=True) if rows else ((), (), (), ())
    return mantel_haenszel(Strata(a, b, t1, t0, standing_for), level=level)


@pytest.fixture(scope="module")
def doctors() -> list[Row]:
    """Deaths of smokers and others, and their person-years, in five age bands."""
    cells = {
        (int(r["age_from"]), r["smoker"]): (int(r["deaths"]), int(r["person_years"]))
        for r in reference_rows("doll_hill_coronary.csv")
    }
    return [
        (cells[age, "1"][0], cells[age, "0"][0], cells[age, "1"][1], cells[age, "0"][1])
        for age in (35, 45, 55, 65, 75)
    ]


def test_crude_ratio_of_smoking_doctors(doctors):
    """Doll & Hill 1966; exact limits of the whole table as Stata's manual has them."""
    found = over([tuple(sum(column) for column in zip(*doctors, strict=True))])
    assert (found.injuries_guarded, found.exposures_guarded) == (630, 142247)
    assert (found.injuries_unguarded, found.exposures_unguarded) == (101, 39220)
    assert found.rate_ratio == approx(1.719823, abs=1e-6)
    assert found.exact.low == approx(1.391992, abs=1e-6)
    assert found.exact.high == approx(2.143530, abs=1e-6)


@pytest.mark.parametrize(
    ("band", "ratio", "low", "high"),
    [
        (0, 5.736638, 1.463557, 49.40468),
        (1, 2.138812, 1.173714, 4.272545),
        (2, 1.468240, 0.986362, 2.264107),
        (3, 1.356060, 0.908193, 2.096412),
        (4, 0.904730, 0.600076, 1.399687),
    ],
)
def test_each_age_band_of_smoking_doctors(doctors, band, ratio, low, high):
    """Breslow & Day 1987, p 112; ratios and exact limits as recomputed."""
    found = over([doctors[band]])
    assert found.rate_ratio == approx(ratio, abs=1e-6)
    assert found.exact.low == approx(low, abs=1e-6)
    assert found.exact.high == approx(high, abs=1e-5)


def test_smoking_doctors_over_the_age_bands(doctors):
    """Mantel-Haenszel with Greenland & Robins' limits (1985); values as recomputed."""
    found = over(doctors)
    assert found.rate_ratio == approx(1.424682, abs=1e-6)
    assert (found.low, found.high) == (approx(1.154703, abs=1e-5), approx(1.757784, abs=1e-5))
    assert found.std_error == approx(0.1071986, abs=1e-7)
    assert found.method == GREENLAND_ROBINS
    assert (found.strata, found.informative_strata, found.informative_injuries) == (5, 5, 731)


def test_smoking_doctors_score_and_homogeneity(doctors):
    """The score test has no continuity correction; homogeneity is about the common log ratio."""
    found = over(doctors)
    assert (found.score.chi_square, found.score.df) == (approx(11.01619, abs=1e-5), 1)
    assert (found.homogeneity.chi_square, found.homogeneity.df) == (approx(10.4117, abs=1e-4), 4)
    assert found.homogeneity.p == approx(0.0340, abs=1e-4)


def test_clozapine_and_death():
    """Rothman, Epidemiology: An Introduction, chapter 10; digits as recomputed."""
    found, at_90 = over(CLOZAPINE), over(CLOZAPINE, level=0.90)
    assert found.rate_ratio == approx(0.468872, abs=1e-6)
    assert (found.low, found.high) == (approx(0.399840, abs=1e-6), approx(0.549823, abs=1e-6))
    assert (at_90.low, at_90.high) == (approx(0.410210, abs=1e-6), approx(0.535923, abs=1e-6))
    assert found.homogeneity.chi_square == approx(0.2496, abs=1e-4)
    assert found.homogeneity.p == approx(0.6173, abs=1e-4)
    assert over([(363, 268, 68204, 18543)]).rate_ratio == approx(0.368249, abs=1e-6)
    assert over(CLOZAPINE[:1]).rate_ratio == approx(0.448072, abs=1e-6)
    assert over(CLOZAPINE[1:]).rate_ratio == approx(0.485961, abs=1e-6)


def test_guards_worn_to_games_turn_the_crude_ratio_around():
    """Games hurt more and guards are worn to them: crude over 1, both strata under it."""
    games, practices = (12, 4, 400, 100), (2, 12, 400, 1600)
    assert over([(14, 16, 800, 1700)]).rate_ratio == approx(1.859375, abs=1e-9)
    assert over([games]).rate_ratio == approx(0.75, abs=1e-12)
    assert over([practices]).rate_ratio == approx(0.666666667, abs=1e-9)
    found = over([games, practices])
    assert found.rate_ratio == approx(0.714285714, abs=1e-9)
    assert (found.low, found.high) == (
        approx(0.288298389, abs=1e-8),
        approx(1.7697084, abs=1e-6),
    )


def test_a_stratum_where_only_one_group_was_exposed_informs_nothing():
    found = over([(5, 9, 300, 400), (0, 7, 0, 900), (3, 0, 100, 0)])
    alone = over([(5, 9, 300, 400)])
    assert found.informative_strata == 1
    assert found.informative_injuries == 14
    assert found.rate_ratio == alone.rate_ratio
    assert (found.injuries_guarded, found.injuries_unguarded) == (8, 16)


def test_with_a_single_informative_stratum_the_interval_is_the_exact_one():
    """Strata that say nothing may not change the interval, whatever they add to the counts."""
    alone = over([(5, 9, 300, 400)])
    found = over([(5, 9, 300, 400), (0, 0, 50, 80), (0, 2, 0, 60)])
    assert found.strata == 3
    assert found.method == alone.method == MID_P
    assert (found.low, found.high, found.p) == (alone.low, alone.high, alone.p)
    assert found.homogeneity.why == "needs two informative strata or more"


@pytest.mark.parametrize(
    "rows", [[], [(0, 0, 10, 10)] * 3, [(0, 4, 0, 90), (2, 0, 80, 0)], [(0, 0, 0, 0)]]
)
def test_without_an_informative_stratum_there_are_words_and_no_numbers(rows):
    found = over(rows)
    assert (found.rate_ratio, found.low, found.high, found.p) == (None, None, None, None)
    assert found.why == "no injury where both guarded and unguarded were exposed"
    assert found.score.why == "no informative stratum"
    assert found.homogeneity.why
    assert found.exact.why


def test_strata_without_a_guarded_injury_have_an_upper_limit_only():
    found = over([(0, 3, 100, 100), (0, 2, 50, 80)])
    assert (found.rate_ratio, found.low) == (0, 0)
    assert 0 < found.high < math.inf
    assert (found.method, found.why) == (MID_P, "no guarded injury")
    assert found.homogeneity.why == "needs injuries in both groups of every stratum"


def test_strata_without_an_unguarded_injury_have_a_lower_limit_only():
    found = over([(3, 0, 100, 100), (2, 0, 50, 80)])
    assert (found.rate_ratio, found.high) == (None, None)
    assert found.low > 0
    assert found.method == MID_P
    assert "no upper limit yet" in found.why


def test_more_injuries_than_can_be_worked_out_exactly_say_so():
    rows = [(1, 1, 100 + k, 300) for k in range(360)]
    found = over(rows)
    assert found.exact.why == "not worked out for 720 injuries in 360 strata"
    assert (found.exact.low, found.exact.mid_p_high) == (None, None)
    assert found.low < found.rate_ratio < found.high


def test_summed_injury_free_strata_change_nothing_but_the_count(doctors):
    """Where nobody was hurt, the exposures of many strata may stand in one position."""
    apart = over([*doctors, (0, 0, 10, 20), (0, 0, 30, 5), (0, 0, 7, 0)])
    summed = over([*doctors, (0, 0, 47, 25)], standing_for=[1, 1, 1, 1, 1, 3])
    assert summed == apart
    assert replace(apart, strata=5, exposures_guarded=142247, exposures_unguarded=39220) == over(
        doctors
    )


row = st.tuples(
    st.integers(0, 8), st.integers(0, 8), st.integers(20, 5000), st.integers(20, 5000)
)
tables = st.lists(row, min_size=1, max_size=8)


@given(tables, st.randoms(use_true_random=False))
def test_the_order_of_strata_does_not_matter(rows, chance: random.Random):
    shuffled = list(rows)
    chance.shuffle(shuffled)
    _same(over(rows), over(shuffled))


@given(tables)
def test_merging_all_strata_keeps_the_counts_and_gives_the_crude_ratio(rows):
    whole = tuple(sum(column) for column in zip(*rows, strict=True))
    crude, adjusted = over([whole]), over(rows)
    for count in (
        "injuries_guarded",
        "injuries_unguarded",
        "exposures_guarded",
        "exposures_unguarded",
        "informative_injuries",
    ):
        assert getattr(crude, count) == getattr(adjusted, count)
    if whole[1]:
        assert crude.rate_ratio == approx((whole[0] / whole[2]) / (whole[1] / whole[3]), rel=1e-12)


@given(tables)
def test_swapping_the_groups_turns_ratio_and_limits_upside_down(rows):
    one, other = over(rows), over([(b, a, t0, t1) for a, b, t1, t0 in rows])
    for value, mirrored in (
        (one.rate_ratio, other.rate_ratio),
        (one.low, other.high),
        (one.high, other.low),
        (one.exact.low, other.exact.high),
        (one.exact.mid_p_high, other.exact.mid_p_low),
    ):
        if value and mirrored:
            assert value * mirrored == approx(1, rel=1e-8)
        else:
            assert not value
            assert not mirrored


@given(tables)
def test_limits_hold_the_ratio_and_are_numbers_or_words(rows):
    found = over(rows)
    values = [v for v in (*astuple(found), *astuple(found.exact)) if isinstance(v, float)]
    assert all(math.isfinite(value) for value in values)
    if found.rate_ratio is not None:
        assert found.low <= found.rate_ratio
        assert found.high is None or found.rate_ratio <= found.high
    assert found.why or None not in (found.rate_ratio, found.low, found.high, found.p)


@given(tables, st.floats(0.5, 0.98))
def test_a_higher_level_is_never_narrower(rows, level):
    narrow, wide = over(rows, level=level), over(rows, level=0.99)
    for low in ("low", "high"):
        inner, outer = getattr(narrow, low), getattr(wide, low)
        if inner:
            assert outer < inner if low == "low" else outer > inner


@given(row, st.integers(2, 5))
def test_a_stratum_cut_into_equal_shares_of_both_groups_keeps_its_exact_limits(cut, shares):
    """Strata with one exposure ratio are one stratum as far as the exact limits go."""
    a, b, t1, t0 = cut
    whole = over([(a * shares, b * shares, t1 * shares, t0 * shares)])
    assert over([cut] * shares).exact == whole.exact


def _same(one: RateRatio, other: RateRatio) -> None:
    for left, right in zip(_numbers(one), _numbers(other), strict=True):
        same = left == right if not isinstance(left, float) else left == approx(right, rel=1e-8)
        assert same or (abs(left) < 1e-12 and abs(right) < 1e-12)


def _numbers(found: RateRatio):
    parts = (found, found.exact, found.score, found.homogeneity)
    return [value for part in parts for value in astuple(part) if not isinstance(value, tuple)]
