"""Drawn turns in small: nothing is declared that is not there, whatever goes amiss."""

import math

import pytest

from tests.truthfulness.drawn import SCENARIOS, drawn_report, drawn_result, drawn_season

SEASONS = 120


def result(number):
    seasons = [drawn_season(SCENARIOS[number], (7, number, season)) for season in range(SEASONS)]
    return drawn_result(SCENARIOS[number], seasons)


@pytest.mark.long
@pytest.mark.parametrize("number", [0, 1, 2])
def test_without_an_effect_turns_declare_none_where_the_headline_does(number):
    """Bounds are three standard errors: of a share of 2.5 %, and of a log ratio (0.45 a season)."""
    found = result(number)
    by_chance = 3 * math.sqrt(0.025 * 0.975 / SEASONS)
    assert found.fewer <= 0.025 + by_chance
    assert found.any_look <= 0.025
    assert abs(math.log(found.ratio)) <= 3 * 0.45 / math.sqrt(SEASONS)
    assert found.covered >= 0.93 - 3 * math.sqrt(0.05 * 0.95 / SEASONS)
    assert found.fewer_now > 0.3, "careful athletes pass for guards that work"


@pytest.mark.long
def test_the_range_among_compliers_mostly_holds_a_planted_ratio():
    found = result(3)
    assert found.compliers > 0.85
    assert found.ratio > 0.3, "by turns it lies nearer 1 than by wearing"
    text = drawn_report([found], seasons=SEASONS, command="python -m …")
    assert "| the same, ratio 0.3 |" in text
