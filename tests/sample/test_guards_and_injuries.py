"""Guards, wear and injuries of the sample season make sense together."""

import datetime as dt

import polars as pl
import pytest

from seasonboard import terms
from seasonboard.sample import LAST_DAY
from tests.sample.conftest import worn_rows

ORDER = list(terms.Stage)


@pytest.fixture(scope="module")
def reached(season: dict[str, pl.DataFrame]) -> pl.DataFrame:
    """One row for each guard, one column for each stage, in local time."""
    local = pl.col("reached_at").str.slice(0, 19).str.to_datetime().alias("local")
    stages = season["stages"].with_columns(local)
    wide = stages.pivot(on="stage", index="guard", values="local")
    return wide.join(season["guards"], on="guard")


def test_stages_come_in_order(season):
    number = pl.col("stage").replace_strict(ORDER, list(range(len(ORDER))), return_dtype=pl.Int64)
    rows = season["stages"].with_columns(
        number.alias("number"), pl.col("reached_at").str.slice(0, 19).alias("local")
    )
    rows = rows.sort("guard", "number")
    same = pl.col("guard") == pl.col("guard").shift(1)
    assert rows.filter(same & (pl.col("local") <= pl.col("local").shift(1))).is_empty()


def test_an_on_site_printer_ships_nothing(season, reached):
    onsite = season["departments"].filter(pl.col("plan") == "onsite printer")["department"]
    home = season["roster"].join(season["teams"], on="team").unique("athlete")
    here = reached.join(home, on="athlete").filter(pl.col("department").is_in(onsite.to_list()))
    assert here["fitted"].count() > 0
    assert here["shipped"].count() + here["delivered"].count() == 0


def test_some_orders_are_open_cancelled_or_retired_at_the_end(reached):
    still_open = reached.filter(pl.col("fitted").is_null() & pl.col("cancelled").is_null())
    assert 5 <= still_open.height <= 60
    assert reached["cancelled"].count() > 0
    assert reached["retired"].count() > 0


def test_guards_are_remade_once_and_twice(season):
    again = season["guards"].filter(pl.col("remake_of").is_not_null())
    assert again["remake_reason"].null_count() == 0
    twice = again.filter(pl.col("remake_of").is_in(again["guard"].to_list()))
    assert twice.height >= 1
    first = season["guards"].select("guard", "athlete", "kind", "side")
    both = again.join(first, left_on="remake_of", right_on="guard", suffix="_first")
    changed = [pl.col(name) != pl.col(f"{name}_first") for name in ("athlete", "kind", "side")]
    assert both.filter(pl.any_horizontal(changed)).is_empty()


def test_a_guard_is_worn_only_by_who_took_part_between_fitting_and_retirement(
    season, reached, begun
):
    worn = season["wear"].join(reached, on="guard")
    worn = worn.join(begun, on=["session", "athlete"], how="left")
    assert set(worn["part"]) == {"full", "limited"}
    assert worn["fitted"].null_count() == 0
    assert worn.filter(pl.col("starts") <= pl.col("fitted")).is_empty()
    assert worn.filter(pl.col("starts") >= pl.col("retired")).is_empty()


def test_some_fitted_guards_are_never_worn_and_games_see_more_wear(season, reached, begun):
    fitted = reached.filter(pl.col("fitted").is_not_null())
    unworn = fitted.join(worn_rows(season), on="guard", how="anti")
    assert 0.03 < unworn.height / fitted.height < 0.3
    chances = fitted.join(begun, on="athlete").filter(
        (pl.col("part") != "out")
        & (pl.col("starts") > pl.col("fitted"))
        & (pl.col("starts") < pl.col("retired").fill_null(pl.lit(LAST_DAY).cast(pl.Datetime)))
    )
    marked = worn_rows(season).select("session", "guard", worn=pl.lit(value=True))
    shares = (
        chances.join(marked, on=["session", "guard"], how="left")
        .group_by("setting")
        .agg(pl.col("worn").fill_null(value=False).mean())
    )
    share = dict(shares.iter_rows())
    assert share["game"] > share["practice"] + 0.1


def test_who_is_hurt_is_out_until_the_return(season, begun):
    lost = season["injuries"].filter(
        pl.col("returned_on").is_null() | (pl.col("returned_on") > pl.col("occurred_on"))
    )
    pairs = lost.join(begun, on="athlete", suffix="_attended")
    day = pl.col("starts").dt.date()
    away = pairs.filter(
        (day > pl.col("occurred_on"))
        & (pl.col("returned_on").is_null() | (day < pl.col("returned_on")))
    )
    assert away.height > 100
    assert set(away.select("part", "reason").unique().iter_rows()) == {("out", "injury")}


def test_session_injuries_belong_to_a_session_taken_part_in_that_day(season, begun):
    hurt = season["injuries"].filter(pl.col("session").is_not_null())
    rows = hurt.join(begun, on=["session", "athlete"], how="left")
    assert set(rows["part"]) <= {"full", "limited"}
    assert (rows["starts"].dt.date() == rows["occurred_on"]).all()
    assert not hurt.select("athlete", "session", "area", "side").is_duplicated().any()


def test_injuries_without_a_session_are_gradual_outside_sport_or_older(season):
    without = season["injuries"].filter(pl.col("session").is_null())
    assert 0.02 < without.height / season["injuries"].height < 0.10
    gradual = pl.col("onset") == "repetitive gradual"
    assert without.filter(~gradual & pl.col("note").is_null()).is_empty()


def test_an_injury_is_reported_after_it_happened_and_before_the_return(season):
    days = [pl.col(name) for name in ("occurred_on", "reported_on", "returned_on")]
    assert season["injuries"].filter((days[1] < days[0]) | (days[1] > days[2])).is_empty()
    assert season["injuries"]["reported_on"].null_count() == 0


def test_return_guards_are_asked_for_after_an_injury_to_their_site(season, reached):
    covers = {"shin": "lower leg", "thumb": "hand"}
    area = pl.col("kind").replace(covers).alias("area")
    back = reached.filter(pl.col("purpose") == "return").with_columns(area)
    first = season["injuries"].group_by("athlete", "area", "side").agg(pl.min("occurred_on"))
    rows = back.join(first, on=["athlete", "area", "side"], how="left")
    assert rows.height > 20
    assert (rows["requested"].dt.date() > rows["occurred_on"]).all()


def test_the_year_before_left_a_few_injuries(season):
    earlier = season["injuries"].filter(pl.col("occurred_on") < pl.date(2026, 7, 1))
    assert 5 <= earlier.height <= 10
    assert earlier["session"].null_count() == earlier.height
    assert (earlier["returned_on"] < dt.date(2026, 7, 1)).all()
