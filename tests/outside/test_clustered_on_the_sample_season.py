"""The interval by athlete on a whole season, beside the cluster-robust Poisson of statsmodels.

The rows for statsmodels are put together here from the CSV files, one a site-exposure, with none
of the program's SQL. Single stratum: the crude comparison, whose interval by athlete is then the
sandwich without small-sample factor (Liang & Zeger 1986, Biometrika 73:13-22).
"""

import json
import math
from pathlib import Path

import numpy as np
import polars as pl
import pytest

SEASON = Path(__file__).parents[2] / "sample_season"
SIDES = ("left", "right")
AREA, KIND = "lower leg", "shin"


def table(name: str) -> pl.DataFrame:
    return pl.read_csv(SEASON / f"{name}.csv", infer_schema=False)


def both(frame: pl.DataFrame) -> pl.DataFrame:
    """Turn a row for both sides into one for each."""
    either = pl.when(pl.col("side") == "both").then(pl.lit(list(SIDES)))
    return frame.with_columns(side=either.otherwise(pl.concat_list("side"))).explode("side")


def injuries() -> pl.DataFrame:
    """Shin injuries by site, with whether a day was lost; one not yet over counts as lost."""
    on = pl.col("occurred_on").str.to_date()
    back = pl.col("returned_on").str.to_date()
    hurt = table("injuries").filter(pl.col("area") == AREA)
    lost = (back - on).dt.total_days() > 1
    return both(hurt.with_columns(on=on, lost=lost.fill_null(value=True)))


def exposures() -> pl.DataFrame:
    """One row a site-exposure of the preventive view: athlete, guarded, injured."""
    sessions = table("sessions").with_columns(played_on=pl.col("starts_at").str.slice(0, 10))
    took_part = table("attendance").filter(pl.col("part") != "out")
    seen = took_part.join(sessions, on="session").join(pl.DataFrame({"side": SIDES}), how="cross")
    wear = table("wear").filter(pl.col("worn") == "yes")
    worn = both(wear.join(table("guards"), on="guard").filter(area_is_covered()))
    at_site = worn.group_by("session", "athlete", "side").agg(
        guarded=((pl.col("purpose") == "preventive") & (pl.col("kind") == KIND)).any(),
        for_return=((pl.col("purpose") == "return") & (pl.col("kind") == KIND)).any(),
    )
    hurt = injuries()
    first = hurt.join(sessions.select("session", "starts_at"), on="session", how="left")
    first = first.group_by("athlete", "side").agg(
        first_at=pl.col("starts_at").min(),
        first_on=pl.col("occurred_on").filter(pl.col("session").is_null()).min(),
    )
    now = hurt.group_by("session", "athlete", "side").agg(
        injured=pl.col("lost").any(), was_on=pl.col("was_on").drop_nulls().first()
    )
    rows = (
        seen.join(at_site, on=["session", "athlete", "side"], how="left")
        .join(first, on=["athlete", "side"], how="left")
        .join(now, on=["session", "athlete", "side"], how="left")
        .join(unknown(), on=["session", "athlete", "side"], how="left")
        .with_columns(pl.col("guarded", "for_return", "unknown").fill_null(value=False))
    )
    said = pl.col("was_on").is_not_null()
    rows = rows.with_columns(
        guarded=pl.when(said).then(pl.col("was_on") == "yes").otherwise("guarded"),
        unknown=pl.col("unknown") & ~pl.col("guarded") & ~said,
    )
    earlier = (pl.col("starts_at") > pl.col("first_at")).fill_null(value=False) | (
        pl.col("played_on") > pl.col("first_on")
    ).fill_null(value=False)
    kept = rows.filter(~earlier & ~pl.col("for_return") & ~pl.col("unknown"))
    return kept.select("athlete", "guarded", pl.col("injured").fill_null(value=False))


def unknown() -> pl.DataFrame:
    """Return sites whose athlete had a guard, in sessions that are not complete, without a row."""
    start, stages = pl.col("starts_at").str.slice(0, 19), table("stages")
    sessions, wear = table("sessions").with_columns(start=start), table("wear")
    denied = wear.filter(pl.col("worn") == "no")["session"].implode()
    told = pl.col("wear_complete").is_not_null() | pl.col("session").is_in(denied)
    begun = sessions.filter(told).group_by("team", "season").agg(begun=pl.col("start").min())
    partial = sessions.join(begun, on=["team", "season"]).filter(
        pl.col("wear_complete").ne_missing("yes") & (pl.col("start") >= pl.col("begun"))
    )
    at = pl.col("reached_at").str.slice(0, 19)
    fitted = stages.filter(pl.col("stage") == "fitted").select("guard", fitted=at)
    over = stages.filter(pl.col("stage").is_in(["retired", "cancelled"])).select("guard", over=at)
    later = table("guards").join(fitted, on="guard").drop_nulls("remake_of")
    over = pl.concat([over, later.select(guard="remake_of", over="fitted")])
    over = over.group_by("guard").agg(pl.col("over").min())
    held = (
        table("guards").filter(area_is_covered())
        .join(fitted, on="guard").join(over, on="guard", how="left")
        .join(table("attendance").filter(pl.col("part") != "out"), on="athlete")
        .join(partial.select("session", "start"), on="session")
        .filter(pl.col("fitted") <= pl.col("start"))
        .filter((pl.col("start") < pl.col("over")).fill_null(value=True))
        .join(wear, on=["session", "guard"], how="anti")
    )  # fmt: skip
    sites = both(held).select("session", "athlete", "side").unique()
    return sites.with_columns(unknown=pl.lit(value=True))


def area_is_covered() -> pl.Expr:
    """Say which guards sit on a shin: of the kinds in the season only the shin guard does."""
    return pl.col("kind") == KIND


@pytest.fixture(scope="module")
def crude(run, sample_store):
    done = run("ask", "compare", "--store", sample_store, "--kind", KIND, "--format", "json")
    assert done.status == 0, done.err
    found = json.loads(done.out)["comparisons"]
    return next(each for each in found if each["comparison"] == "crude")


def test_counts_are_those_of_the_files(crude):
    rows = exposures()
    sides = rows.group_by("guarded").agg(pl.len().alias("exposures"), pl.col("injured").sum())
    counted = {guarded: (n, hurt) for guarded, n, hurt in sides.iter_rows()}
    assert counted[True] == (crude["exposures_guarded"], crude["injuries_guarded"])
    assert counted[False] == (crude["exposures_unguarded"], crude["injuries_unguarded"])


def test_the_interval_by_athlete_is_the_cluster_robust_poisson(crude):
    from statsmodels import api

    rows = exposures()
    guarded = rows["guarded"].to_numpy().astype(float)
    model = api.GLM(
        rows["injured"].to_numpy().astype(float),
        np.column_stack((np.ones(len(rows)), guarded)),
        family=api.families.Poisson(),
    )
    groups = rows["athlete"].rank("dense").to_numpy()
    fitted = model.fit(
        cov_type="cluster",
        cov_kwds={"groups": groups, "use_correction": False, "df_correction": False},
    )
    low, high = np.exp(fitted.conf_int()[1])
    assert crude["rate_ratio"] == pytest.approx(math.exp(fitted.params[1]), rel=1e-6)
    assert (crude["clustered"]["low"], crude["clustered"]["high"]) == pytest.approx(
        (low, high), rel=1e-6
    )
