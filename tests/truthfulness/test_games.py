"""Games in small: no sentence against Compare, and no effect where none is planted."""

import math

import numpy as np
import pytest

from tests.truthfulness.games import SCENARIOS, games_report, run_games
from tests.truthfulness.tables import LEAST

SEASONS = 100
OF_SEVERAL = [one for one in SCENARIOS if one.name == "several kinds of unequal risk"]


@pytest.fixture(scope="module")
def several():
    """Seasons in which the body area most hurt is guarded most; ratio 1, 0.6 and 0.3."""
    return run_games(OF_SEVERAL, seasons=SEASONS, seed=7)


@pytest.mark.long
def test_several_kinds_are_told_apart_and_nothing_is_said_against_compare(several):
    for scenario, seasons in zip(OF_SEVERAL, several, strict=True):
        assert not [one.opposed for one in seasons if one.opposed]
        had = [one for one in seasons if not math.isnan(one.value)]
        assert len(had) >= 0.9 * SEASONS
        held = np.mean([one.low <= one.truth <= one.high for one in had])
        assert held >= LEAST - 3 * math.sqrt(LEAST * (1 - LEAST) / SEASONS)
        gaps = np.array([one.value - one.truth for one in had])
        assert abs(gaps.mean()) <= 3 * gaps.std() / math.sqrt(len(had)), scenario


@pytest.mark.long
def test_as_played_the_same_seasons_tell_a_harm_that_nobody_planted(several):
    none = several[0]
    assert np.mean([one.as_played[1] < 0 for one in none]) > 0.1
    assert np.mean([one.high < 0 for one in none]) <= 0.025 + 3 * math.sqrt(0.025 / SEASONS)
    assert "several kinds of unequal risk, ratio 0.6" in games_report(
        OF_SEVERAL, several, command="python -m …"
    )
