"""Exact limits over strata, against the full list of ways the injuries could have fallen."""

import math
from collections.abc import Sequence
from itertools import product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from seasonboard.stats.exact_ratio import exact_ratio
from tests.stats.laws import law

SMALL = [
    (3, (4, 3), (0.5, 2.0)), (1, (2, 5, 1), (1.0, 0.25, 3.0)), (6, (3, 3, 3), (1.0, 1.5, 0.7)),
    (5, (7,), (0.31,)),
]  # fmt: skip


def chances(totals: Sequence[int], ratios: Sequence[float], theta: float) -> dict[int, float]:
    """Add up the chance of every way that the injuries can fall, by the guarded sum."""
    found: dict[int, float] = dict.fromkeys(range(sum(totals) + 1), 0.0)
    for way in product(*(range(total + 1) for total in totals)):
        chance = 1.0
        for guarded, total, ratio in zip(way, totals, ratios, strict=True):
            share = theta * ratio / (1 + theta * ratio)
            chance *= math.comb(total, guarded) * share**guarded * (1 - share) ** (total - guarded)
        found[sum(way)] += chance
    return found


def tails(guarded: int, found: dict[int, float]) -> tuple[float, float, float]:
    below = math.fsum(chance for k, chance in found.items() if k < guarded)
    above = math.fsum(chance for k, chance in found.items() if k > guarded)
    return below, found[guarded], above


@pytest.mark.parametrize(("guarded", "totals", "ratios"), SMALL)
@pytest.mark.parametrize("level", [0.8, 0.95, 0.99])
def test_at_a_limit_the_listed_tail_is_half_of_what_the_level_leaves_out(
    guarded, totals, ratios, level
):
    found = exact_ratio(guarded, totals, ratios, level=level)
    half = (1 - level) / 2
    _, same, above = tails(guarded, chances(totals, ratios, found.low))
    assert same + above == pytest.approx(half, abs=1e-11)
    below, same, _ = tails(guarded, chances(totals, ratios, found.high))
    assert below + same == pytest.approx(half, abs=1e-11)
    _, same, above = tails(guarded, chances(totals, ratios, found.mid_p_low))
    assert same / 2 + above == pytest.approx(half, abs=1e-11)
    below, same, _ = tails(guarded, chances(totals, ratios, found.mid_p_high))
    assert below + same / 2 == pytest.approx(half, abs=1e-11)


@pytest.mark.parametrize(("guarded", "totals", "ratios"), SMALL)
def test_p_is_the_doubled_listed_tail_at_a_ratio_of_one(guarded, totals, ratios):
    found = exact_ratio(guarded, totals, ratios)
    below, same, above = tails(guarded, chances(totals, ratios, 1.0))
    assert found.p == pytest.approx(min(1, 2 * min(below + same, same + above)), abs=1e-12)
    assert found.mid_p == pytest.approx(2 * min(below + same / 2, same / 2 + above), abs=1e-12)


strata = st.lists(st.tuples(st.integers(0, 30), st.floats(0.02, 50)), min_size=1, max_size=6)


@law
@given(strata, st.data())
def test_the_test_of_a_limit_has_p_equal_to_alpha(rows, data):
    """Scaling the exposures by a limit makes that limit the ratio that is tested."""
    totals, ratios = zip(*rows, strict=True)
    guarded = data.draw(st.integers(0, sum(totals)))
    assume(sum(totals))
    found = exact_ratio(guarded, totals, ratios)
    for limit, kind in (
        (found.low, "p"),
        (found.high, "p"),
        (found.mid_p_low, "mid_p"),
        (found.mid_p_high, "mid_p"),
    ):
        if limit:
            moved = exact_ratio(guarded, totals, [ratio * limit for ratio in ratios])
            assert getattr(moved, kind) == pytest.approx(0.05, abs=1e-9)


@law
@given(strata, st.floats(0.05, 20), st.data())
def test_scaling_every_exposure_ratio_scales_the_limits_the_other_way(rows, factor, data):
    totals, ratios = zip(*rows, strict=True)
    guarded = data.draw(st.integers(0, sum(totals)))
    one = exact_ratio(guarded, totals, ratios)
    other = exact_ratio(guarded, totals, [ratio * factor for ratio in ratios])
    for limit in ("low", "high", "mid_p_low", "mid_p_high"):
        value, scaled = getattr(one, limit), getattr(other, limit)
        assert (value is None) == (scaled is None)
        if value is not None:
            assert scaled * factor == pytest.approx(value, rel=1e-9)


def test_very_large_counts_still_have_limits_close_to_the_estimate():
    found = exact_ratio(7762, [17315], [208160 / 1651883])
    assert (found.low, found.high) == pytest.approx((6.2568, 6.6446), abs=1e-4)


def test_very_uneven_exposures_still_have_limits():
    found = exact_ratio(1, [1], [1e-9])
    assert found.low == pytest.approx(0.025 / 0.975 * 1e9, rel=1e-9)
    assert found.high is None
