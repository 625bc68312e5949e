"""The rate ratio common to strata: published tables, and strata that say little or nothing."""

import math
from dataclasses import replace

import pytest

from seasonboard.stats.ratios import GREENLAND_ROBINS, MID_P
from tests.front_door import reference_rows
from tests.stats.strata_rows import Row, over

CLOZAPINE: list[Row] = [(196, 111, 62119, 15763), (167, 157, 6085, 2780)]


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
    assert found.value == pytest.approx(1.719823, abs=1e-6)
    assert (found.exact.low, found.exact.high) == pytest.approx((1.391992, 2.143530), abs=1e-6)


@pytest.mark.parametrize(
    ("band", "ratio", "low", "high"),
    [
        (0, 5.736638, 1.463557, 49.40468), (1, 2.138812, 1.173714, 4.272545),
        (2, 1.468240, 0.986362, 2.264107), (3, 1.356060, 0.908193, 2.096412),
        (4, 0.904730, 0.600076, 1.399687),
    ],
)  # fmt: skip
def test_each_age_band_of_smoking_doctors(doctors, band, ratio, low, high):
    """Breslow & Day 1987, p 112; ratios and exact limits as recomputed."""
    found = over([doctors[band]])
    assert found.value == pytest.approx(ratio, abs=1e-6)
    assert found.exact.low == pytest.approx(low, abs=1e-6)
    assert found.exact.high == pytest.approx(high, abs=1e-5)


def test_smoking_doctors_over_the_age_bands(doctors):
    """Mantel-Haenszel with Greenland & Robins' limits (1985); values as recomputed."""
    found = over(doctors)
    assert found.value == pytest.approx(1.424682, abs=1e-6)
    assert (found.low, found.high) == pytest.approx((1.154703, 1.757784), abs=1e-5)
    assert found.std_error == pytest.approx(0.1071986, abs=1e-7)
    assert found.method == GREENLAND_ROBINS
    assert (found.strata, found.informative_strata, found.informative_injuries) == (5, 5, 731)


def test_smoking_doctors_score_and_homogeneity(doctors):
    """The score test has no continuity correction; homogeneity is about the common log ratio."""
    found = over(doctors)
    assert (found.score.chi_square, found.score.df) == (pytest.approx(11.01619, abs=1e-5), 1)
    assert (found.homogeneity.chi_square, found.homogeneity.df) == (
        pytest.approx(10.4117, abs=1e-4),
        4,
    )
    assert found.homogeneity.p == pytest.approx(0.0340, abs=1e-4)


def test_clozapine_and_death():
    """Rothman, Epidemiology: An Introduction, chapter 10; digits as recomputed."""
    found, at_90 = over(CLOZAPINE), over(CLOZAPINE, level=0.90)
    assert found.value == pytest.approx(0.468872, abs=1e-6)
    assert (found.low, found.high) == pytest.approx((0.399840, 0.549823), abs=1e-6)
    assert (at_90.low, at_90.high) == pytest.approx((0.410210, 0.535923), abs=1e-6)
    assert found.homogeneity.chi_square == pytest.approx(0.2496, abs=1e-4)
    assert found.homogeneity.p == pytest.approx(0.6173, abs=1e-4)
    assert over([(363, 268, 68204, 18543)]).value == pytest.approx(0.368249, abs=1e-6)
    assert over(CLOZAPINE[:1]).value == pytest.approx(0.448072, abs=1e-6)
    assert over(CLOZAPINE[1:]).value == pytest.approx(0.485961, abs=1e-6)


def test_a_stratum_where_only_one_group_was_exposed_informs_nothing():
    found = over([(5, 9, 300, 400), (0, 7, 0, 900), (3, 0, 100, 0)])
    alone = over([(5, 9, 300, 400)])
    assert found.informative_strata == 1
    assert found.informative_injuries == 14
    assert found.value == alone.value
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
    assert (found.value, found.low, found.high, found.p) == (None, None, None, None)
    assert found.why == "no injury where both guarded and unguarded were exposed"
    assert found.score.why == "no informative stratum"
    assert found.homogeneity.why
    assert found.exact.why


def test_strata_without_a_guarded_injury_have_an_upper_limit_only():
    found = over([(0, 3, 100, 100), (0, 2, 50, 80)])
    assert (found.value, found.low) == (0, 0)
    assert 0 < found.high < math.inf
    assert (found.method, found.why) == (MID_P, "no guarded injury")
    assert found.homogeneity.why == "needs injuries in both groups of every stratum"


def test_strata_without_an_unguarded_injury_have_a_lower_limit_only():
    found = over([(3, 0, 100, 100), (2, 0, 50, 80)])
    assert (found.value, found.high) == (None, None)
    assert found.low > 0
    assert found.method == MID_P
    assert "no upper limit yet" in found.why


def test_more_injuries_than_can_be_worked_out_exactly_say_so():
    rows = [(1, 1, 100 + k, 300) for k in range(360)]
    found = over(rows)
    assert found.exact.why == "not worked out for 720 injuries in 360 strata"
    assert (found.exact.low, found.exact.mid_p_high) == (None, None)
    assert found.low < found.value < found.high


def test_however_many_the_strata_none_or_all_guarded_still_has_its_one_limit():
    """There is one way only for that to happen: the tail is a product, 700 factors here."""
    none = over([(0, 1, 10 + k, 300) for k in range(700)])
    assert (none.low, none.exact.low) == (0, 0)
    shares = [(10 + k) * none.exact.high / (300 + (10 + k) * none.exact.high) for k in range(700)]
    assert math.prod(1 - share for share in shares) == pytest.approx(0.025, rel=1e-9)
    everyone = over([(1, 0, 300, 10 + k) for k in range(700)])
    assert everyone.exact.low * none.exact.high == pytest.approx(1, rel=1e-9)
    assert everyone.low * none.high == pytest.approx(1, rel=1e-9)
    assert everyone.high is None


def test_summed_injury_free_strata_change_nothing_but_the_count(doctors):
    """Where nobody was hurt, the exposures of many strata may stand in one position."""
    apart = over([*doctors, (0, 0, 10, 20), (0, 0, 30, 5), (0, 0, 7, 0)])
    summed = over([*doctors, (0, 0, 47, 25)], standing_for=[1, 1, 1, 1, 1, 3])
    assert summed == apart
    assert replace(apart, strata=5, exposures_guarded=142247, exposures_unguarded=39220) == over(
        doctors
    )
