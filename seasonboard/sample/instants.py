"""Instants as text, and the decisions that were written down."""

import numpy as np
import polars as pl

from seasonboard.sample.clubs import OFFSET_FORM
from seasonboard.sample.draws import Ints

_OFFSET_ZONE = "America/Chicago"

# (number of the department, decided, text, due, done)
DECISIONS = (
    (0, "2026-09-08", "Scan every women's soccer forward before the first conference game.",
     "2026-09-18", "2026-09-17"),
    (1, "2026-09-22", "Use the scanner, not the phone, when a shin guard came back for fit.",
     "2026-10-06", "2026-10-09"),
    (0, "2026-10-13", "Keep two spare liners of each thickness in the athletic training room.",
     "2026-10-20", "2026-10-19"),
    (2, "2026-11-03", "Record who wore a guard at practices too, not only at games.",
     "2026-11-10", None),
    (None, "2026-12-01", "Look at the shin comparison again when the winter season is over.",
     "2027-03-16", None),
    (1, "2027-01-12", "Ask for one more print a week until the queue is gone.",
     "2027-01-26", None),
    (0, "2027-01-26", "Offer thumb guards to the winter forwards who have none.",
     "2027-02-09", None),
)  # fmt: skip


def instants(minutes: pl.Series, pattern: Ints, name: str = "reached_at") -> pl.Series:
    """Local minutes since 1970 as ISO 8601 text, with the offset where the department does so."""
    frame = pl.DataFrame({"minute": minutes, "offset": np.asarray(pattern) == OFFSET_FORM})
    local = (pl.col("minute") * 60_000_000).cast(pl.Datetime("us"))
    zoned = local.dt.replace_time_zone(_OFFSET_ZONE, ambiguous="earliest", non_existent="null")
    plain = local.dt.to_string("%Y-%m-%dT%H:%M:%S")
    with_offset = zoned.dt.to_string("%Y-%m-%dT%H:%M:%S%:z")
    return frame.select(pl.when("offset").then(with_offset).otherwise(plain).alias(name))[name]
