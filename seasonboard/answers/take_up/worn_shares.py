"""The share of sessions a guard was worn in, of those taken part in with one fitted."""

from collections.abc import Sequence
from typing import Any

import polars as pl

from seasonboard.stats.clustered_shares import ClusteredShare, ClusterSums, clustered_share

NOTHING_WORN = clustered_share(ClusterSums(0, 0, 0, 0, 0, 0))


def worn_shares(
    wear: pl.DataFrame, keys: Sequence[str], level: float
) -> dict[tuple[Any, ...], ClusteredShare]:
    """Return the worn share of each group, clustered by athlete.

    Args:
        wear: Rows of `take_up/wear`.
        keys: Columns that make a group, such as `department` and `week`.
        level: Two-sided confidence level.
    """
    x, n = pl.col("worn"), pl.col("sessions")
    sums = (
        wear.group_by(*keys, "athlete_no")
        .agg(x.sum(), n.sum())
        .filter(n > 0)
        .group_by(keys)
        .agg(
            clusters=pl.len(),
            successes=x.sum(),
            trials=n.sum(),
            successes_squared=(x * x).sum(),
            products=(x * n).sum(),
            trials_squared=(n * n).sum(),
        )
    )
    wide = len(keys)
    return {
        row[:wide]: clustered_share(ClusterSums(*row[wide:]), level=level)
        for row in sums.iter_rows()
    }
