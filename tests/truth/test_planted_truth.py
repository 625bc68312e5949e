"""The board finds the effect that the sample generator planted; a naive tally does not.

The generator hurts a shin 0.60 times as often while a preventive guard is worn, gives guards to
those at higher risk, mid-season. Twenty seasons are made, loaded and asked.
"""

import math
from statistics import fmean, stdev

import polars as pl
import pytest

from seasonboard.answers.scope_values import read_known
from seasonboard.sample import truth, write_season
from seasonboard.scope import read_scope
from seasonboard.stats.ratios import Strata, mantel_haenszel
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from tests.reused import ReusedStore

SEEDS = range(101, 121)


def naive_ever_never(tables):
    """Injured shins of athletes who ever wore a shin guard, over all their exposures, against
    those of athletes who never did: the tally that counts waiting as wearing."""
    guards = pl.read_csv(tables / "guards.csv", infer_schema=False)
    wear = pl.read_csv(tables / "wear.csv", infer_schema=False).filter(pl.col("worn") == "yes")
    attendance = pl.read_csv(tables / "attendance.csv", infer_schema=False)
    injuries = pl.read_csv(tables / "injuries.csv", infer_schema=False)
    ever = guards.filter((pl.col("kind") == "shin") & (pl.col("purpose") == "preventive")).join(
        wear, on="guard", how="semi"
    )["athlete"]
    played = attendance.filter(pl.col("part") != "out")
    hurt = injuries.filter(
        (pl.col("area") == "lower leg")
        & pl.col("session").is_not_null()
        & (
            pl.col("returned_on").is_null()
            | (
                pl.col("returned_on").str.to_date() - pl.col("occurred_on").str.to_date()
                > pl.duration(days=1)
            )
        )
    )
    of_ever = pl.col("athlete").is_in(ever.implode())
    exposed = played.filter(of_ever).height, played.filter(~of_ever).height
    injured = hurt.filter(of_ever).height, hurt.filter(~of_ever).height
    return (injured[0] / exposed[0]) / (injured[1] / exposed[1])


def ratio_of(strata, name):
    rows = strata.filter(pl.col("comparison") == name)
    columns = ("injuries_guarded", "injuries_unguarded", "exposures_guarded", "exposures_unguarded")
    return mantel_haenszel(Strata(*(rows[column].to_list() for column in columns))).value


@pytest.fixture(scope="module")
def seasons(tmp_path_factory):
    """Log ratios of twenty seasons: same session, crude, and naive ever/never."""
    found = {"same session": [], "crude": [], "naive": []}
    for seed in SEEDS:
        folder = tmp_path_factory.mktemp("season") / "tables"
        write_season(folder, seed=seed)
        with ReusedStore() as store:
            write_load(store, plan_load(store, [folder]))
            scope = read_scope({"kind": "shin"}, read_known(store))
            strata = store.read("compare/strata", **scope.params())
        for name in ("same session", "crude"):
            found[name].append(math.log(ratio_of(strata, name)))
        found["naive"].append(math.log(naive_ever_never(folder)))
    return found


def mean_and_error(logs):
    return fmean(logs), stdev(logs) / math.sqrt(len(logs))


def test_the_truth_is_what_the_tests_think_it_is():
    assert truth().rate_ratios_preventive["shin"] == 0.60
    assert truth().rate_ratios_preventive["thumb"] == 1.00


@pytest.mark.long
def test_same_session_finds_the_planted_ratio(seasons):
    """Within two standard errors of the average of twenty seasons, and that error is small."""
    mean, error = mean_and_error(seasons["same session"])
    assert abs(mean - math.log(0.60)) < 2 * error
    assert error < 0.15


@pytest.mark.long
def test_naive_ever_never_misses_it_by_far(seasons):
    """The naive tally says that guards do harm: its average lies over 1, more than ten of its
    own standard errors above the truth."""
    mean, error = mean_and_error(seasons["naive"])
    assert mean > math.log(1.2)
    assert (mean - math.log(0.60)) / error > 10


@pytest.mark.long
def test_crude_ratio_is_off_as_well(seasons):
    mean, error = mean_and_error(seasons["crude"])
    assert (mean - math.log(0.60)) / error > 3
