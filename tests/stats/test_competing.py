"""Cumulative incidence where follow-up can end in several ways."""

import math
from itertools import accumulate

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.competing import CauseTick, Incidence, SharePoint, cumulative_incidence
from seasonboard.stats.survival import TickCount, kaplan_meier
from tests.front_door import reference_rows
from tests.published import TWO_CAUSES
from tests.stats.laws import law

CAUSES = ("first", "second")


def patients() -> list[CauseTick]:
    """Days to one of two ends of 35 patients, a row for every day up to the last."""
    rows = [(int(r["days"]), r["status"]) for r in reference_rows("competing_risks_35.csv")]
    return [
        CauseTick(
            day,
            sum(stop >= day for stop, _ in rows),
            (rows.count((day, "1")), rows.count((day, "2"))),
        )
        for day in range(1, 241)
    ]


PATIENTS = cumulative_incidence(patients(), CAUSES)


def on(found: Incidence, day: int) -> tuple[SharePoint, SharePoint, SharePoint]:
    """Return the points of survival, the first and the second cause at one tick."""
    curves = (found.survival, *(curve.points for curve in found.causes))
    free, first, second = (next(p for p in points if p.tick == day) for points in curves)
    return free, first, second


@pytest.mark.parametrize(("day", "at_risk", "survival", "first", "second"), TWO_CAUSES)
def test_shares_of_35_patients_by_two_causes(day, at_risk, survival, first, second):
    """Marubini & Valsecchi 1995, table 10.1; R's cmprsk and survival agree on these digits.

    (lifelines is no oracle here: it moves tied times apart at random and gives 0.31386 at 200.)
    """
    free, one, other = on(PATIENTS, day)
    assert free.at_risk == one.at_risk == other.at_risk == at_risk
    assert free.share == pytest.approx(survival, abs=1e-6)
    assert one.share == pytest.approx(first, abs=1e-6)
    assert other.share == pytest.approx(second, abs=1e-6)


@pytest.mark.parametrize(
    ("day", "error"),
    [
        (13, 0.039235), (34, 0.059148), (60, 0.064185), (100, 0.074492), (150, 0.078320),
        (200, 0.083309),
    ],
)  # fmt: skip
def test_standard_errors_of_the_first_cause(day, error):
    """As R's survival package gives them (cmprsk's are a little larger by another formula)."""
    assert on(PATIENTS, day)[1].std_error == pytest.approx(error, abs=1e-6)


def test_log_log_limits_of_a_share_by_hand():
    """0.240199 with error 0.074492: reach exp(1.96 × 0.074492 / (0.240199 × 1.426288))."""
    point = on(PATIENTS, 100)[1]
    reach = math.exp(1.959964 * 0.074492 / (0.240199 * 1.426288))
    assert point.low == pytest.approx(0.240199**reach, abs=1e-5)
    assert point.high == pytest.approx(0.240199 ** (1 / reach), abs=1e-5)
    assert point.low < point.share < point.high


def test_the_shares_and_survival_add_up_to_one_every_day():
    for day in range(1, 241):
        assert sum(point.share for point in on(PATIENTS, day)) == pytest.approx(1, abs=1e-12)


@pytest.mark.parametrize(
    ("day", "wrong"),
    [(13, 0.059908), (34, 0.165813), (60, 0.205536), (100, 0.332651), (200, 0.525440)],
)
def test_one_minus_kaplan_meier_of_a_cause_is_too_high(day, wrong):
    """Taking the other end for censoring answers another question: no such end existed."""
    alone = kaplan_meier([TickCount(t.tick, t.at_risk, t.events[0], 0, 0) for t in patients()])
    naive = 1 - alone.points[day - 1].survival
    assert naive == pytest.approx(wrong, abs=1e-6)
    assert naive > on(PATIENTS, day)[1].share


def test_the_all_cause_curve_is_kaplan_meier():
    whole = kaplan_meier([TickCount(t.tick, t.at_risk, sum(t.events), 0, 0) for t in patients()])
    assert [(p.share, p.std_error, p.low, p.high) for p in PATIENTS.survival] == [
        (p.survival, p.std_error, p.low, p.high) for p in whole.points
    ]


def test_ends_of_two_kinds_in_one_game_by_hand():
    """Ten at risk, two hurt here and three elsewhere; then four at risk, one and one."""
    found = cumulative_incidence([CauseTick(1, 10, (2, 3)), CauseTick(2, 4, (1, 1))], CAUSES)
    shares = [[point.share for point in on(found, game)] for game in (1, 2)]
    assert shares[0] == pytest.approx([0.5, 0.2, 0.3])
    assert shares[1] == pytest.approx([0.25, 0.325, 0.425])
    assert on(found, 1)[1].std_error == pytest.approx(math.sqrt(0.2 * 0.8 / 10))


