"""Keys that point to another table must point to something."""

import polars as pl

from seasonboard.store.intake.keys import offered_keys
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.stored_column import StoredTable


def check_references(table: StoredTable, rows: pl.DataFrame, context: LoadContext) -> None:
    """Refuse every key that stands neither in the store nor in what is being loaded.

    Args:
        table: The table, with what its columns refer to.
        rows: Its incoming rows; they are already part of the season of the load.
        context: The load, whose findings take the problems, with the nearest known key.
    """
    for column in table.columns:
        if column.refers is None or column.refers[0] in context.season.unread:
            continue
        target, key = column.refers
        there = context.season.keys(target, key)
        written = rows[column.name].drop_nulls().unique()
        lost = written.filter(~written.is_in(there.implode()))
        if lost.is_empty():
            continue
        offered = offered_keys(lost, there)
        _offer(rows, column.name, offered, context.findings, key)
        lost = lost.filter(~lost.is_in(list(offered)))
        if lost.is_empty():
            continue
        said = f"is not a known {key}: it stands neither in {target} of this load nor in the store."
        wrong = pl.col(column.name).is_in(lost.implode())
        context.findings.reject(rows, wrong, column.name, said, choices=there.to_list())


def _offer(
    rows: pl.DataFrame, column: str, offered: dict[str, str], findings: Findings, key: str
) -> None:
    if offered:
        taken = pl.col(column).replace_strict(offered, default=None, return_dtype=pl.String)
        near = rows.with_columns(_near=taken)
        said = f"is not a known {key}, but “{{_near}}” is: they match without leading zeros. Write "
        said += "it so, or take all such with --accept-likely."
        findings.reject(near, pl.col("_near").is_not_null(), column, said)
