"""The study in small: the same code over a few hundred seasons, with bounds as loose as chance."""

import math

import numpy as np
import pytest

from seasonboard.stats.ratios import Strata, mantel_haenszel
from tests.truthfulness import wrong
from tests.truthfulness.counting import count, session_strata
from tests.truthfulness.intervals import course_sums
from tests.truthfulness.report import report
from tests.truthfulness.scenarios import scenario
from tests.truthfulness.seasons import (
    BLOCK,
    CELL_OF,
    GROUP_OF_CELL,
    SESSIONS,
    SPORT_OF_CELL,
    TEAM_OF,
    simulate,
)
from tests.truthfulness.study import run
from tests.truthfulness.tables import FALSE, LEAST, MOST

SEED = 7
SEASONS = 200
RIGHT = ("same session", "alike athletes", "same athlete", "peek-proof, any weekly look")


def chance(share, seasons=SEASONS):
    """Three standard errors of a share."""
    return 3 * math.sqrt(share * (1 - share) / seasons)


@pytest.fixture(scope="module")
def no_effect():
    """Seasons with all the traps, in which guards do nothing."""
    return run([scenario("plain", 1.0)], seasons=SEASONS, seed=SEED, workers=2)[0]


@pytest.fixture(scope="module")
def prompted():
    """Seasons in which an injury brings on a guard, and guards do nothing."""
    return run([scenario("guard after injury", 1.0)], seasons=80, seed=SEED, workers=2)[0]


@pytest.mark.long
@pytest.mark.parametrize("name", RIGHT)
def test_right_intervals_hold_the_truth_and_rarely_declare_what_is_not_there(no_effect, name):
    fared = no_effect.fared[name]
    assert fared.coverage >= LEAST - chance(LEAST)
    assert fared.fewer <= FALSE + chance(FALSE)


@pytest.mark.long
@pytest.mark.parametrize("name", ["same session", "alike athletes"])
def test_headline_intervals_are_not_too_wide_either(no_effect, name):
    assert no_effect.fared[name].coverage <= MOST + chance(MOST)


@pytest.mark.long
def test_rates_hold_the_true_rate(no_effect):
    assert all(rate.of_these >= LEAST - chance(LEAST) for rate in no_effect.rates)


@pytest.mark.long
def test_board_hardly_ever_says_less_often_without_effect(no_effect):
    less = no_effect.verdicts.get("guarded sites were hurt less often", 0.0)
    assert less <= FALSE + chance(FALSE)


@pytest.mark.long
def test_naive_ever_never_is_off_in_both_its_forms(no_effect):
    assert no_effect.fared[wrong.NAIVE].coverage < 0.91
    assert no_effect.fared[wrong.NAIVE].bias_pooled > 0.15
    assert no_effect.fared[wrong.NAIVE_FIRST].fewer > 0.2


@pytest.mark.long
@pytest.mark.parametrize(
    ("bad", "good"),
    [
        (wrong.NO_BLOCKS, "alike athletes"),
        (wrong.STOPPED, "same athlete"),
        (wrong.BEFORE_ASKING, "same athlete"),
    ],
)
def test_wrong_versions_are_further_off_than_right_ones(no_effect, bad, good):
    off, right = no_effect.fared[bad].bias_pooled, no_effect.fared[good].bias_pooled
    assert abs(off) > abs(right) + 0.1


@pytest.mark.long
def test_looking_weekly_at_the_ordinary_interval_misses_more_than_the_peek_proof_one(no_effect):
    peeked = no_effect.fared[wrong.WEEKLY].coverage
    assert peeked < LEAST < no_effect.fared["peek-proof, any weekly look"].coverage


@pytest.mark.long
def test_guards_brought_on_by_an_injury_are_why_same_athlete_sets_such_sites_aside(prompted):
    assert prompted.fared[wrong.PROMPTED].fewer > 0.5
    assert prompted.fared["same athlete"].fewer <= FALSE + chance(FALSE, 80)


def test_exposures_by_calendar_weigh_as_much_as_they_should():
    """Two halves of one athlete's course add up to the whole, weighted or not."""
    seasons = simulate(scenario("many injuries", 1.0), np.random.default_rng(SEED), 1)
    athlete, site = np.arange(50), np.zeros(50, dtype=int)
    early = np.tile(np.arange(SESSIONS) < 30, (50, 1))
    weights = np.random.default_rng(1).random(128)
    for weigh in (None, weights):
        halves = [course_sums(seasons, 0, (athlete, site), f, weigh) for f in (early, ~early)]
        whole = course_sums(seasons, 0, (athlete, site), early | ~early, weigh)
        assert np.allclose(halves[0] + halves[1], whole)


def test_counts_agree_with_a_slow_obvious_count():
    seasons = simulate(scenario("many injuries", 0.6), np.random.default_rng(SEED), 2)
    counts, c = count(seasons), 1
    cells, alike = np.zeros((SESSIONS, 40, 4)), {}
    hurt = seasons.injuries
    rows = zip(hurt.season, hurt.session, hurt.athlete, hurt.site, strict=True)
    injured = {tuple(map(int, row[1:])) for row in rows if row[0] == c}
    for s in range(SESSIONS):
        for a in np.flatnonzero(seasons.part[s, c]).tolist():
            for site in (0, 1):
                if any((t, a, site) in injured for t in range(s)):
                    continue
                guarded = bool(seasons.worn[s, c, a] and seasons.covers[c, a, site])
                cell = CELL_OF[a]
                game = bool(seasons.game[c, TEAM_OF[a], s])
                key = (SPORT_OF_CELL[cell], GROUP_OF_CELL[cell], game, BLOCK[s])
                add = np.zeros(4)
                add[3 - guarded] = 1
                add[1 - guarded] = (s, a, site) in injured
                cells[s, cell] += add
                alike[key] = alike.get(key, 0) + add
    assert (counts.cells[c] == cells).all()
    found = counts.alike[c].reshape(2, 4, 2, 8, 4)
    assert all((found[tuple(map(int, key))] == row).all() for key, row in alike.items())


def test_quick_interval_is_the_displayed_one():
    seasons = simulate(scenario("many injuries", 0.6), np.random.default_rng(SEED), 1)
    rows = session_strata(count(seasons), 0)[2]
    product = mantel_haenszel(Strata(*rows.T.tolist()))
    quick = wrong.quick(rows)
    assert (quick.ratio, quick.low, quick.high) == pytest.approx(
        (product.value, product.low, product.high), rel=1e-12
    )


@pytest.mark.long
def test_report_marks_what_fails_and_names_seed_and_command(no_effect, prompted):
    text = report([no_effect, prompted], seed=SEED, command="python -m tests.truthfulness")
    assert f"seed {SEED}" in text
    assert "`python -m tests.truthfulness`" in text
    assert all(name in text for name in (*RIGHT, *wrong.WHY))
