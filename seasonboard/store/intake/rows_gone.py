"""Rows that a file brought before and does not hold any more: they stay, and are told.

A file counts as corrected when it still holds at least half of the rows it brought before.
"""

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.row_keys import row_key
from seasonboard.store.intake.table_source import TableSource
from seasonboard.stored_tables import TABLES

_SHOWN = 5


def tell_rows_gone(sources: list[TableSource], context: LoadContext) -> int:
    """Tell, for every file that was loaded before, which of its rows are not in it now.

    Args:
        sources: The sources of this load.
        context: The load, whose season holds their rows, and whose findings take the notes.

    Returns:
        How many rows are gone from their files; all of them stay in the store.
    """
    files = [source for source in sources if source.sha256]  # rows typed in come from none
    if not files:
        return 0
    known = context.season.store.read("store/file_loads")
    gone = 0
    for source in files:
        same = (pl.col("file") == source.label) & (pl.col("table_name") == source.table)
        before = known.filter(same)
        if before.is_empty() or source.sha256 in before["sha256"]:
            continue
        lost = _lost(source.table, before["load_no"], context)
        if lost.is_empty():
            continue
        gone += lost.height
        shown = ", ".join(lost.select(row_key(TABLES[source.table], lost)).to_series().head(_SHOWN))
        more = ", …" if lost.height > _SHOWN else ""
        many = "1 row that it" if lost.height == 1 else f"{lost.height:,} rows that it"
        said = f"{many} brought before is not in it any more and stays as stored: {shown}{more}."
        if lost.height > 1:
            said = said.replace("is not", "are not").replace("stays", "stay")
        context.findings.note(Problem(source.label, None, None, None, said))
    return gone


def _lost(table: str, loads: pl.Series, context: LoadContext) -> pl.DataFrame:
    key, types = list(TABLES[table].key), TABLES[table].frame_types
    brought = context.season.store.read(f"brought/{table}")
    mine = brought.filter(pl.col("load_no").is_in(loads.implode())).select(
        pl.col(name).cast(types[name]) for name in key
    )
    come = context.season.incoming[table].select(key)
    lost = mine.join(come, on=key, how="anti")
    is_corrected = lost.height * 2 <= mine.height  # else it is another file of the same name
    return lost if is_corrected else lost.clear()
