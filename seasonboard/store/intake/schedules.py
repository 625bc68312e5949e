"""Schedules as coaches write them: times in words or still open, games that were called off."""

import re
from dataclasses import replace

import polars as pl

from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.problems import SHOWN, Findings, counted
from seasonboard.store.intake.sessions_by_day import TIME_IS_PUT
from seasonboard.store.intake.text_columns import distinct, folded
from seasonboard.store.intake.written_times import NOON, UNKNOWN_TIMES, time_of

_CALLED_OFF = r"(?i)^\s*(?:cancel+ed|cancel+ation|called off|postponed|ppd\.?|abandoned|no game)\b"
_TIMED = r"[0-9][:.h][0-9]{2}|(?i)[0-9]\s*[ap]\.?m|^[0-9]{5}[.,]"


def without_cancelled(grid: Grid, part: SheetMapping, label: str, findings: Findings) -> Grid:
    """Return a schedule without the sessions that a cell says were called off; each is told.

    Only what names no column of sessions but the label is looked at.
    """
    used = {folded(one) for name, many in part.columns.items() if name != "label" for one in many}
    sought = [column for heading, column in grid.folded_places.items() if heading not in used]
    is_off = [pl.col(name).str.contains(_CALLED_OFF).fill_null(False) for name in sought]
    off = pl.any_horizontal(pl.lit(False), *is_off)
    for row, *cells in grid.body.filter(off).select("file_row", *sought).iter_rows():
        word = next(cell for cell in cells if cell and re.search(_CALLED_OFF, cell))
        said = "says that the session was called off; it is no session and was left out."
        findings.tell(label, said, row, value=word)
    return replace(grid, body=grid.body.filter(~off))


def with_clock(
    body: pl.DataFrame, columns: list[str], part: SheetMapping, label: str, findings: Findings
) -> pl.DataFrame:
    """Return rows whose times of day stand as `HH:MM`; where none is given, one is put and told.

    `columns` is the column of days, and that of times where there is one; the mapping may say what
    time is put. Rows in which one was put have `time_is_put`; a column of days and times together
    is left as it is where every cell has a time.
    """
    day, *times = columns
    put_time = pl.lit(part.time or NOON)
    if times:
        name = times[-1]
        clocks = {cell: clock for cell in distinct(body[name]) if (clock := time_of(cell))}
        unknown = pl.col(name).str.to_lowercase().is_in(list(UNKNOWN_TIMES))
        is_put = (pl.col(name).is_null() | unknown) & pl.col(day).is_not_null()
        cells = pl.when(is_put).then(put_time).otherwise(pl.col(name).replace(clocks))
    else:
        name = day
        is_put = ~pl.col(day).str.contains(_TIMED)
        serial = pl.col(day).str.contains(r"^[0-9]{5}$")  # of a spreadsheet; read with the time put
        both = pl.concat_str([pl.col(day), put_time], separator=" ")
        cells = pl.when(is_put & ~serial).then(both).otherwise(pl.col(day))
    rows = body.filter(is_put)
    if rows.is_empty() and not times:
        return body
    if not rows.is_empty():
        shown = ", ".join(map(str, rows["file_row"].head(SHOWN)))
        many = counted(rows.height, "row", "rows")
        said = f"gives no time of day in {many} ({shown}); {part.time or NOON} was put. Times of "
        said += "sessions that are known already stay. Say another with --value time=16:00."
        findings.tell(label, said, rows["file_row"][0], value=rows[name][0])
    return body.with_columns(
        cells.alias(name), pl.when(is_put).then(pl.lit("put")).alias(TIME_IS_PUT)
    )
