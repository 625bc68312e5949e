"""Remakes by the month they were asked for, whenever their guards were fitted: a c-chart."""

from dataclasses import dataclass
from datetime import date, timedelta

import polars as pl

from seasonboard.stats.control_charts import ControlLimits, u_chart


@dataclass(frozen=True, slots=True)
class AskedMonth:
    """Remakes asked for in one whole month, with control limits for counts."""

    month: date
    remakes: int
    control_limits: ControlLimits


def asked_months(fitted: pl.DataFrame) -> tuple[AskedMonth, ...]:
    """Return the months from the first fitting to the last whole one, of rows of `remakes/guards`.

    Months without a remake count as 0. Source of the limits: `u_chart` of equal sizes.
    """
    if fitted.is_empty():
        return ()
    first: date = fitted.sort("fitted_on")["fitted_on"][0]
    known: date = fitted["known_through"][0]
    ends = (known + timedelta(days=1)).replace(day=1)
    months = pl.date_range(first.replace(day=1), ends, "1mo", closed="left", eager=True)
    asked = fitted.filter(pl.col("counts_as").eq_missing(pl.lit("remake"))).select(
        month=pl.col("successor_asked_on").dt.truncate("1mo")
    )
    counted = (
        months.to_frame("month")
        .join(asked.group_by("month").len("remakes"), on="month", how="left")
        .sort("month")
        .select("month", pl.col("remakes").fill_null(0).cast(pl.Int64))
    )
    chart = u_chart(counted["remakes"].to_list(), [1] * len(counted))
    rows = zip(counted.iter_rows(), chart.limits, strict=True)
    return tuple(AskedMonth(on, count, limits) for (on, count), limits in rows)
