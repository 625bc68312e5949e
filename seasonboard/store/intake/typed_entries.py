"""Rows typed in on the board, put where a file's rows would stand."""

from itertools import groupby

import polars as pl

from seasonboard.entries import Entry, Rows
from seasonboard.errors import StoreError
from seasonboard.store.intake.cleaning import trimmed
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.row_keys import as_text
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.sources import TableSource
from seasonboard.stored_column import StoredTable
from seasonboard.stored_tables import TABLES


def typed_sources(entry: Entry, context: LoadContext) -> list[TableSource]:
    """Return an entry as the sources of a load, in the order of tables.

    Rows of a table that give different columns are sources of their own: a column that is not
    given stays as it is stored, one that is given and empty is emptied. Rows that are there already
    are completed with what every row needs.

    Raises:
        StoreError: The entry names a table or a column that there is none of.
    """
    sources, labels = [], context.findings.labels
    for name in TABLES:
        rows = entry.tables.get(name, ())
        several = len(entry.tables) > 1
        for columns, same in groupby(sorted(rows, key=sorted), key=lambda row: tuple(sorted(row))):
            label = f"{entry.label} › {name}" if several else entry.label
            if label in labels:
                label = f"{label} ({len(labels) + 1})"
            labels.append(label)
            grid = _grid(TABLES[name], columns, list(same), context.season)
            sources.append(TableSource(name, label, "", grid, _keyless(TABLES[name], columns)))
    if unknown := entry.tables.keys() - TABLES.keys():
        raise StoreError(f"There is no table {', '.join(sorted(unknown))}.")
    return sources


def _keyless(table: StoredTable, columns: tuple[str, ...]) -> SheetMapping | None:
    """Return how rows without a key are read, so that they make one; None where they have one."""
    absent = set(table.required) - set(columns)
    if not table.key_made_of or absent != set(table.key):
        return None
    return SheetMapping(table.name, columns, {name: (name,) for name in columns})


def _grid(table: StoredTable, columns: tuple[str, ...], rows: Rows, season: SeasonRows) -> Grid:
    if unknown := set(columns) - set(table.names):
        raise StoreError(f"{table.name} has no column {', '.join(sorted(unknown))}.")
    text = trimmed(pl.DataFrame(rows, schema=dict.fromkeys(columns, pl.String)))
    if set(table.key) <= set(columns):
        text = _with_required(table, text, season)
    headings = tuple(text.columns)
    return Grid(headings, headings, 0, text.with_row_index("file_row", 1))


def _with_required(table: StoredTable, text: pl.DataFrame, season: SeasonRows) -> pl.DataFrame:
    """Add what every row needs and is not given, as it is stored."""
    absent = [name for name in table.required if name not in text.columns]
    stored = season.stored(table.name)
    if not absent or stored.is_empty():
        return text
    held = stored.select(as_text(stored, name).alias(name) for name in (*table.key, *absent))
    return text.join(held, on=list(table.key), how="left", maintain_order="left")
