"""What holds for every ratio over strata, whatever the counts."""

import math
from dataclasses import astuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.ratios import RateRatio
from tests.stats.laws import law
from tests.stats.strata_rows import over

row = st.tuples(st.integers(0, 8), st.integers(0, 8), st.integers(20, 5000), st.integers(20, 5000))
tables = st.lists(row, min_size=1, max_size=8)


@law
@given(tables, st.randoms(use_true_random=False))
def test_the_order_of_strata_does_not_matter(rows, chance):
    shuffled = list(rows)
    chance.shuffle(shuffled)
    _same(over(rows), over(shuffled))


@law
@given(tables)
def test_merging_all_strata_keeps_the_counts_and_gives_the_crude_ratio(rows):
    whole = tuple(sum(column) for column in zip(*rows, strict=True))
    crude, adjusted = over([whole]), over(rows)
    for count in (
        "injuries_guarded",
        "injuries_unguarded",
        "exposures_guarded",
        "exposures_unguarded",
        "informative_injuries",
    ):
        assert getattr(crude, count) == getattr(adjusted, count)
    if whole[1]:
        assert crude.value == pytest.approx(
            (whole[0] / whole[2]) / (whole[1] / whole[3]), rel=1e-12
        )


@law
@given(tables)
def test_swapping_the_groups_turns_ratio_and_limits_upside_down(rows):
    one, other = over(rows), over([(b, a, t0, t1) for a, b, t1, t0 in rows])
    for value, mirrored in (
        (one.value, other.value),
        (one.low, other.high),
        (one.high, other.low),
        (one.exact.low, other.exact.high),
        (one.exact.mid_p_high, other.exact.mid_p_low),
    ):
        if value and mirrored:
            assert value * mirrored == pytest.approx(1, rel=1e-8)
        else:
            assert not value
            assert not mirrored


@law
@given(tables)
def test_limits_hold_the_ratio_and_are_numbers_or_words(rows):
    found = over(rows)
    values = [v for v in (*astuple(found), *astuple(found.exact)) if isinstance(v, float)]
    assert all(math.isfinite(value) for value in values)
    if found.value is not None:
        assert found.low <= found.value
        assert found.high is None or found.value <= found.high
    assert found.why or None not in (found.value, found.low, found.high, found.p)


@law
@given(tables, st.floats(0.5, 0.98))
def test_a_higher_level_is_never_narrower(rows, level):
    narrow, wide = over(rows, level=level), over(rows, level=0.99)
    for low in ("low", "high"):
        inner, outer = getattr(narrow, low), getattr(wide, low)
        if inner:
            assert outer < inner if low == "low" else outer > inner


@law
@given(row, st.integers(2, 5))
def test_a_stratum_cut_into_equal_shares_of_both_groups_keeps_its_exact_limits(cut, shares):
    """Strata with one exposure ratio are one stratum as far as the exact limits go."""
    a, b, t1, t0 = cut
    whole = over([(a * shares, b * shares, t1 * shares, t0 * shares)])
    assert over([cut] * shares).exact == whole.exact


def _same(one: RateRatio, other: RateRatio) -> None:
    for left, right in zip(_numbers(one), _numbers(other), strict=True):
        same = (
            left == right if not isinstance(left, float) else left == pytest.approx(right, rel=1e-8)
        )
        assert same or (abs(left) < 1e-12 and abs(right) < 1e-12)


def _numbers(found: RateRatio) -> list[object]:
    parts = (found, found.exact, found.score, found.homogeneity)
    return [value for part in parts for value in astuple(part) if not isinstance(value, tuple)]
