"""The first rows of a plan as text, to be looked at before anything is written."""

from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.load_dialog import FIRST_ROWS, FirstRows
from seasonboard.store.intake.instants import with_zones
from seasonboard.store.intake.row_keys import as_text
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES


def first_rows(table: str, rows: pl.DataFrame, season: SeasonRows) -> FirstRows:
    """Return the first rows of a table under the columns in which any of them holds something.

    Instants are on the clock of the department, which stands beside their column.
    """
    head = rows.head(FIRST_ROWS)
    text = head.select(as_text(rows, name) for name in rows.columns)
    called = {}
    for column in TABLES[table].columns:
        if column.holds is CellType.INSTANT and column.name in rows.columns:
            zones = with_zones(TABLES[table], head, season)["time_zone"].fill_null("UTC")
            local = [
                instant and f"{instant:%Y-%m-%d %H:%M}"
                for zone, part in zip(zones, head[column.name], strict=True)
                for instant in [part and part.astimezone(ZoneInfo(zone))]
            ]
            text = text.with_columns(pl.Series(column.name, local, dtype=pl.String))
            called[column.name] = f"{column.name} ({', '.join(zones.unique().sort())})"
    filled = [name for name in text.columns if text[name].null_count() < text.height]
    shown = tuple(called.get(name, name) for name in filled)
    return FirstRows(table, rows.height, shown, tuple(text.select(filled).rows()))
