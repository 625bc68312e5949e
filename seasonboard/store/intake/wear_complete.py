"""Sessions whose wear is recorded for everybody, where a load is said to hold all of it."""

import polars as pl

from seasonboard.entries import Entry
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.read_sources import ReadRows, read_assigned
from seasonboard.store.intake.typed_entries import typed_sources

LABEL = "wear is complete"
_COMPLETE = "wear_complete"


def mark_complete(rows: ReadRows, context: LoadContext) -> None:
    """Mark the sessions that the load brings attendance or wear of; one that says no stays so."""
    season = context.season
    played = pl.concat(
        [pl.Series("session", [], pl.String)]
        + [season.incoming[name]["session"] for name in ("attendance", "wear")
           if name in season.incoming]
    ).drop_nulls().unique()  # fmt: skip
    brought = season.incoming.get("sessions")
    if brought is not None:
        is_meant = pl.col("session").is_in(played.implode()) & pl.col(_COMPLETE).is_null()
        said = pl.when(is_meant).then(pl.lit("yes")).otherwise(pl.col(_COMPLETE))
        brought = brought.with_columns(said.cast(brought.schema[_COMPLETE]).alias(_COMPLETE))
        season.take("sessions", brought)
        played = played.filter(~played.is_in(brought["session"].implode()))
    there = season.stored("sessions")["session"]
    keys = sorted(played.filter(played.is_in(there.implode())))
    if not keys:
        return
    entry = Entry(LABEL, {"sessions": [{"session": key, _COMPLETE: "yes"} for key in keys]})
    more = read_assigned(typed_sources(entry, context), context)
    rows.sources += more.sources
    if brought is not None:
        season.take("sessions", pl.concat([brought, season.incoming["sessions"]]))
