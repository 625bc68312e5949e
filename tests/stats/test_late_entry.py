"""Late entry: the risk set may grow, and an early one may be too small to start from."""

import pytest

from seasonboard.stats.survival import kaplan_meier, quantile
from tests.stats.spells import (
    at,
    counts,
    residents,
    residents_without_a_month,
    small_late_entry,
    survivals,
)

AT_68, AT_80 = 68 * 12 + 1, 80 * 12 + 1


def test_small_set_with_late_entry():
    """Therneau & Grambsch 2000, appendix E.2: risk sets printed, survival as recomputed."""
    curve = kaplan_meier(counts(small_late_entry("0", "1")))
    hurt = [p for p in curve.points if p.injuries]
    assert [(p.tick, p.at_risk, p.injuries) for p in hurt] == [
        (2, 2, 1), (3, 3, 1), (6, 5, 1), (7, 4, 1), (8, 4, 1), (9, 5, 2),
    ]  # fmt: skip
    assert [p.survival for p in hurt] == pytest.approx(
        [0.5, 1 / 3, 0.266667, 0.2, 0.15, 0.09], abs=1e-6
    )


def test_late_entry_may_not_be_ignored():
    """Counted from the start, ten instead of two would be at risk at the first injury."""
    ignored = [(0, stop, injured) for _, stop, injured in small_late_entry("0", "1")]
    assert at(kaplan_meier(counts(ignored)), 2).survival == pytest.approx(0.9, abs=1e-12)


def test_residents_of_channing_house_who_leave_as_they_enter_are_four():
    """Hyde 1977; Klein & Moeschberger 2003, section 1.16: 462 records, 458 with time at risk."""
    none = residents_without_a_month("female", "male")
    assert [row[0] for row in none] == ["205", "226", "227", "422"]
    assert len(residents("female")) + len(residents("male")) == 458


def test_an_early_risk_set_of_one_collapses_the_curve_for_ever():
    """At 777 months one of two men dies, at 781 the only one: nobody can be left after that.

    Klein & Moeschberger 2003, example 4.3, use this trap and its remedy.
    """
    curve = kaplan_meier(counts(residents("male")))
    assert (at(curve, 777).at_risk, at(curve, 777).survival) == (2, 0.5)
    assert (at(curve, 781).at_risk, at(curve, 781).survival) == (1, 0)
    later = [p for p in curve.points if p.tick > 781]
    assert max(p.at_risk for p in later) > 24
    assert at(curve, 869).at_risk == 24
    assert {(p.survival, p.std_error, p.low, p.high) for p in later} == {(0, None, None, None)}


@pytest.mark.parametrize(
    ("sex", "start", "survival_by_age"),
    [
        ("male", AT_68, {75: 0.8045, 80: 0.6378, 85: 0.4544, 90: 0.2227}),
        ("male", AT_80, {85: 0.7125, 90: 0.3492}),
        ("female", AT_68, {75: 0.8649, 80: 0.7408, 85: 0.5004, 90: 0.2940}),
        ("female", AT_80, {85: 0.6755, 90: 0.3969}),
    ],
)
def test_a_start_makes_the_curve_conditional_on_having_come_so_far(sex, start, survival_by_age):
    """Alive at 68 or at 80 (Klein & Moeschberger 2003, example 4.3); values as recomputed in R."""
    curve = kaplan_meier(counts(residents(sex)), start=start)
    assert curve.start == start
    found = {age: at(curve, age * 12).survival for age in survival_by_age}
    assert found == pytest.approx(survival_by_age, abs=5e-5)


def test_a_late_start_leaves_earlier_points_without_a_survival():
    curve = kaplan_meier(counts(residents("male")), start=AT_68)
    before = [p for p in curve.points if p.tick < AT_68]
    assert before
    assert {(p.survival, p.std_error, p.low, p.high) for p in before} == {(None,) * 4}
    assert [p.at_risk for p in before] == [
        c.at_risk for c in counts(residents("male")) if c.tick < AT_68
    ]


def test_a_floor_starts_the_curve_where_enough_are_at_risk():
    """The start is the first month with 15 men; where fewer are at risk later, it is marked."""
    men = counts(residents("male"))
    first = next(c.tick for c in men if c.at_risk >= 15)
    curve = kaplan_meier(men, min_at_risk=15)
    assert (curve.start, curve.min_at_risk) == (first, 15)
    assert curve == kaplan_meier(men, min_at_risk=15, start=first)
    assert {p.thin for p in curve.points if p.at_risk < 15} == {True}
    assert {p.thin for p in curve.points if p.at_risk >= 15} == {False}
    assert survivals(curve)[-1][1] > 0
    assert quantile(curve).value > 781


def test_a_floor_that_is_never_reached_leaves_no_curve_but_a_reason():
    curve = kaplan_meier(counts(residents("male")), min_at_risk=1000)
    assert (curve.start, curve.why) == (None, "never 1000 at risk at once")
    assert {p.survival for p in curve.points} == {None}
    assert quantile(curve).why == "never 1000 at risk at once"


def test_the_start_is_the_later_of_what_is_asked_for_and_what_the_floor_allows():
    men = counts(residents("male"))
    assert (
        kaplan_meier(men, min_at_risk=15, start=1).start == kaplan_meier(men, min_at_risk=15).start
    )
    assert kaplan_meier(men, min_at_risk=15, start=AT_80).start == AT_80
