"""Two curves at one mix of athletes, and what is said where there is no such thing."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.direct_standardisation import (
    GUARDED,
    UNGUARDED,
    Lacking,
    Standardised,
    StratumTicks,
    standardised,
)
from seasonboard.stats.survival import (
    TickCount,
    kaplan_meier,
    restricted_mean,
    restricted_mean_difference,
)
from tests.stats.laws import law
from tests.stats.spells import counts, freireich


def ticks(*rows: tuple[int, int], first: int = 1) -> list[TickCount]:
    """At risk and injured, game by game from `first` on."""
    return [TickCount(first + k, n, d, 0, 0) for k, (n, d) in enumerate(rows)]


FORWARDS = ticks((10, 1), (8, 2)), ticks((4, 1), (4, 1))
BACKS = ticks((5, 0), (5, 1)), ticks((20, 2), (20, 2))


def by_hand(forwards: float = 1, backs: float = 3, **asked: int) -> Standardised:
    return standardised(
        [StratumTicks("forwards", forwards, *FORWARDS), StratumTicks("backs", backs, *BACKS)],
        **{"horizon": 2, **asked},
    )


def test_two_strata_by_hand():
    """A quarter forwards. Guarded: 0.9 and 1 after a game, 0.675 and 0.8 after two."""
    found = by_hand()
    assert [p.survival for p in found.guarded] == pytest.approx(
        [0.25 * 0.9 + 0.75 * 1, 0.25 * 0.675 + 0.75 * 0.8]
    )
    assert [p.survival for p in found.unguarded] == pytest.approx(
        [0.25 * 0.75 + 0.75 * 0.9, 0.25 * 0.5625 + 0.75 * 0.81]
    )
    assert [(p.tick, p.at_risk, p.injuries) for p in found.guarded] == [(1, 15, 1), (2, 13, 3)]
    assert (found.lacking, found.share_lacking, found.why) == ((), 0.0, "")


def test_errors_by_hand_are_weighted_greenwood_ones():
    found = by_hand()
    forwards = 0.675**2 * (1 / (10 * 9) + 2 / (8 * 6))
    backs = 0.8**2 * (1 / (5 * 4))
    error = math.sqrt(0.25**2 * forwards + 0.75**2 * backs)
    point = found.guarded[1]
    assert point.std_error == pytest.approx(error)
    reach = math.exp(1.959964 * error / (0.76875 * abs(math.log(0.76875))))
    assert (point.low, point.high) == pytest.approx(
        (0.76875**reach, 0.76875 ** (1 / reach)), abs=1e-6
    )


def test_restricted_means_by_hand():
    """Within two games: the first is always begun, the second by those uninjured in the first."""
    found = by_hand()
    assert found.mean_guarded.value == pytest.approx(1 + 0.25 * 0.9 + 0.75)
    assert found.mean_unguarded.value == pytest.approx(1 + 0.25 * 0.75 + 0.75 * 0.9)
    assert found.difference.value == pytest.approx(0.1125)
    forwards, backs = 1 / (10 * 9) * 0.9**2, 0.0
    bare_forwards, bare_backs = 1 / (4 * 3) * 0.75**2, 2 / (20 * 18) * 0.9**2
    guarded = 0.25**2 * forwards + 0.75**2 * backs
    bare = 0.25**2 * bare_forwards + 0.75**2 * bare_backs
    assert found.mean_guarded.std_error == pytest.approx(math.sqrt(guarded))
    assert found.difference.std_error == pytest.approx(math.sqrt(guarded + bare))
    assert found.difference.low < 0.1125 < found.difference.high


def test_a_mix_turns_around_what_differing_athletes_made_of_it():
    """In each stratum guards do nothing, but guards are worn by forwards, who are hurt more."""
    forwards, backs = ticks((80, 40), (40, 20)), ticks((20, 1), (19, 1))
    few_forwards, many_backs = ticks((20, 10), (10, 5)), ticks((80, 4), (76, 4))
    found = standardised(
        [
            StratumTicks("forwards", 0.5, forwards, few_forwards),
            StratumTicks("backs", 0.5, backs, many_backs),
        ],
        horizon=2,
    )
    pooled = kaplan_meier(ticks((100, 41), (59, 21))), kaplan_meier(ticks((100, 14), (86, 9)))
    assert pooled[0].points[1].survival < pooled[1].points[1].survival - 0.2
    assert [p.survival for p in found.guarded] == pytest.approx(
        [p.survival for p in found.unguarded]
    )
    assert found.difference.value == pytest.approx(0, abs=1e-12)


def test_a_single_stratum_is_the_plain_curve():
    """Remission weeks of Freireich et al. 1963, every week filled in, up to 20."""
    groups = counts(freireich("6-MP")), counts(freireich("control"))
    found = standardised([StratumTicks("all", 0.3, *groups)], horizon=20)
    plain = [kaplan_meier(group) for group in groups]
    for own, curve in zip((found.guarded, found.unguarded), plain, strict=True):
        for point, known in zip(own, curve.points[:20], strict=True):
            assert (point.tick, point.at_risk, point.injuries) == (
                known.tick,
                known.at_risk,
                known.injuries,
            )
            for value, same in (
                (point.survival, known.survival),
                (point.std_error, known.std_error),
                (point.low, known.low),
                (point.high, known.high),
            ):
                assert value == pytest.approx(same, rel=1e-12)
    means = [restricted_mean(curve, 20) for curve in plain]
    assert found.mean_guarded == means[0]
    assert found.mean_unguarded == means[1]
    assert found.difference == restricted_mean_difference(*means)


def test_a_stratum_that_ran_out_stops_the_curves_and_is_named():
    """Guarded backs are seen for one game only, and unguarded goalkeepers never."""
    found = standardised(
        [
            StratumTicks("forwards", 6, *FORWARDS),
            StratumTicks("backs", 3, ticks((5, 1)), BACKS[1]),
            StratumTicks("goalkeepers", 1, ticks((3, 0), (3, 0)), []),
        ],
        horizon=2,
    )
    assert found.lacking == (
        Lacking("backs", GUARDED, 2, 0.3),
        Lacking("goalkeepers", UNGUARDED, 1, 0.1),
    )
    assert found.share_lacking == pytest.approx(0.4)
    assert found.why == (
        "too few guarded and unguarded at risk in 2 of 3 strata (40% of the mix) "
        "at some tick up to 2"
    )
    assert (found.guarded, found.unguarded, found.reach) == ((), (), None)
    for nothing in (found.mean_guarded, found.mean_unguarded):
        assert (nothing.value, nothing.std_error, nothing.why) == (None, None, found.why)
    assert (found.difference.value, found.difference.why) == (None, found.why)


def test_a_stratum_lacking_in_both_groups_counts_its_share_once():
    found = standardised([StratumTicks("a", 1, *FORWARDS), StratumTicks("b", 1, [], [])], horizon=2)
    assert [gap.group for gap in found.lacking] == [GUARDED, UNGUARDED]
    assert found.share_lacking == 0.5


def test_the_reach_is_the_furthest_horizon_that_can_be_had():
    short = [
        StratumTicks("forwards", 1, *FORWARDS),
        StratumTicks("backs", 1, ticks((5, 1)), BACKS[1]),
    ]
    far = standardised(short, horizon=9)
    assert far.reach == 1
    assert far.why
    assert standardised(short, horizon=far.reach).why == ""


def test_a_gap_in_the_middle_is_a_gap():
    holed = [TickCount(1, 5, 1, 0, 0), TickCount(3, 5, 1, 0, 0)]
    found = standardised([StratumTicks("a", 1, holed, ticks((5, 1), (4, 1), (3, 1)))], horizon=3)
    assert found.lacking == (Lacking("a", GUARDED, 2, 1.0),)
    assert found.reach == 1


def test_strata_need_as_many_at_risk_as_asked_for():
    assert by_hand(min_at_risk=4).why == ""
    found = by_hand(min_at_risk=5)
    assert found.lacking == (Lacking("forwards", UNGUARDED, 1, 0.25),)


def test_a_stratum_without_weight_may_lack_everything():
    found = standardised(
        [StratumTicks("forwards", 2, *FORWARDS), StratumTicks("backs", 0, [], [])], horizon=2
    )
    assert found.why == ""
    assert [p.survival for p in found.guarded] == pytest.approx([0.9, 0.675])


def test_a_mix_of_nobody_says_so():
    found = by_hand(forwards=0, backs=0)
    assert (found.why, found.guarded, found.reach) == ("the mix holds no athletes", (), None)
    assert standardised([], horizon=3).why == "the mix holds no athletes"


def test_where_everyone_was_injured_the_stratum_stays_at_zero_without_error():
    """Nobody at risk in game 2 is no gap when nobody was left; but no error can be told."""
    found = standardised(
        [
            StratumTicks("a", 1, ticks((3, 3)), ticks((5, 1), (4, 1))),
            StratumTicks("b", 1, ticks((4, 1), (3, 1)), ticks((5, 1), (4, 1))),
        ],
        horizon=2,
    )
    assert [p.survival for p in found.guarded] == pytest.approx([0.375, 0.25])
    assert [(p.std_error, p.low, p.high) for p in found.guarded] == [(None, None, None)] * 2
    assert found.mean_guarded.value == pytest.approx(1 + 0.375)


def test_before_any_injury_the_curve_is_one():
    quiet = ticks((5, 0))
    found = standardised([StratumTicks("a", 1, quiet, quiet)], horizon=1)
    assert [(p.survival, p.low, p.high) for p in found.guarded] == [(1.0, 1.0, 1.0)]


def test_a_later_start_is_conditional_on_having_come_so_far():
    found = by_hand(start=2)
    assert [(p.tick, p.survival) for p in found.guarded] == [
        (2, pytest.approx(0.25 * 0.75 + 0.75 * 0.8))
    ]
    assert (found.start, found.mean_guarded.start, found.mean_guarded.value) == (2, 2, 1.0)


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ({"horizon": 0}, "the horizon of 0 lies before the start at 1"),
        ({"horizon": 2, "start": 3}, "the horizon of 2 lies before the start at 3"),
    ],
)
def test_a_horizon_before_the_start_is_refused(asked, message):
    with pytest.raises(ValueError, match=message):
        by_hand(**asked)


def test_weights_below_zero_and_strata_given_twice_are_refused():
    with pytest.raises(ValueError, match="weights are 0 or more"):
        by_hand(backs=-1)
    with pytest.raises(ValueError, match="a stratum occurs twice"):
        standardised([StratumTicks("a", 1, *BACKS), StratumTicks("a", 1, *BACKS)], horizon=2)


game = st.tuples(st.integers(10, 40), st.integers(0, 5))
seasons = st.lists(game, min_size=4, max_size=4)


@law
@given(seasons, seasons, st.lists(st.floats(0.01, 100), min_size=1, max_size=4))
def test_strata_with_equal_curves_give_that_curve_whatever_the_mix(guarded, bare, mix):
    found = standardised(
        [StratumTicks(k, w, ticks(*guarded), ticks(*bare)) for k, w in enumerate(mix)], horizon=4
    )
    for own, rows in ((found.guarded, guarded), (found.unguarded, bare)):
        curve = kaplan_meier(ticks(*rows))
        assert [p.survival for p in own] == pytest.approx([p.survival for p in curve.points])


@law
@given(seasons, seasons, seasons, seasons, st.floats(0.05, 0.95))
def test_the_mean_is_the_area_under_the_standardised_curve_and_lies_between_the_strata(
    one, two, three, four, share
):
    strata = [
        StratumTicks("a", share, ticks(*one), ticks(*two)),
        StratumTicks("b", 1 - share, ticks(*three), ticks(*four)),
    ]
    found = standardised(strata, horizon=4)
    for own, mean in ((found.guarded, found.mean_guarded), (found.unguarded, found.mean_unguarded)):
        assert mean.value == pytest.approx(1 + sum(p.survival for p in own[:-1]))
    each = [restricted_mean(kaplan_meier(ticks(*rows)), 4).value for rows in (one, three)]
    assert min(each) - 1e-9 <= found.mean_guarded.value <= max(each) + 1e-9
    scaled = standardised(
        [StratumTicks(s.stratum, 37 * s.weight, s.guarded, s.unguarded) for s in strata], horizon=4
    )
    assert scaled.difference.value == pytest.approx(found.difference.value, abs=1e-12)
