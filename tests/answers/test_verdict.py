"""The verdict's few sentences, each from counts that lead to it."""

import pytest

from seasonboard.answers.compare.verdict import verdict
from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel

FEWER, OFTENER = "guarded sites were hurt less often", "guarded sites were hurt more often"
DISAGREE, TOO_FEW = "the comparisons disagree", "too few injuries to tell"
NOTHING, NONE_YET = "nothing to compare yet", "no difference shown yet"


def ratio(*rows: tuple[int, int, int, int], level: float = 0.95) -> RateRatio:
    """Compare strata: guarded and unguarded injuries, then exposures."""
    return mantel_haenszel(Strata(*zip(*rows, strict=True)), level=level)


LESS_ROWS = ((20, 60, 4000, 4000), (15, 40, 3000, 3000))
LESS, MORE = ratio(*LESS_ROWS), ratio((60, 20, 4000, 4000), (40, 15, 3000, 3000))
EVEN = ratio((30, 30, 3000, 3000), (20, 20, 2000, 2000))
ALL_GUARDED = ratio((12, 0, 1000, 1000))
UNSURE = ratio((12, 0, 4000, 1000))
NARROW = ratio((200, 200, 9000, 9000), (100, 100, 5000, 5000))
PERHAPS_LESS = ratio((20, 30, 3000, 3000), (18, 22, 2000, 2000))
PERHAPS_MORE = ratio((40, 36, 3000, 3000), (30, 26, 2000, 2000))
STRICT = ((12, 26, 1000, 1000), (10, 20, 900, 900))


def test_counts_behind_these_tests_are_what_they_are_named():
    assert LESS.high < 1 < MORE.low
    assert EVEN.low < 1 < EVEN.high
    assert 0.7 < UNSURE.low < 1
    assert UNSURE.high is None
    assert 0.7 < NARROW.low < NARROW.high < 1 / 0.7
    assert PERHAPS_LESS.low < 0.7
    assert 1 < PERHAPS_LESS.high < 1 / 0.7
    assert 0.7 < PERHAPS_MORE.low < 1
    assert PERHAPS_MORE.high > 1 / 0.7


@pytest.mark.parametrize(
    ("headline", "others", "said"),
    [
        # without guarded or without bare exposures
        (ratio((0, 40, 0, 9000)), (), NOTHING),
        (ratio((40, 0, 9000, 0)), (), NOTHING),
        (ratio((0, 0, 0, 0)), (), NOTHING),
        # too few are said before anything else
        (ratio((0, 0, 500, 500)), (MORE,), TOO_FEW),
        (ratio((3, 0, 500, 0), (0, 30, 0, 500)), (MORE,), TOO_FEW),  # no informative stratum
        (ratio((0, 9, 500, 500)), (MORE,), TOO_FEW),
        (ratio((9, 0, 500, 500)), (MORE,), TOO_FEW),
        (ratio((1, 8, 4000, 400)), (MORE,), TOO_FEW),  # far below 1
        (ratio((6, 6, 500, 500)), (MORE,), TOO_FEW),
        (ratio((8, 4, 800, 400), (5, 4, 500, 400)), (MORE,), TOO_FEW),  # holds 0.7 and its mirror
        # ten informative ones are enough when the interval is clear of one
        (ratio((1, 9, 1000, 1000)), (), FEWER),
        (ratio((1, 8, 1000, 1000)), (), TOO_FEW),
        (LESS, (EVEN, LESS), FEWER),
        (MORE, (EVEN, MORE), OFTENER),
        (ALL_GUARDED, (), OFTENER),  # without an upper limit
        (UNSURE, (), TOO_FEW),  # without one, an interval that holds 1 tells nothing
        (ratio((0, 12, 1000, 1000)), (), FEWER),
        # a comparison wholly on the other side, also one without an upper limit
        (LESS, (EVEN, MORE), DISAGREE),
        (MORE, (EVEN, LESS), DISAGREE),
        (LESS, (ALL_GUARDED,), DISAGREE),
        (LESS, (ratio((0, 0, 10, 10)),), FEWER),  # one without limits has no say
        (NARROW, (), "no difference shown, and a large one is unlikely"),
        # still allows a large difference, or much more harm; whatever another comparison finds
        (PERHAPS_LESS, (), NONE_YET),
        (PERHAPS_MORE, (), NONE_YET),
        (PERHAPS_LESS, (LESS,), NONE_YET),
        (ratio(*LESS_ROWS, (0, 0, 99, 99), (0, 0, 0, 50)), (), FEWER),  # strata without injuries
        (ratio(*STRICT), (), FEWER),
    ],
)
def test_each_sentence_is_said_of_its_counts(headline, others, said):
    assert verdict(headline, {f"other {n}": other for n, other in enumerate(others)}) == said


def test_a_stricter_level_can_take_a_claim_back():
    assert verdict(ratio(*STRICT, level=0.999), {}) != FEWER
