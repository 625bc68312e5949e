"""Releases are frozen: no load changes what outsiders were told, or adds to it."""

import polars as pl

from seasonboard.store.intake.frozen_cells import refuse_changes
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.stored_tables import TABLES

NAMES = ("releases", "release_blocks", "release_counts", "release_figures")


def check_release(name: str, rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    """Refuse rows that differ from a stored release, or that would be added to one."""
    table, stored = TABLES[name], season.stored(name)
    said = "is frozen: release {release} has {held}. A later release holds what changed."
    refuse_changes(table, rows, stored, findings, said)
    fresh = rows.join(stored, on=list(table.key), how="anti", maintain_order="left")
    is_known = pl.col("release").is_in(season.stored("releases")["release"].implode())
    said = "is frozen; nothing is added to it. Make a new release with “seasonboard release”."
    findings.reject(fresh, is_known, "release", said)
