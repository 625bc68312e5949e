"""What was planted can be found again, slowly and obviously, and a naive tally misses it."""

import math

import polars as pl
import pytest

from seasonboard.sample import make_season, truth
from seasonboard.sample.draws import Draws
from seasonboard.sample.injuries import course
from tests.sample.conftest import worn_rows

AREA = {"shin": "lower leg", "thumb": "hand"}
SEEDS = range(1, 21)
SIZE = 4.0


def site_exposures(season: dict[str, pl.DataFrame], kind: str) -> pl.DataFrame:
    """One row for each exposure and side: guard worn, first injury to the site, hurt or not."""
    area = AREA[kind]
    day = pl.col("starts_at").str.slice(0, 10).str.to_date().alias("day")
    exposures = (
        season["attendance"]
        .filter(pl.col("part") != "out")
        .join(season["sessions"].with_columns(day), on="session")
        .join(season["roster"], on=["athlete", "team", "season"])
        .select("session", "athlete", "day", "position_group")
        .join(pl.DataFrame({"side": ["left", "right"]}), how="cross")
    )
    sides = pl.DataFrame(
        {"worn_as": ["left", "right", "both", "both"], "side": ["left", "right", "left", "right"]}
    )
    worn = (
        season["guards"]
        .filter(pl.col("kind") == kind)
        .rename({"side": "worn_as"})
        .join(worn_rows(season), on="guard")
        .join(sides, on="worn_as")
        .select("session", "athlete", "side", "purpose")
    )
    injuries = season["injuries"].filter(pl.col("area") == area)
    first = injuries.group_by("athlete", "side").agg(first=pl.col("occurred_on").min())
    hurt = injuries.filter(pl.col("session").is_not_null()).select(
        "session", "athlete", "side", hurt=pl.lit(1)
    )
    return (
        exposures.join(worn, on=["session", "athlete", "side"], how="left")
        .join(first, on=["athlete", "side"], how="left")
        .join(hurt, on=["session", "athlete", "side"], how="left")
        .with_columns(pl.col("hurt").fill_null(0), guarded=pl.col("purpose").is_not_null())
    )


def mantel_haenszel(rows: pl.DataFrame, strata: list[str]) -> float:
    """Log rate ratio of guarded to unguarded over the strata."""
    guarded = pl.col("guarded")
    table = rows.group_by(strata).agg(
        a=(pl.col("hurt") * guarded).sum(),
        b=(pl.col("hurt") * ~guarded).sum(),
        n1=guarded.sum(),
        n0=(~guarded).sum(),
    )
    whole = pl.col("n1") + pl.col("n0")
    above, below = table.select(
        (pl.col("a") * pl.col("n0") / whole).sum(), (pl.col("b") * pl.col("n1") / whole).sum()
    ).row(0)
    return math.log(above / below)


@pytest.fixture(scope="module")
def log_ratios() -> dict[tuple[str, str], list[float]]:
    """Same-session and ever-never log ratios of twenty seasons, by kind."""
    found: dict[tuple[str, str], list[float]] = {}
    for seed in SEEDS:
        season = make_season(seed=seed, size=SIZE)
        for kind in AREA:
            rows = site_exposures(season, kind)
            before = pl.col("first").is_null() | (pl.col("first") >= pl.col("day"))
            bare_or_preventive = pl.col("purpose").fill_null("preventive") == "preventive"
            preventive = rows.filter(before & bare_or_preventive)
            same = mantel_haenszel(preventive, ["session", "position_group"])
            found.setdefault((kind, "same session"), []).append(same)
            ever = rows.with_columns(guarded=pl.col("guarded").any().over("athlete"), all=pl.lit(0))
            found.setdefault((kind, "ever"), []).append(mantel_haenszel(ever, ["all"]))
    return found


def mean_and_error(values: list[float]) -> tuple[float, float]:
    mean = sum(values) / len(values)
    variance = sum((value - mean) ** 2 for value in values) / (len(values) - 1)
    return mean, math.sqrt(variance / len(values))


@pytest.mark.long
@pytest.mark.parametrize("kind", AREA)
def test_teammates_of_the_same_session_and_position_group_show_the_planted_ratio(log_ratios, kind):
    mean, error = mean_and_error(log_ratios[kind, "same session"])
    assert error < 0.10
    assert abs(mean - math.log(truth().rate_ratios_preventive[kind])) < 2 * error


@pytest.mark.long
@pytest.mark.parametrize("kind", AREA)
def test_ever_against_never_is_far_off(log_ratios, kind):
    mean, error = mean_and_error(log_ratios[kind, "ever"])
    assert abs(mean - math.log(truth().rate_ratios_preventive[kind])) > math.log(1.5) + 2 * error


def test_games_are_planted_as_more_dangerous_and_the_start_of_the_season_as_denser():
    season = make_season(size=SIZE)
    rows = (
        season["attendance"]
        .filter(pl.col("part") != "out")
        .join(season["sessions"], on="session")
        .join(
            season["injuries"].group_by("session", "athlete").agg(hurt=pl.len()),
            on=["session", "athlete"],
            how="left",
        )
    )
    by_setting = dict(rows.group_by("setting").agg(pl.col("hurt").fill_null(0).mean()).iter_rows())
    assert 2.5 < by_setting["game"] / by_setting["practice"] < 4.5
    practices = rows.filter((pl.col("setting") == "practice") & (pl.col("season") == "2026 fall"))
    by_part = dict(
        practices.group_by("season_part").agg(pl.col("hurt").fill_null(0).mean()).iter_rows()
    )
    assert by_part["preseason"] > 1.15 * by_part["regular"]


def test_the_course_falls_from_double_to_single():
    values = course(pl.Series([0, 35, 10_000]).to_numpy())
    assert values[0] == 2.0
    assert values[0] > values[1] > values[2]
    assert values[2] == pytest.approx(1.0)


def test_frailty_has_mean_one_and_the_stated_variance():
    frailty = Draws(1, 1).frailty(200_000)
    assert frailty.mean() == pytest.approx(1.0, abs=0.01)
    assert frailty.var() == pytest.approx(truth().frailty_variance, abs=0.02)


def test_wear_does_not_depend_on_whether_the_wearer_is_hurt_that_season():
    """Within a position group, athletes who are hurt wear their guards as often as others."""
    season = make_season(seed=2, size=8.0)
    fitted = season["stages"].filter(pl.col("stage") == "fitted").select("guard", "reached_at")
    gone = season["stages"].filter(pl.col("stage") == "retired").select("guard", gone="reached_at")
    guards = season["guards"].filter(pl.col("purpose") == "preventive").join(fitted, on="guard")
    present = (
        season["attendance"]
        .filter(pl.col("part") != "out")
        .join(season["sessions"].select("session", "starts_at", "setting"), on="session")
    )
    pairs = guards.join(gone, on="guard", how="left").join(present, on="athlete")
    pairs = pairs.filter(
        (pl.col("starts_at") > pl.col("reached_at"))
        & (pl.col("gone").is_null() | (pl.col("starts_at") < pl.col("gone")))
        & (pl.col("setting") == "practice")
    )
    marked = worn_rows(season).select("session", "guard", worn=pl.lit(1))
    hurt = pl.col("athlete").is_in(season["injuries"]["athlete"].unique().to_list())
    shares = (
        pairs.join(marked, on=["session", "guard"], how="left")
        .group_by(hurt.alias("hurt"))
        .agg(pl.col("worn").fill_null(0).mean())
    )
    share = dict(shares.iter_rows())
    assert abs(share[True] - share[False]) < 0.03
