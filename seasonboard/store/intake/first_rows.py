"""The first rows of a plan as text, to be looked at before anything is written."""

import polars as pl

from seasonboard.load_dialog import FIRST_ROWS, FirstRows
from seasonboard.store.intake.row_keys import as_text


def first_rows(table: str, rows: pl.DataFrame) -> FirstRows:
    """Return the first rows of a table under the columns in which any of them holds something."""
    text = rows.head(FIRST_ROWS).select(as_text(rows, name) for name in rows.columns)
    filled = [name for name in text.columns if text[name].null_count() < text.height]
    return FirstRows(table, rows.height, tuple(filled), tuple(text.select(filled).rows()))
