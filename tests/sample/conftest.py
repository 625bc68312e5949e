"""The sample season, made once."""

import polars as pl
import pytest

from seasonboard.sample import make_season


def worn_rows(season: dict[str, pl.DataFrame]) -> pl.DataFrame:
    """Return the rows of wear that say worn."""
    return season["wear"].filter(pl.col("worn") == "yes")


@pytest.fixture(scope="session")
def season():
    return make_season()


@pytest.fixture(scope="session")
def begun(season):
    """Give attendance with the local start, team and season of its session."""
    local = pl.col("starts_at").str.slice(0, 19).str.to_datetime().alias("starts")
    return season["attendance"].join(season["sessions"].with_columns(local), on="session")
