"""Orders as the week and the departments look at them, all from one question (`week/orders`).

The figures are those of Orders, Remakes and the allotment; here they come from fewer columns.
"""

from datetime import date

import polars as pl

from seasonboard.answers.orders_frame import local_days
from seasonboard.answers.orders_parts import OpenOrder
from seasonboard.answers.orders_rows import open_orders
from seasonboard.scope import Scope

REMAKES = ["fit", "damage", "print fault", "scan fault"]
"""Reasons that make a new guard a remake; the others make it a replacement."""


def waiting_orders(orders: pl.DataFrame, like: pl.DataFrame, scope: Scope) -> tuple[OpenOrder, ...]:
    """Return the open orders, the most pressing first; how often a site was bare is not counted.

    Args:
        orders: Rows of `week/orders`.
        like: Rows of `orders/like`.
        scope: The scope of both.
    """
    uncounted = pl.lit(None, dtype=pl.Int64)
    return open_orders(orders.with_columns(exposures=uncounted, bare=uncounted), like, scope)


def with_remakes(orders: pl.DataFrame) -> pl.DataFrame:
    """Add whether a guard was asked for anew as a remake (`is_remade`)."""
    return orders.with_columns(
        is_remade=pl.col("redone_reason").is_in(REMAKES).fill_null(value=False)
    )


def print_weeks(orders: pl.DataFrame, through: date) -> pl.DataFrame:
    """Return prints week by week of every department, as the rows of `allotment/weeks`."""
    printed = pl.col("printed_at")
    away = pl.coalesce(printed, "finished_at", "shipped_at", "delivered_at", "fitted_at", "over_at")
    rows = orders.with_columns(gone_at=away)
    rows = rows.with_columns(
        local_days(rows, name).dt.truncate("1w").alias(week)
        for name, week in (
            ("first_stage_at", "asked"),
            ("printed_at", "printed"),
            ("gone_at", "gone"),
        )
    )
    spans = rows.group_by("department", maintain_order=True).agg(
        pl.first("plan", "prints_per_week"),
        printers=pl.col("printer").drop_nulls().n_unique(),
        week=pl.date_ranges(pl.col("asked").min(), pl.lit(through), "1w").first(),
    )
    weeks = spans.explode("week").sort("department", "week")
    for name, sums in (
        ("asked", [pl.len().alias("asked_orders")]),
        (
            "printed",
            [
                pl.len().alias("prints"),
                pl.col("print_hours").sum().alias("hours"),
                pl.col("print_hours").null_count().alias("without_hours"),
            ],
        ),
        ("gone", [pl.len().alias("gone_orders")]),
    ):
        counted = rows.drop_nulls(name).group_by("department", pl.col(name).alias("week")).agg(sums)
        weeks = weeks.join(counted, on=["department", "week"], how="left", maintain_order="left")
    came, went = (pl.col(name).cast(pl.Int64) for name in ("asked_orders", "gone_orders"))
    return weeks.fill_null(0).with_columns(
        is_whole=pl.col("week").dt.offset_by("1w") <= pl.lit(through).dt.offset_by("1d"),
        asked=pl.col("asked_orders"),
        queue=(came - went).cum_sum().over("department"),
    )
