"""Cells that were settled on a day, for good: no load changes them."""

from collections.abc import Collection

import polars as pl

from seasonboard.store.intake.problems import Findings
from seasonboard.stored_column import StoredTable

_HELD = "_held"


def refuse_changes(  # noqa: PLR0913 - each says one thing of it
    table: StoredTable,
    rows: pl.DataFrame,
    stored: pl.DataFrame,
    findings: Findings,
    said: str,
    *,
    free: Collection[str] = (),
) -> None:
    """Refuse incoming rows whose cells differ from those of the stored row of the same key.

    Args:
        table: The table.
        rows: Its incoming rows, complete.
        stored: Its rows in the store.
        findings: Takes the problems.
        said: Why it is refused; `COLUMN` stands for the column, `{held}` for the stored cell.
        free: Columns that may change.
    """
    key = list(table.key)
    both = rows.join(stored, on=key, how="inner", suffix=_HELD, maintain_order="left")
    for name in (name for name in table.names if name not in {*key, *free}):
        held = pl.col(name + _HELD)
        shown = both.with_columns(held=held.cast(pl.String).fill_null("empty"))
        findings.reject(shown, pl.col(name).ne_missing(held), name, said.replace("COLUMN", name))
