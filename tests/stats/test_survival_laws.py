"""What holds for every curve, and curves that another program gives too."""

import math
import random
import warnings
from dataclasses import astuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.survival import kaplan_meier, quantile, restricted_mean
from tests.stats.laws import law
from tests.stats.spells import Spell, at, counts

spell = st.tuples(st.integers(0, 10), st.integers(1, 15), st.booleans()).map(
    lambda s: (s[0], s[0] + s[1], s[2])
)

spells = st.lists(spell, min_size=1, max_size=25)


@law
@given(spells, st.integers(1, 4))
def test_a_curve_never_rises_and_stays_between_0_and_1(rows, floor):
    curve = kaplan_meier(counts(rows), min_at_risk=floor)
    shares = [p.survival for p in curve.points if p.survival is not None]
    assert shares == sorted(shares, reverse=True)
    assert all(0 <= share <= 1 for share in shares)


@law
@given(spells)
def test_limits_hold_the_survival_and_are_numbers_between_0_and_1_or_none(rows):
    for point in kaplan_meier(counts(rows)).points:
        numbers = [v for v in astuple(point) if isinstance(v, float)]
        assert all(math.isfinite(value) for value in numbers)
        assert (point.low is None) == (point.high is None) == (point.survival == 0)
        if point.low is not None:
            assert 0 <= point.low <= point.survival + 1e-12
            assert point.survival - 1e-12 <= point.high <= 1


@law
@given(spells)
def test_a_higher_level_is_never_narrower(rows):
    narrow, wide = (kaplan_meier(counts(rows), level=lv) for lv in (0.8, 0.99))
    for inner, outer in zip(narrow.points, wide.points, strict=True):
        if inner.low is not None:
            assert outer.low <= inner.low
            assert inner.high <= outer.high


@law
@given(st.lists(st.integers(1, 20), min_size=1, max_size=30))
def test_when_all_were_followed_to_injury_the_curve_is_the_plain_share(games):
    curve = kaplan_meier(counts((0, game, True) for game in games))
    for point in curve.points:
        uninjured = sum(game > point.tick for game in games) / len(games)
        assert point.survival == pytest.approx(uninjured, abs=1e-12)
        if point.std_error is not None:
            binomial = math.sqrt(uninjured * (1 - uninjured) / len(games))
            assert point.std_error == pytest.approx(binomial, abs=1e-12)


@law
@given(st.lists(st.integers(1, 20), min_size=1, max_size=30))
def test_when_all_were_followed_to_injury_the_mean_is_the_plain_one(games):
    """The injury's own game counts as played; beyond the last injury nothing is added."""
    curve = kaplan_meier(counts((0, game, True) for game in games))
    assert restricted_mean(curve, 25).value == pytest.approx(sum(games) / len(games), abs=1e-9)
    capped = [min(game, 6) for game in games]
    assert restricted_mean(curve, 6).value == pytest.approx(sum(capped) / len(games), abs=1e-9)


@law
@given(st.lists(st.integers(1, 20), min_size=1, max_size=30), st.floats(0.05, 0.95))
def test_when_all_were_followed_to_injury_a_quantile_is_that_of_the_games(games, share):
    curve = kaplan_meier(counts((0, game, True) for game in games))
    by = quantile(curve, share).value
    assert sum(game <= by for game in games) >= share * len(games) - 1e-9
    assert sum(game < by for game in games) < share * len(games) + 1e-9


@law
@given(spells, st.randoms(use_true_random=False))
def test_the_order_of_athletes_does_not_matter(rows, chance):
    shuffled = list(rows)
    chance.shuffle(shuffled)
    assert kaplan_meier(counts(rows)) == kaplan_meier(counts(shuffled))


@law
@given(spells)
def test_cutting_a_spell_in_two_changes_no_survival(rows):
    """One who is seen in two stretches counts as one seen in a single stretch."""
    cut: list[Spell] = []
    for entry, stop, injured in rows:
        middle = (entry + stop) // 2
        cut += [(entry, middle, False)] if middle > entry else []
        cut.append((middle, stop, injured))
    whole, parts = kaplan_meier(counts(rows)), kaplan_meier(counts(cut))
    assert [(p.tick, p.at_risk, p.survival, p.low) for p in whole.points] == [
        (p.tick, p.at_risk, p.survival, p.low) for p in parts.points
    ]


