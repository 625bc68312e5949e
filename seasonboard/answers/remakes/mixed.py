"""Groups that cannot be told from something else: all phone scans are of one department."""

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.orders.order_groups import FEWEST
from seasonboard.answers.remakes.options import RemakesBy

_OTHERS = (
    *(RemakesBy.DEPARTMENT, RemakesBy.KIND, RemakesBy.PURPOSE, RemakesBy.SCAN_METHOD),
    *(RemakesBy.PRINTER, RemakesBy.MATERIAL, RemakesBy.PROFILE, RemakesBy.OPERATOR),
)
_NEARLY_ALL, _HALF = 0.9, 0.5
"""Shares of a group, and of all other guards, from and below which the two are mixed up: our own
choice."""
_MOST_TOLD = 2


def mixed_up(fitted: pl.DataFrame, by: RemakesBy) -> list[str]:
    """Name the groups nearly all of whose guards are alike in something most others are not.

    Args:
        fitted: Fitted guards, as rows of `remakes/guards`, with their `group`.
        by: What the groups are; a lot is of one material by what it is, and that is not told.
    """
    told: list[tuple[float, str]] = []
    for other in _OTHERS:
        if other is by or (by is RemakesBy.LOT and other is RemakesBy.MATERIAL):
            continue
        column = other.value.replace("-", "_")
        known = fitted.select("group", value=column).drop_nulls()
        counts = (
            known.group_by("group", "value")
            .agg(both=pl.len())
            .with_columns(
                size=pl.col("both").sum().over("group"), alike=pl.col("both").sum().over("value")
            )
            .with_columns(
                share=pl.col("both") / pl.col("size"),
                elsewhere=(pl.col("alike") - pl.col("both")) / (len(known) - pl.col("size")),
            )
            .filter(
                (pl.col("size") >= FEWEST)
                & (pl.col("share") >= _NEARLY_ALL)
                & (pl.col("elsewhere") < _HALF)
            )
            .sort("group")
        )
        for row in counts.iter_rows(named=True):
            part = other.value.replace("-", " ")
            told.append((row["elsewhere"] - row["share"], _sentence(row, part)))
    return [sentence for _, sentence in sorted(told)[:_MOST_TOLD]]


def _sentence(row: dict[str, float], part: str) -> str:
    return (
        f"{words.whole(int(row['both']))} of {words.whole(int(row['size']))} guards of "
        f"“{row['group']}” have {part} {row['value']}, of all others "
        f"{words.percent(row['elsewhere'])}: one cannot be told from the other."
    )
