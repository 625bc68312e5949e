"""The rows behind the Remakes answer: guards asked for anew."""

import polars as pl

from seasonboard.answers.fields import Field, Kind, Privacy, Table
from seasonboard.answers.report import table_rows
from seasonboard.answers.row_fields import frame_rows, usual
from seasonboard.answers.rows import Rows

CAME_BACK = Table.described(
    "came_back",
    "a guard asked for anew, the latest first",
    *usual("guard", "athlete", "name", "team", "kind", "side"),
    Field("counts_as", "remake, replacement, or reason not recorded", heading="counts as"),
    Field("reason", "why", heading="reason"),
    Field("fitted_on", "when it was fitted", Kind.DAY, heading="fitted"),
    Field("successor_asked_on", "when it was asked for anew", Kind.DAY, heading="asked anew"),
    Field("days", "days between the two", Kind.COUNT, heading="days"),
    Field("sessions_worn", "sessions worn in", Kind.COUNT, heading="worn"),
    Field("successor", "guard asked for in its place", heading="by guard", privacy=Privacy.KEY),
    Field("successor_fitted_on", "when that one was fitted", Kind.DAY, heading="that one fitted"),
    Field(
        "bare_exposures",
        "sessions played bare waiting for it",
        Kind.COUNT,
        heading="bare meanwhile",
    ),
    rows=frame_rows,
)


def came_back_rows(guards: pl.DataFrame) -> Rows:
    """Return every guard asked for anew, the latest first, from rows of `remakes/guards`."""
    days = (pl.col("successor_asked_on") - pl.col("fitted_on")).dt.total_days()
    anew = (
        guards.filter(pl.col("successor").is_not_null())
        .with_columns(days=days)
        .sort(["successor_asked_on", "guard"], descending=[True, False])
    )
    return table_rows(CAME_BACK, anew, "Guards asked for anew")
