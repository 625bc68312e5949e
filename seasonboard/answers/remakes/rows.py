"""The rows behind the Remakes answer: guards asked for anew."""

import polars as pl

from seasonboard.answers.rows import Column, Rows

_COLUMNS = (
    Column("guard", "guard"),
    Column("athlete", "athlete"),
    Column("name", "name"),
    Column("team", "team"),
    Column("kind", "kind"),
    Column("side", "side"),
    Column("redo", "counts as"),
    Column("reason", "reason"),
    Column("fitted_on", "fitted"),
    Column("redone_on", "asked anew"),
    Column("days", "days", is_number=True),
    Column("sessions_worn", "worn", is_number=True),
    Column("redone_by", "by guard"),
    Column("redone_fitted_on", "that one fitted"),
    Column("bare_exposures", "bare meanwhile", is_number=True),
)


def redone_rows(guards: pl.DataFrame) -> Rows:
    """Return every guard asked for anew, the latest first."""
    days = (pl.col("redone_on") - pl.col("fitted_on")).dt.total_days()
    table = (
        guards.filter(pl.col("redone_by").is_not_null())
        .with_columns(days=days)
        .sort(["redone_on", "guard"], descending=[True, False])
        .with_columns(pl.col("fitted_on", "redone_on", "redone_fitted_on").dt.to_string("%Y-%m-%d"))
        .select(column.name for column in _COLUMNS)
    )
    return Rows("Guards asked for anew", _COLUMNS, tuple(table.rows()), len(table), len(table))
