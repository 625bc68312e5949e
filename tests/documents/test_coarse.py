"""A curve by few points tells no small count, also to who knows its shares and who was at risk."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from seasonboard.disclosure.coarse_curve import Tick, coarse_points


def curve(rows):
    """Return the ticks of a curve from (at risk, injured): Kaplan-Meier by hand."""
    share, ticks = 1.0, []
    for number, (at_risk, events) in enumerate(rows, 1):
        share *= 1 - events / at_risk
        ticks.append(Tick(number, at_risk, events, share))
    return ticks


def shown(rows, threshold=11):
    return [(p.at, p.at_risk, p.share, p.events) for p in coarse_points(curve(rows), threshold)]


def test_by_eye():
    """100 at risk throughout; 4, 8, 0 and 12 are hurt: 12 up to the second tick, then 12."""
    rows = [(100, 4), (100, 8), (100, 0), (100, 12), (100, 0)]
    # 0.96 × 0.92 = 0.8832; × 0.88 = 0.7772
    assert shown(rows) == [
        (0, 100, 1.0, 0),
        (2, 100, 0.88, 12),
        (4, 100, 0.78, 12),
        (5, 100, 0.78, 0),
    ]


def test_a_few_left_over_join_the_stretch_before_them():
    rows = [(100, 11), (80, 0), (60, 3), (50, 0)]
    assert [(p[0], p[3]) for p in shown(rows)] == [(0, 0), (3, 14), (4, 0)]


def test_where_too_few_are_left_at_risk_the_curve_ends_before_them():
    rows = [(100, 11), (80, 11), (12, 11)]
    assert [(p[0], p[3]) for p in shown(rows)] == [(0, 0), (1, 11), (2, 11)]


def test_too_few_injuries_or_too_few_at_risk_give_no_curve_and_none_a_level_one():
    assert shown([(100, 10), (90, 0)]) == []
    assert shown([(10, 0), (90, 20)]) == []
    assert shown([]) == []
    assert shown([(100, 0), (90, 0)]) == [(0, 100, 1.0, 0), (2, 90, 1.0, 0)]


ROWS = st.lists(
    st.integers(1, 400).flatmap(lambda n: st.tuples(st.just(n), st.integers(0, min(n, 30)))),
    max_size=40,
)


@given(ROWS, st.integers(2, 20))
def test_no_stretch_and_no_rest_is_a_small_count(rows, threshold):
    ticks = curve(rows)
    points = coarse_points(ticks, threshold)
    assert len(points) != 1
    if not points:
        return
    after = sum(t.events for t in ticks) - sum(p.events for p in points)
    for count in (after, *(p.events for p in points)):
        assert count == 0 or count >= threshold
    assert all(point.at_risk >= threshold for point in points)
    for before, point in pairwise(points):
        between = [t for t in ticks if before.at < t.at <= point.at]
        assert point.events == sum(t.events for t in between)
        assert point.share == round(between[-1].share, 2)
        assert (point.least, point.most) == (
            min(t.at_risk for t in between),
            max(t.at_risk for t in between),
        )


@given(ROWS)
def test_what_the_shares_tell_holds_the_truth(rows):
    points = coarse_points(curve(rows), 11)
    for point in points[1:]:
        low, high = point.event_range()
        assert low <= point.events
        assert high is None or point.events <= high


def test_what_the_shares_tell_is_what_every_way_of_being_hurt_gives():
    """Two ticks of 60 and 80 at risk, every pair of counts tried: those that give 80 % at last."""
    ticks = curve([(60, 6), (80, 9)])
    (_, point) = coarse_points(ticks, 11)
    fits = [
        a + b
        for a in range(61)
        for b in range(81)
        if round((1 - a / 60) * (1 - b / 80), 2) == point.share
    ]
    low, high = point.event_range()
    assert low <= min(fits)
    assert high >= max(fits)
    assert (low, high) == (12, 18)
