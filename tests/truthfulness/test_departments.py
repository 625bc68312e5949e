"""Departments that are planned for and played: without a guard's effect nothing is kept."""

from dataclasses import replace

import numpy as np

from tests.truthfulness.departments import SPORTS, WORLDS, department, one, played


def test_both_worlds_are_one_where_a_guard_does_nothing():
    rng = np.random.default_rng(1)
    world = replace(WORLDS[0], ratio=1.0)
    season = played(world, department(world, rng, np.ones(len(SPORTS))), rng)
    assert sorted(season.injuries["bare"]) == sorted(season.injuries["guarded"])
    assert season.missed("bare") == season.missed("guarded")
    assert season.cells[:, :2].sum() <= season.inside


def test_a_department_is_planned_for_and_what_came_is_near():
    came, mean, *limits = one(WORLDS[1], 20261, 1, is_known=True)[0]
    assert mean / 3 < came < 3 * mean
    assert limits[2] <= limits[0] <= mean <= limits[1] <= limits[3]