@law
@given(spells, st.integers(1, 12))
def test_survival_is_that_to_the_start_times_that_from_the_start(rows, start):
    whole, late = kaplan_meier(counts(rows)), kaplan_meier(counts(rows), start=start)
    before = [p.survival for p in whole.points if p.tick < start]
    share = before[-1] if before else 1.0
    for one, other in zip(whole.points, late.points, strict=True):
        assert (other.survival is None) == (one.tick < start)
        if other.survival is not None:
            assert one.survival == pytest.approx(share * other.survival, abs=1e-12)


@law
@given(spells, st.integers(1, 25))
def test_a_mean_lies_within_its_horizon_or_says_why_there_is_none(rows, horizon):
    found = restricted_mean(kaplan_meier(counts(rows)), horizon)
    if found.value is None:
        assert found.why
        assert found.std_error is None
    else:
        assert 0 <= found.value <= horizon - found.start + 1 + 1e-9
        assert 0 <= found.std_error < math.inf


def season_of_spells(seed: int, athletes: int) -> list[Spell]:
    """Draw spells with late entry, but with many at risk from the start."""
    chance = random.Random(seed)
    rows: list[Spell] = [(0, 3 + chance.randrange(25), False) for _ in range(athletes // 3)]
    for _ in range(athletes - len(rows)):
        entry = chance.choice([0, 0, 0, chance.randrange(12)])
        rows.append((entry, entry + 1 + chance.randrange(20), chance.random() < 0.6))
    return rows


@pytest.mark.parametrize("seed", [1, 2, 3])
@pytest.mark.parametrize("athletes", [40, 400])
def test_curves_limits_and_medians_are_those_of_another_program(seed, athletes):
    """Survival, log-log limits, median and area, with late entry, as lifelines gives them."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from lifelines import KaplanMeierFitter
        from lifelines.utils import restricted_mean_survival_time

        rows = season_of_spells(seed, athletes)
        entries, stops, events = zip(*rows, strict=True)
        theirs = KaplanMeierFitter().fit(stops, events, entry=entries)
        limits = theirs.confidence_interval_survival_function_
        area = restricted_mean_survival_time(theirs, t=12)
    ours = kaplan_meier(counts(rows))
    for point in ours.points:
        assert point.survival == pytest.approx(
            theirs.survival_function_at_times(point.tick).iloc[0], abs=1e-10
        )
        if point.injuries and point.low is not None:
            low, high = limits.loc[point.tick]
            assert (point.low, point.high) == pytest.approx((low, high), abs=1e-9)
    assert restricted_mean(ours, 12).value == pytest.approx(area, abs=1e-9)
    middle = theirs.median_survival_time_
    assert quantile(ours).value == (None if math.isinf(middle) else middle)


@pytest.mark.parametrize("seed", [4, 5])
def test_the_log_rank_test_is_that_of_another_program(seed):
    """Without late entry, as lifelines gives it."""
    from seasonboard.stats.log_rank import log_rank
    from tests.stats.spells import two_groups

    groups = [[(0, *s[1:]) for s in season_of_spells(seed + 10 * k, 60)] for k in (1, 2)]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from lifelines.statistics import logrank_test

        stops, events = zip(*(zip(*(s[1:] for s in g), strict=True) for g in groups), strict=True)
        theirs = logrank_test(stops[0], stops[1], events[0], events[1])
    ours = log_rank(two_groups(*groups))
    assert ours.chi_square == pytest.approx(theirs.test_statistic, abs=1e-9)
    assert ours.p == pytest.approx(theirs.p_value, abs=1e-9)


def test_a_dense_season_has_points_at_every_game_until_the_last():
    rows = season_of_spells(6, 200)
    curve = kaplan_meier(counts(rows))
    assert [p.tick for p in curve.points] == list(range(1, max(stop for _, stop, _ in rows) + 1))
    assert at(curve, 5).at_risk == sum(entry < 5 <= stop for entry, stop, _ in rows)
