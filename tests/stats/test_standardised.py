"""Two curves at one mix of athletes, and the difference of their restricted means."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx
from scipy.special import gammaincinv

from seasonboard.stats.direct_standardisation import GAMMA, standardised
from seasonboard.stats.log_rank import TwoGroupTick
from seasonboard.stats.survival import kaplan_meier, restricted_mean
from tests.published import RESTRICTED_MEANS
from tests.stats.laws import law
from tests.stats.spells import counts, freireich, residents, two_groups

FREIREICH = two_groups(freireich("6-MP"), freireich("control"))


def rows(stratum, *cells, first=1):
    """At risk and injured of the guarded, then of the bare, tick by tick."""
    return [TwoGroupTick(stratum, first + k, *cell) for k, cell in enumerate(cells)]


def shares(points):
    return {p.tick: p.survival for p in points}


TWO_STRATA = [
    *rows("wings", (10, 1, 30, 6), (8, 1, 8, 1)),
    *rows("backs", (30, 3, 10, 0), (8, 0, 24, 6)),
]


def test_two_strata_by_hand():
    """Tick 1: W 7.5 in both; guarded (.1 + .1) / 2, bare (.2 + 0) / 2. Tick 2: W 4 and 6."""
    found = standardised(TWO_STRATA, horizon=2)
    assert shares(found.guarded) == approx({1: 0.9, 2: 0.9 * (1 - 0.4 / 8)})
    assert shares(found.unguarded) == approx({1: 0.9, 2: 0.9 * (1 - (0.4 / 8 + 0.6 / 4))})
    assert (found.mean_guarded.value, found.mean_unguarded.value) == approx((1.9, 1.9))
    assert found.difference.value == approx(0)
    of_guarded = 0.25 * 0.1 * 0.9 / 10 + 0.25 * 0.1 * 0.9 / 30
    assert found.mean_guarded.std_error == approx(math.sqrt(of_guarded))
    assert found.guarded[0].std_error == approx(math.sqrt(of_guarded))
    assert [p.at_risk for p in found.unguarded] == [40, 32]


def test_a_mix_turns_around_what_differing_athletes_made_of_it():
    """Guards go to whom is hurt most; in each stratum the guarded are hurt half as often."""
    ticks = [*rows("wings", *[(80, 8, 20, 4)] * 3), *rows("backs", *[(20, 0, 980, 1)] * 3)]
    pooled = rows("all", *[(100, 8, 1000, 5)] * 3)
    assert standardised(pooled, horizon=3).difference.value < 0
    assert standardised(ticks, horizon=3).difference.value > 0


@pytest.mark.parametrize(("horizon", "treated", "placebo", "gap", "low", "high"), RESTRICTED_MEANS)
def test_one_stratum_gives_the_published_means_and_limits(
    horizon, treated, placebo, gap, low, high
):
    found = standardised(FREIREICH, horizon=horizon)
    for mean, published in ((found.mean_guarded, treated), (found.mean_unguarded, placebo)):
        assert (mean.value, mean.std_error) == approx(published, abs=1e-6)
    limits = found.difference.low, found.difference.high
    assert (found.difference.value, *limits) == approx((gap, low, high), abs=1e-5)
    assert found.difference.method == "normal"


def test_one_stratum_gives_kaplan_and_meiers_curves():
    found = standardised(FREIREICH, horizon=22)
    for arm, points in (("6-MP", found.guarded), ("control", found.unguarded)):
        plain = {p.tick: p for p in kaplan_meier(counts(freireich(arm))).points}
        for p in points:
            ours = (p.survival, p.std_error, p.low, p.high)
            assert ours == approx(tuple(getattr(plain[p.tick], n) for n in
                                        ("survival", "std_error", "low", "high")))  # fmt: skip


def test_late_entry_of_the_residents_of_channing_house():
    """Hyde 1977: months lived between 70 and 80, of those alive at 70, as Kaplan and Meier give."""
    ticks = two_groups(residents("female"), residents("male"))
    found = standardised([t for t in ticks if t.tick > 840], horizon=960)
    for sex, mean in (("female", found.mean_guarded), ("male", found.mean_unguarded)):
        plain = restricted_mean(kaplan_meier(counts(residents(sex)), start=841), 960)
        assert (mean.start, mean.value, mean.std_error) == (
            841, approx(plain.value), approx(plain.std_error))  # fmt: skip


CELLS = st.tuples(st.integers(1, 40), st.integers(1, 40)).flatmap(
    lambda n: st.tuples(st.just(n[0]), st.integers(0, n[0]), st.just(n[1]), st.integers(0, n[1]))
)
STRATA = st.lists(CELLS, min_size=1, max_size=6)


@law
@given(STRATA)
def test_hazards_of_one_tick_stand_as_the_risk_ratio_of_statsmodels(cells):
    """Mantel and Haenszel's pooled risk ratio, by `StratifiedTable`."""
    from statsmodels.stats.contingency_tables import StratifiedTable

    found = standardised([TwoGroupTick(k, 1, *cell) for k, cell in enumerate(cells)], horizon=2)
    hurt, bare = (1 - points[0].survival for points in (found.guarded, found.unguarded))
    if not bare:
        return
    tables = [[[d1, n1 - d1], [d0, n0 - d0]] for n1, d1, n0, d0 in cells]
    if all(d1 + d0 for _, d1, _, d0 in cells):  # statsmodels divides by what is 0 else
        assert hurt / bare == approx(StratifiedTable(tables).riskratio_pooled)
    above = sum(d1 * n0 / (n1 + n0) for n1, d1, n0, d0 in cells)
    assert hurt / bare == approx(above / sum(d0 * n1 / (n1 + n0) for n1, d1, n0, d0 in cells))


