"""Mean games before an injury within a horizon, and the difference of two such means."""

import pytest

from seasonboard.stats.survival import kaplan_meier, restricted_mean
from tests.stats.spells import counts, freireich, leukaemia, residents, small_late_entry

TREATED = kaplan_meier(counts(freireich("6-MP")))
PLACEBO = kaplan_meier(counts(freireich("control")))


def test_freireich_restricted_mean_up_to_the_last_week_anyone_was_seen():
    """R gives 23.287 with error 2.827 at 35 weeks, the last of the treated."""
    found = restricted_mean(TREATED, 35)
    assert (found.value, found.std_error) == pytest.approx((23.287, 2.827), abs=5e-4)


def test_beyond_the_end_of_a_curve_that_reached_zero_the_mean_stays_known():
    assert restricted_mean(PLACEBO, 23).value == pytest.approx(8.666667, abs=1e-6)
    assert restricted_mean(PLACEBO, 35).value == pytest.approx(8.666667, abs=1e-6)


def test_beyond_the_last_at_risk_of_a_curve_above_zero_the_mean_is_not_known():
    found = restricted_mean(TREATED, 36)
    assert (found.value, found.std_error) == (None, None)
    assert found.why == "nobody is at risk after 35, so nothing is known up to 36"


def test_leukaemia_maintenance_restricted_means_up_to_45_weeks():
    """Miller 1981, p 49; values as recomputed with R."""
    maintained = restricted_mean(kaplan_meier(counts(leukaemia("Maintained"))), 45)
    other = restricted_mean(kaplan_meier(counts(leukaemia("Nonmaintained"))), 45)
    assert (maintained.value, maintained.std_error) == pytest.approx(
        (30.738636, 4.114086), abs=1e-6
    )
    assert (other.value, other.std_error) == pytest.approx((22.708333, 4.180942), abs=1e-6)


def test_without_injuries_the_mean_is_the_horizon_and_has_no_error():
    found = restricted_mean(kaplan_meier(counts([(0, 9, False)] * 4)), 7)
    assert (found.value, found.std_error) == (pytest.approx(7, abs=1e-12), 0)


def test_a_curve_that_starts_late_counts_from_the_tick_before_its_start():
    """Months lived between the 68th and 80th birthday, of those alive at 68: at most 144."""
    curve = kaplan_meier(counts(residents("male")), start=817)
    found = restricted_mean(curve, 960)
    area = sum(
        1.0 if tick == 816 else next(p.survival for p in curve.points if p.tick == tick)
        for tick in range(816, 960)
    )
    assert found.start == 817
    assert found.value == pytest.approx(area, abs=1e-9)
    assert found.value < 144


def test_a_horizon_before_the_start_has_no_mean_but_a_reason():
    found = restricted_mean(kaplan_meier(counts(residents("male")), start=817), 816)
    assert (found.value, found.why) == (None, "the curve starts at 817, after the horizon of 816")


def test_a_curve_that_never_starts_has_no_mean_but_a_reason():
    found = restricted_mean(kaplan_meier(counts(small_late_entry("0")), min_at_risk=50), 9)
    assert (found.value, found.why) == (None, "never 50 at risk at once")
