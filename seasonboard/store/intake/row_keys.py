"""One row for one key: incoming rows are completed from the store, and doubles settled."""

from collections.abc import Sequence
from typing import cast

import polars as pl

from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.stored_column import StoredTable

PLACE = ("file_no", "file_row")
KEY_MARK = " · "


def completed(table: StoredTable, rows: pl.DataFrame, stored: pl.DataFrame) -> pl.DataFrame:
    """Return `rows` with every column of the table; what a file leaves out stays as stored."""
    absent = [name for name in table.names if name not in rows.columns]
    if absent and not stored.is_empty():
        held = stored.select(*table.key, *absent)
        rows = rows.join(held, on=list(table.key), how="left", maintain_order="left")
    elif absent:
        kinds = table.frame_types
        rows = rows.with_columns(pl.lit(None, kinds[name]).alias(name) for name in absent)
    return rows.select(*PLACE, *table.names)


def added_to(
    table: StoredTable, rows: pl.DataFrame, parts: Sequence[pl.DataFrame], context: LoadContext
) -> list[pl.DataFrame]:
    """Return complete rows of a load, `parts`, with what the `rows` of a log say of them beside.

    Rows of the log whose key is stored alone are completed from the store; each that is known
    nowhere is noted and left out.
    """
    key = list(table.key)
    here = pl.concat(parts) if parts else pl.DataFrame(schema=dict(table.frame_types))
    stored = context.season.stored(table.name)
    added = [name for name in rows.columns if name in table.names and name not in key]
    others = rows.join(here.select(key), on=key, how="anti")
    of_stored, unknown = (others.join(stored, on=key, how=how) for how in ("semi", "anti"))
    said = f"is no {key[0]} of this load or of the store; the row was left out."
    context.findings.doubt(unknown, pl.lit(True), key[0], said)
    if parts:
        beside = rows.select(*key, *(pl.col(name).alias(f"_{name}") for name in added))
        here = here.join(beside, on=key, how="left", maintain_order="left")
        filled = [pl.coalesce(name, f"_{name}").alias(name) for name in added]
        here = here.with_columns(filled).drop([f"_{name}" for name in added])
    return [*([here] if parts else []), completed(table, of_stored, stored)]


UNREAD = "unread_cells"
"""A text column of what a row holds in columns that are not read."""


def without_doubles(
    table: StoredTable, rows: pl.DataFrame, findings: Findings, unread: pl.DataFrame | None = None
) -> pl.DataFrame:
    """Return the first of the complete rows of every key; the others are told.

    A key with two contents is a problem, rows that merely repeat are noted. `unread` has the
    `unread_cells` of rows whose files have columns that are not read; rows that differ there alone
    have two contents all the same.
    """
    key = list(table.key)
    if rows.select(pl.struct(key).n_unique()).item() == rows.height:
        return rows
    named = pl.all_horizontal(pl.col(key).is_not_null())
    nth = pl.int_range(pl.len(), dtype=pl.UInt32).over(key)
    counted = rows.with_columns(nth=pl.when(named).then(nth).otherwise(0))
    if unread is not None:
        counted = counted.join(unread, on=PLACE, how="left", maintain_order="left")
    later = counted.filter(pl.col("nth") > 0)
    labels = dict(enumerate(findings.labels))
    first = counted.filter((pl.col("nth") == 0) & named).with_columns(
        first_file=pl.col("file_no").replace_strict(labels)
    )
    later = later.join(first, on=key, how="left", suffix="_first", maintain_order="left")
    rest = [name for name in table.names if name not in key]
    other = [pl.col(name).ne_missing(pl.col(f"{name}_first")) for name in rest]
    differs = pl.any_horizontal(pl.lit(False), *other)
    if unread is not None:
        hidden = ~differs & pl.col(UNREAD).ne_missing(pl.col(f"{UNREAD}_first"))
        said = "already stands in {first_file}, row {file_row_first}, with other cells in columns "
        said += "that are not read; keep one row, or give each a key of its own."
        findings.reject(later, hidden, key[0], said)
        later = later.filter(~hidden)
    said = "already stands in {first_file}, row {file_row_first}, with other content; keep one row."
    findings.reject(later, differs, key[0], said)
    findings.doubt(later, ~differs, key[0], "stands twice with the same content; it counts once.")
    return counted.filter(pl.col("nth") == 0).select(rows.columns)


def row_key(table: StoredTable, rows: pl.DataFrame) -> pl.Expr:
    """Return the expression that names a row in the change log: its key parts as text."""
    parts = [as_text(rows, name) for name in table.key]
    return parts[0] if len(parts) == 1 else joined_key(parts)


def joined_key(parts: Sequence[pl.Expr]) -> pl.Expr:
    """Join parts of a key so that no two keys read alike: their own middle dots stand twice."""
    doubled = [part.str.replace_all("·", "··", literal=True) for part in parts]
    return pl.concat_str(doubled, separator=KEY_MARK, ignore_nulls=True)


def as_text(rows: pl.DataFrame, name: str) -> pl.Expr:
    """Return the expression that writes a cell as text: ISO 8601, numbers without a bare `.0`."""
    column = pl.col(name)
    kind = rows.schema[name]
    if isinstance(kind, pl.Datetime):
        return column.dt.strftime("%Y-%m-%dT%H:%M:%S%.fZ")
    if kind == pl.Float64:
        return column.cast(pl.String).str.strip_suffix(".0")
    return column.cast(pl.String)


def count_by_file(rows: pl.DataFrame) -> dict[int, int]:
    """Return how many rows each file number has."""
    return cast("dict[int, int]", dict(rows.group_by("file_no").len().iter_rows()))
