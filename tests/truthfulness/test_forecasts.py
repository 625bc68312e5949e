"""The forecasts of fresh sample seasons: better than the former, near the generator's, no bias."""

import polars as pl
import pytest

from tests.truthfulness.forecasts import season_forecasts


@pytest.mark.long
def test_forecasts_are_near_what_the_generator_knows_and_far_better_than_the_former():
    """What RESULTS.md shows for ten seasons, for three others, with room for chance."""
    every = pl.concat(map(season_forecasts, (7, 8, 9)))
    rows = every.filter(~pl.col("is_least") & pl.col("former").is_not_nan())
    told, former, generator = (
        ((rows[name] - rows["came"]) ** 2).mean() for name in ("told", "former", "generator")
    )
    assert told < 0.9 * former
    assert told < generator + 0.005
    stages = rows.group_by("stage").agg(pl.len(), off=(pl.col("told") - pl.col("came")).mean())
    assert stages.filter((pl.col("len") >= 200) & (pl.col("off").abs() > 0.05)).is_empty()
    assert (every["told"].is_between(-1e-9, 1 + 1e-9)).all()
