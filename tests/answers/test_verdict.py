"""The verdict's few sentences, each from counts that lead to it."""

import pytest

from seasonboard.answers.compare import verdict as judge
from seasonboard.answers.compare.verdict import verdict
from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel


def ratio(*rows: tuple[int, int, int, int], level: float = 0.95) -> RateRatio:
    """Compare strata: guarded and unguarded injuries, then exposures."""
    return mantel_haenszel(Strata(*zip(*rows, strict=True)), level=level)


LESS = ratio((20, 60, 4000, 4000), (15, 40, 3000, 3000))
MORE = ratio((60, 20, 4000, 4000), (40, 15, 3000, 3000))
EVEN = ratio((30, 30, 3000, 3000), (20, 20, 2000, 2000))


def test_counts_behind_these_tests_are_what_they_are_named():
    assert LESS.high < 1 < MORE.low
    assert EVEN.low < 1 < EVEN.high


@pytest.mark.parametrize("row", [(0, 40, 0, 9000), (40, 0, 9000, 0), (0, 0, 0, 0)])
def test_without_guarded_or_without_bare_exposures_there_is_nothing_to_compare(row):
    assert verdict(ratio(row), {}) == "nothing to compare yet"


@pytest.mark.parametrize(
    "headline",
    [
        ratio((0, 0, 500, 500)),
        ratio((3, 0, 500, 0), (0, 30, 0, 500)),
        ratio((0, 9, 500, 500)),
        ratio((9, 0, 500, 500)),
        ratio((1, 8, 4000, 400)),
        ratio((6, 6, 500, 500)),
        ratio((8, 4, 800, 400), (5, 4, 500, 400)),
    ],
    ids=[
        "no injury", "no informative stratum", "nine bare", "nine guarded",
        "nine and far below 1", "twelve and even", "holds 0.7 and its mirror image",
    ],
)  # fmt: skip
def test_too_few_injuries_are_said_before_anything_else(headline):
    assert verdict(headline, {"alike athletes": MORE}) == "too few injuries to tell"


def test_ten_informative_injuries_are_enough_when_the_interval_is_clear_of_one():
    assert verdict(ratio((1, 9, 1000, 1000)), {}) == judge.LESS
    assert verdict(ratio((1, 8, 1000, 1000)), {}) == judge.TOO_FEW


def test_an_interval_under_one_is_hurt_less_often():
    others = {"alike athletes": EVEN, "same athlete": LESS}
    assert verdict(LESS, others) == "guarded sites were hurt less often"


def test_an_interval_over_one_is_hurt_more_often():
    others = {"alike athletes": EVEN, "same athlete": MORE}
    assert verdict(MORE, others) == "guarded sites were hurt more often"


def test_many_injuries_all_of_them_guarded_are_more_often_without_an_upper_limit():
    assert verdict(ratio((12, 0, 1000, 1000)), {}) == judge.MORE


def test_without_an_upper_limit_an_interval_that_holds_one_tells_nothing():
    headline = ratio((12, 0, 4000, 1000))
    assert 0.7 < headline.low < 1
    assert headline.high is None
    assert verdict(headline, {}) == judge.TOO_FEW


def test_many_injuries_none_of_them_guarded_are_less_often():
    assert verdict(ratio((0, 12, 1000, 1000)), {}) == judge.LESS


@pytest.mark.parametrize(("headline", "other"), [(LESS, MORE), (MORE, LESS)])
def test_a_comparison_wholly_on_the_other_side_is_a_disagreement(headline, other):
    others = {"alike athletes": EVEN, "same athlete": other}
    assert verdict(headline, others) == "the comparisons disagree"


def test_an_opposite_without_an_upper_limit_disagrees_too():
    assert verdict(LESS, {"same athlete": ratio((12, 0, 1000, 1000))}) == judge.DISAGREE


def test_a_comparison_without_limits_has_no_say():
    assert verdict(LESS, {"same athlete": ratio((0, 0, 10, 10))}) == judge.LESS


def test_a_narrow_interval_about_one_makes_a_large_difference_unlikely():
    headline = ratio((200, 200, 9000, 9000), (100, 100, 5000, 5000))
    assert headline.low > 0.7
    assert headline.high < 1 / 0.7
    assert verdict(headline, {}) == "no difference shown, and a large one is unlikely"


def test_an_interval_that_still_allows_a_large_difference_says_not_yet():
    headline = ratio((20, 30, 3000, 3000), (18, 22, 2000, 2000))
    assert headline.low < 0.7
    assert 1 < headline.high < 1 / 0.7
    assert verdict(headline, {}) == "no difference shown yet"


def test_an_interval_that_still_allows_much_more_harm_says_not_yet_too():
    headline = ratio((40, 36, 3000, 3000), (30, 26, 2000, 2000))
    assert 0.7 < headline.low < 1
    assert headline.high > 1 / 0.7
    assert verdict(headline, {}) == "no difference shown yet"


def test_no_difference_is_no_less_so_when_another_comparison_finds_one():
    assert verdict(ratio((20, 30, 3000, 3000), (18, 22, 2000, 2000)), {"a": LESS}) == judge.NONE_YET


def test_strata_without_injuries_do_not_change_the_verdict():
    padded = ratio((20, 60, 4000, 4000), (15, 40, 3000, 3000), (0, 0, 99, 99), (0, 0, 0, 50))
    assert verdict(padded, {}) == verdict(LESS, {})


def test_a_stricter_level_can_take_a_claim_back():
    rows = [(12, 26, 1000, 1000), (10, 20, 900, 900)]
    assert verdict(ratio(*rows), {}) == judge.LESS
    assert verdict(ratio(*rows, level=0.999), {}) != judge.LESS