SEASONS = st.lists(st.lists(CELLS, min_size=3, max_size=3), min_size=1, max_size=4)


@law
@given(SEASONS)
def test_swapped_groups_turn_the_sign_and_lone_groups_tell_nothing(strata):
    ticks = [one for k, cells in enumerate(strata) for one in rows(k, *cells)]
    forth = standardised(ticks, horizon=3)
    swapped = [TwoGroupTick(t.stratum, t.tick, *t[4:6], *t[2:4]) for t in ticks]
    back = standardised(swapped, horizon=3)
    gap, turned = forth.difference, back.difference
    assert (gap.value, gap.low, gap.high) == approx((-turned.value, -turned.high, -turned.low))
    assert gap.low <= gap.value <= gap.high
    alone = [*rows("guarded alone", (9, 3, 0, 0)), *rows("bare alone", (0, 0, 5, 5))]
    assert standardised([*ticks, *alone], horizon=3) == forth


@law
@given(st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9), st.integers(0, 3)), min_size=1))
def test_equal_shares_in_every_stratum_differ_in_nothing(kinds):
    """Guarded and bare of a stratum are hurt alike, however they are mixed."""
    ticks = [
        one
        for k, (n1, n0, d) in enumerate(kinds)
        for one in rows(k, *[(4 * n1, d * n1, 4 * n0, d * n0)] * 2)
    ]
    assert standardised(ticks, horizon=2).difference.value == approx(0, abs=1e-12)


def test_without_injuries_the_limit_is_that_of_a_poisson_count_of_zero():
    """One weight for all (one tick before the horizon): 3.6889 injuries (Garwood 1936) times it."""
    found = standardised(rows("all", (50, 0, 50, 0)), horizon=2).difference
    assert (found.value, found.method) == (0, GAMMA)
    assert (found.low, found.high) == approx((-3.688879 / 50, 3.688879 / 50), abs=1e-6)


def test_equal_weights_give_the_exact_poisson_limits_put_together():
    """Fay & Feuer 1997: with one weight the gamma limits are Garwood's; then Zou & Donner 2008."""
    found = standardised(rows("all", (100, 3, 100, 0)), horizon=2).difference
    low, high = (float(gammaincinv(*q)) / 100 for q in ((3, 0.025), (4, 0.975)))
    assert found.value == approx(-0.03)
    assert found.low == approx(-high, abs=1e-9)
    assert found.high == approx(-0.03 + math.hypot(0.03 - low, 3.688879 / 100), abs=1e-7)


def test_a_quiet_group_is_not_taken_for_a_safe_one():
    """The normal limits would have no spread at all from the quiet group."""
    found = standardised(rows("all", *[(20, 0, 20, int(k == 4)) for k in range(1, 11)]), horizon=10)
    assert found.difference.low < 0 < found.difference.value


def test_more_confidence_is_wider():
    narrow, wide = (standardised(TWO_STRATA, horizon=2, level=p).difference for p in (0.8, 0.99))
    assert wide.low < narrow.low < narrow.high < wide.high


@pytest.mark.parametrize(
    ("ticks", "asked", "why"),
    [
        ([], {}, "no guarded site had a bare one alike beside it"),
        (rows("a", (5, 1, 0, 0)), {}, "no guarded site had a bare one alike beside it"),
        (TWO_STRATA, {"horizon": None}, "no guarded site had a bare one alike beside it"),
        (TWO_STRATA, {"min_at_risk": 50}, "never 50 guarded and bare ones alike at once"),
        (TWO_STRATA, {"horizon": 4}, "no guarded and bare ones alike at 3, before the horizon of "),
        (TWO_STRATA, {"horizon": 1}, "guarded and bare ones alike from 1 on, the horizon is 1"),
    ],
)
def test_why_there_are_no_curves_is_said(ticks, asked, why):
    found = standardised(ticks, **{"horizon": 2, **asked})
    assert found.why.startswith(why)
    assert (found.guarded, found.unguarded, found.difference.value) == ((), (), None)
    assert found.difference.why == found.why


def test_a_start_with_enough_of_both_is_conditional_on_having_come_so_far():
    late = standardised(
        rows("a", (1, 1, 9, 2), (5, 1, 8, 2), (5, 1, 6, 0)), horizon=3, min_at_risk=5
    )
    assert (late.start, late.mean_guarded.value) == (2, approx(1.8))
    assert shares(late.guarded) == approx({2: 0.8, 3: 0.64})


def test_once_nobody_is_left_uninjured_the_curve_stays_at_zero_without_limits():
    found = standardised(rows("a", (4, 4, 4, 1), (1, 0, 3, 1)), horizon=2)
    assert [(p.survival, p.std_error) for p in found.guarded] == [(0, None), (0, None)]
    assert found.mean_guarded.value == 1