def test_who_enters_late_counts_from_there_on():
    """The risk set grows from 4 to 8: 1 of 4, then 2 of 8 of the three quarters left."""
    found = cumulative_incidence([CauseTick(1, 4, (1, 0)), CauseTick(2, 8, (2, 1))], CAUSES)
    assert on(found, 2)[1].share == pytest.approx(0.25 + 0.75 * 2 / 8)
    assert on(found, 2)[0].share == pytest.approx(0.75 * 5 / 8)


def test_before_a_cause_was_seen_its_share_is_zero_without_limits():
    found = cumulative_incidence([CauseTick(1, 9, (1, 0))], CAUSES)
    assert on(found, 1)[2] == SharePoint(1, 9, 0, 0.0, None, None, None)


def test_when_everybody_ended_by_one_cause_the_share_is_one_without_limits():
    found = cumulative_incidence([CauseTick(1, 3, (1, 0)), CauseTick(2, 2, (2, 0))], CAUSES)
    assert on(found, 2)[1] == SharePoint(2, 2, 2, 1.0, None, None, None)


def test_the_curves_start_where_enough_are_at_risk():
    ticks = [CauseTick(1, 2, (1, 0)), CauseTick(2, 6, (1, 2)), CauseTick(3, 3, (0, 1))]
    found = cumulative_incidence(ticks, CAUSES, min_at_risk=5)
    assert found.start == 2
    assert on(found, 1)[1] == SharePoint(1, 2, 1, None, None, None, None)
    assert [p.share for p in on(found, 2)] == pytest.approx([3 / 6, 1 / 6, 2 / 6])
    assert cumulative_incidence(ticks, CAUSES, start=3).start == 3


def test_without_enough_at_risk_there_are_words_and_no_shares():
    found = cumulative_incidence([CauseTick(1, 2, (1, 0))], CAUSES, min_at_risk=5)
    assert (found.start, found.why) == (None, "never 5 at risk at once")
    assert on(found, 1)[1].share is None
    assert cumulative_incidence([], CAUSES).why == "nobody was at risk"


@st.composite
def seasons(draw: st.DrawFn) -> list[CauseTick]:
    """Risk sets that grow and shrink, with ends of two kinds, never of everybody."""
    ticks = []
    for tick in range(1, draw(st.integers(1, 6)) + 1):
        first, second = draw(st.integers(0, 4)), draw(st.integers(0, 4))
        ticks.append(CauseTick(tick, first + second + draw(st.integers(1, 30)), (first, second)))
    return ticks


@law
@given(seasons())
def test_the_shares_always_add_up_and_never_fall(ticks):
    found = cumulative_incidence(ticks, CAUSES)
    for tick in ticks:
        assert sum(p.share for p in on(found, tick.tick)) == pytest.approx(1, abs=1e-12)
    for curve in found.causes:
        shares = [p.share for p in curve.points]
        assert shares == list(accumulate(shares, max))


@law
@given(seasons())
def test_the_error_is_the_slope_against_every_hazard_times_its_multinomial_spread(ticks):
    """The variance worked out the long way: numerical slopes, one covariance for each tick."""
    hazards = np.array([[d / t.at_risk for d in t.events] for t in ticks])

    def share(of: np.ndarray) -> float:
        free = np.concatenate(([1.0], np.cumprod(1 - of.sum(axis=1))[:-1]))
        return float((free * of[:, 0]).sum())

    variance, step = 0.0, 1e-6
    for k, tick in enumerate(ticks):
        moves = np.zeros((2, *hazards.shape))
        moves[0, k, 0] = moves[1, k, 1] = step
        slope = np.array([share(hazards + m) - share(hazards - m) for m in moves]) / (2 * step)
        h = hazards[k]
        variance += slope @ (np.diag(h) - np.outer(h, h)) @ slope / tick.at_risk
    point = cumulative_incidence(ticks, CAUSES).causes[0].points[-1]
    assert (point.std_error or 0.0) ** 2 == pytest.approx(variance, abs=1e-8)


@law
@given(st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4)), min_size=1, max_size=5))
def test_without_censoring_the_error_is_that_of_a_plain_share(ends):
    whole = sum(map(sum, ends)) + 3
    gone = [0, *accumulate(map(sum, ends))]
    ticks = [CauseTick(k + 1, whole - gone[k], both) for k, both in enumerate(ends)]
    point = cumulative_incidence(ticks, CAUSES).causes[1].points[-1]
    share = sum(second for _, second in ends) / whole
    assert point.share == pytest.approx(share)
    if share:
        assert point.std_error == pytest.approx(math.sqrt(share * (1 - share) / whole))
    else:
        assert point.std_error is None
