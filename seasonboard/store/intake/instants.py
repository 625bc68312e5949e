"""Local times become instants: with their own offset, or in the department's time zone."""

import polars as pl

from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.values import OFFSET
from seasonboard.stored_column import CellType, StoredTable


def settle_instants(
    table: StoredTable, rows: pl.DataFrame, context: LoadContext, zone: str | None = None
) -> pl.DataFrame:
    """Return the rows of one file, their local times turned into UTC instants.

    Sessions take the zone of their team, stages that of the athlete's first, where the file has no
    `zone` of its own. A time that stands twice on the clock is the earlier one, and told; one that
    the clock skipped that day is a problem.
    """
    for column in table.columns:
        if column.holds is CellType.INSTANT and column.name in rows.columns:
            if zone is not None:
                rows = rows.with_columns(time_zone=pl.lit(zone))
            else:
                rows = with_zones(table, rows, context.season)
            rows = _settle_in(rows, column.name, context.findings)
    return rows


def with_zones(table: StoredTable, rows: pl.DataFrame, season: SeasonRows) -> pl.DataFrame:
    """Add the time zone of each row: that of its team, of stages that of the guard's athlete."""
    of_guards = table.name == "stages"
    zones = season.zones_of_guards() if of_guards else season.zones_of_teams()
    owner = "guard" if of_guards else "team"
    first = zones.unique(owner, keep="first").select(owner, "time_zone")
    return rows.join(first, on=owner, how="left", maintain_order="left")


def _settle_in(rows: pl.DataFrame, name: str, findings: Findings) -> pl.DataFrame:
    written = pl.col(name) - pl.duration(minutes=pl.col(name + OFFSET))
    instants = [written.dt.replace_time_zone("UTC")]
    local = pl.col(name + OFFSET).is_null()
    twice = pl.lit(value=False)
    for zone in rows.filter(local)["time_zone"].drop_nulls().unique():
        there = pl.col(name).dt.replace_time_zone(zone, ambiguous="earliest", non_existent="null")
        later = pl.col(name).dt.replace_time_zone(zone, ambiguous="latest", non_existent="null")
        here = local & (pl.col("time_zone") == zone)
        twice |= here & (there != later)
        instants.append(pl.when(here).then(there.dt.convert_time_zone("UTC")))
    instant_rows = rows.with_columns(pl.coalesce(instants).alias("_instant"))
    said = "stands twice on the clock of that day; the earlier was taken. Where it was the later, "
    said += "write the offset from UTC behind it, such as -05:00."
    findings.doubt(rows, twice, name, said)
    skipped = local & pl.col("_instant").is_null() & pl.col("time_zone").is_not_null()
    said = "does not exist in {time_zone}: the clock skips it on that day."
    findings.reject(instant_rows, skipped & pl.col(name).is_not_null(), name, said)
    return instant_rows.with_columns(pl.col("_instant").alias(name)).drop(
        "_instant", "time_zone", name + OFFSET
    )
