"""The log-rank test of two groups, plain, stratified and with late entry."""

from collections.abc import Iterable, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.log_rank import LogRank, TwoGroupTick, log_rank
from tests.front_door import reference_rows
from tests.stats.laws import law
from tests.stats.spells import freireich, leukaemia, residents, small_late_entry, two_groups


def test_freireich():
    """16.793 is printed in Kleinbaum & Klein, Survival Analysis, chapter 2."""
    found = log_rank(two_groups(freireich("6-MP"), freireich("control")))
    assert (found.observed, found.df, found.strata) == (9, 1, 1)
    assert found.expected == pytest.approx(19.2505, abs=1e-4)
    assert (found.variance, found.chi_square) == pytest.approx((6.256961, 16.792941), abs=1e-6)
    assert found.p == pytest.approx(4.1688e-05, rel=1e-4)


def test_freireich_stratified_by_the_pairs():
    """Each pair is one stratum; value as recomputed with R: 150/14."""
    spells: dict[tuple[str, str], tuple[int, int, bool]] = {
        (row["pair"], row["arm"]): (0, int(row["weeks"]), row["relapse"] == "1")
        for row in reference_rows("freireich_6mp.csv")
    }
    pairs = sorted({pair for pair, _ in spells})
    ticks = [
        tick
        for pair in pairs
        for tick in two_groups([spells[pair, "6-MP"]], [spells[pair, "control"]], pair)
    ]
    found = log_rank(ticks)
    assert found.strata == 21
    assert found.chi_square == pytest.approx(150 / 14, abs=1e-9)
    assert found.p == pytest.approx(0.00106, abs=5e-6)


def test_leukaemia_maintenance():
    """Miller 1981, p 49; digits as recomputed with R."""
    found = log_rank(two_groups(leukaemia("Maintained"), leukaemia("Nonmaintained")))
    assert found.observed == 7
    assert found.expected == pytest.approx(10.689, abs=5e-4)
    assert found.chi_square == pytest.approx(3.396389, abs=1e-6)
    assert found.p == pytest.approx(0.0653, abs=5e-5)


def test_small_set_with_late_entry():
    """Therneau & Grambsch 2000, appendix E.2: the score at zero is printed as -2/15."""
    found = log_rank(two_groups(small_late_entry("1"), small_late_entry("0")))
    assert found.observed == 4
    assert found.observed - found.expected == pytest.approx(-2 / 15, abs=1e-12)
    assert found.variance == pytest.approx(1.447222, abs=1e-6)
    assert found.chi_square == pytest.approx(0.0122841, abs=1e-7)


def test_residents_of_channing_house_with_late_entry():
    """Hyde 1977, women against men, 458 records; values as recomputed."""
    found = log_rank(two_groups(residents("female"), residents("male")))
    assert found.observed == 130
    assert found.expected == pytest.approx(139.7543, abs=1e-4)
    assert (found.variance, found.chi_square) == pytest.approx((28.17918, 3.37646), abs=1e-5)
    assert found.p == pytest.approx(0.0661, abs=5e-5)


@pytest.mark.parametrize(
    "ticks",
    [
        [], [TwoGroupTick("all", 1, 5, 1, 0, 0)], [TwoGroupTick("all", 1, 5, 0, 5, 0)],
        [TwoGroupTick("all", 1, 0, 0, 0, 0)], [TwoGroupTick("all", 1, 1, 1, 1, 1)],
    ],
    ids=["nothing", "one group only", "no injury", "nobody", "everybody hurt at once"],
)  # fmt: skip
def test_without_anything_to_compare_there_are_words_and_no_p(ticks):
    found = log_rank(ticks)
    assert (found.chi_square, found.p) == (None, None)
    assert found.why == "no injury while both groups were at risk"


spells = st.lists(
    st.tuples(st.integers(0, 8), st.integers(1, 12), st.booleans()).map(
        lambda s: (s[0], s[0] + s[1], s[2])
    ),
    min_size=1,
    max_size=12,
)


@law
@given(spells, spells)
def test_swapping_the_groups_keeps_the_test(one, other):
    forth, back = log_rank(two_groups(one, other)), log_rank(two_groups(other, one))
    assert forth.variance == pytest.approx(back.variance, abs=1e-12)
    assert forth.observed - forth.expected == pytest.approx(back.expected - back.observed, abs=1e-9)
    if forth.p is not None:
        assert forth.p == pytest.approx(back.p, rel=1e-9)


@law
@given(spells, spells)
def test_observed_and_expected_add_up_over_strata(one, other):
    """Two strata with the same spells double observed, expected and variance."""
    first, second = two_groups(one, other, "first"), two_groups(one, other, "second")
    alone, both = log_rank(first), log_rank([*first, *second])
    assert both.strata == 2
    assert both.observed == 2 * alone.observed
    assert both.expected == pytest.approx(2 * alone.expected, abs=1e-9)
    assert both.variance == pytest.approx(2 * alone.variance, abs=1e-9)


@law
@given(st.lists(spells, min_size=2, max_size=4), st.permutations(["a", "b", "c", "d"]))
def test_relabelling_and_reordering_strata_changes_nothing(groups, names):
    def over(labels: Sequence[str], order: Iterable[int]) -> LogRank:
        strata = [two_groups(groups[k], groups[k - 1], labels[k]) for k in order]
        return log_rank([tick for ticks in strata for tick in ticks])

    forward = range(len(groups))
    one, other = over("wxyz", forward), over(names, reversed(forward))
    assert (one.observed, one.strata) == (other.observed, other.strata)
    assert (one.expected, one.variance) == pytest.approx((other.expected, other.variance), abs=1e-9)
