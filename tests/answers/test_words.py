"""Numbers as words: the same everywhere, a true minus sign, a dash where nothing is known."""

from datetime import date

import pytest

from seasonboard.answers import words
from seasonboard.scope import Scope
from seasonboard.terms import Area


@pytest.mark.parametrize(
    ("value", "digits", "shown"),
    [
        (None, 2, "–"), (1.005, 1, "1.0"), (-1.5, 1, "−1.5"), (-0.001, 2, "0.00"), (0.0, 2, "0.00"),
        (1234.5, 0, "1234"),
    ],
)  # fmt: skip
def test_numbers(value, digits, shown):
    assert words.number(value, digits=digits) == shown


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (None, "–"), (0, "0"), (0.6875, "0.69"), (1.0, "1.00"), (0.1, "0.10"), (0.0302, "0.03"),
        (0.0216, "0.022"), (0.00456, "0.0046"), (0.0000456, "0.000046"), (99.99, "99.99"),
        (157.49, "157"), (109878.9, "109879"),
    ],
)  # fmt: skip
def test_ratios_are_shown_with_two_digits_that_tell(value, shown):
    assert words.ratio(value) == shown


@pytest.mark.parametrize("power", range(-12, 7))
def test_a_ratio_never_takes_to_powers_of_ten(power):
    assert "e" not in words.ratio(3.21 * 10.0**power)


@pytest.mark.parametrize(
    ("low", "high", "shown"),
    [
        (0.19, 1.66, "0.19 to 1.66"), (0.0, 1.3095, "0 to 1.31"),
        (1.009, None, "1.01 up, no upper limit yet"), (None, None, "no limits yet"),
    ],
)  # fmt: skip
def test_limits_say_what_is_not_known(low, high, shown):
    assert words.interval(low, high) == shown


@pytest.mark.parametrize(
    ("count", "shown"), [(0, "0 games"), (1, "1 game"), (2, "2 games"), (12345, "12,345 games")]
)
def test_counts_with_their_noun(count, shown):
    assert words.plural(count, "game") == shown


def test_an_irregular_plural_is_given():
    assert words.plural(1, "injury", "injuries") == "1 injury"
    assert words.plural(3, "injury", "injuries") == "3 injuries"


def test_shares_and_levels_are_percentages():
    assert words.percent(0.684) == "68 %"
    assert words.level_words(Scope(through=date(2026, 1, 1))) == "95 %"
    assert words.level_words(Scope(through=date(2026, 1, 1), level=0.999)) == "99.9 %"


def test_one_area_is_called_by_its_plural_and_several_are_sites():
    assert words.sites_word(("lower leg",)) == "lower legs"
    assert words.sites_word(("lumbosacral",)) == "lower backs"
    assert words.sites_word(("wrist", "hand")) == "sites"
    assert words.sites_word(("tail",)) == "sites"
    assert words.sites_word(()) == "sites"


def test_every_area_that_a_guard_can_cover_has_a_plural():
    from seasonboard.terms import KINDS

    covered = {area for _, area, _ in KINDS}
    assert covered <= set(Area)
    assert "sites" not in {words.sites_word((area.value,)) for area in covered}
