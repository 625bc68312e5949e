"""Curves without late entry: published arms, their limits and their quantiles."""

import pytest

from seasonboard.stats.survival import TickCount, kaplan_meier, quantile
from tests.stats.spells import at, counts, freireich, leukaemia, survivals


@pytest.mark.parametrize(
    ("week", "low", "high"),
    [
        (6, 0.619718, 0.951552),
        (10, 0.503200, 0.889362),
        (20, 0.367511, 0.804912),
        (23, 0.188052, 0.680143),
    ],
)
def test_freireich_limits(week, low, high):
    """As R's survival package gives them (conf.type log-log)."""
    point = at(kaplan_meier(counts(freireich("6-MP"))), week)
    assert (point.low, point.high) == pytest.approx((low, high), abs=1e-6)


def test_freireich_quartiles():
    treated, placebo = (kaplan_meier(counts(freireich(arm))) for arm in ("6-MP", "control"))
    assert [quantile(treated, q).value for q in (0.25, 0.5, 0.75)] == [13, 23, None]
    assert quantile(treated, 0.75).why == "not reached"
    assert [quantile(placebo, q).value for q in (0.25, 0.5, 0.75)] == [4, 8, 12]


@pytest.mark.parametrize(
    ("arm", "curve", "median", "low", "high"),
    [
        (
            "Maintained",
            {9: 0.909091, 13: 0.818182, 18: 0.715909, 23: 0.613636, 31: 0.490909, 34: 0.368182,
             48: 0.184091},
            31, 13, None,
        ),
        (
            "Nonmaintained",
            {5: 0.833333, 8: 0.666667, 12: 0.583333, 23: 0.486111, 27: 0.388889, 30: 0.291667,
             33: 0.194444, 43: 0.097222, 45: 0},
            23, 5, 33,
        ),
    ],
)  # fmt: skip
def test_leukaemia_maintenance_curves_and_medians(arm, curve, median, low, high):
    """Miller 1981, Survival Analysis, p 49; digits as recomputed with R."""
    found = kaplan_meier(counts(leukaemia(arm)))
    assert dict(survivals(found)) == pytest.approx(curve, abs=1e-6)
    middle = quantile(found)
    assert (middle.value, middle.low, middle.high) == (median, low, high)


def test_half_of_ten_is_one_half_also_where_floats_make_it_a_little_more():
    """0.8 · 0.75 · 5/6 gives 0.5000000000000001, but five of ten were hurt by game 3."""
    games = [(1, True)] * 2 + [(2, True)] * 2 + [(3, True), (4, True)] + [(9, False)] * 4
    curve = kaplan_meier(counts((0, stop, injured) for stop, injured in games))
    assert at(curve, 3).survival > 0.5
    assert quantile(curve).value == 3


def test_before_the_first_injury_nothing_is_lost_and_nothing_undefined():
    point = kaplan_meier([TickCount(1, 5, 0, 5, 0)]).points[0]
    assert (point.survival, point.std_error, point.low, point.high) == (1, 0, 1, 1)


def test_with_nobody_left_uninjured_error_and_limits_are_none():
    curve = kaplan_meier(counts(freireich("control")))
    last = curve.points[-1]
    assert (last.survival, last.std_error, last.low, last.high) == (0, None, None, None)


def test_without_anybody_at_risk_there_is_no_curve_but_a_reason():
    curve = kaplan_meier([])
    assert (curve.points, curve.start, curve.why) == ((), None, "nobody was at risk")
    assert quantile(curve).why == "nobody was at risk"
