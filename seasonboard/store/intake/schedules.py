"""Schedules as coaches write them: times in words or still open, games that were called off."""

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.sessions_by_day import TIME_IS_PUT
from seasonboard.store.intake.time_words import NOON, UNKNOWN_TIMES, time_of

_CALLED_OFF = r"(?i)^\s*(?:cancel+ed|cancel+ation|called off|postponed|ppd\.?|abandoned|no game)\b"


def without_cancelled(grid: Grid, part: SheetMapping, label: str, findings: Findings) -> Grid:
    """Return a schedule without the sessions that a cell says were called off; each is told.

    Args:
        grid: The sheet.
        part: Its mapping; only what names no column of sessions but the label is looked at.
        label: The sheet, for notes.
        findings: Takes the notes.
    """
    used = {folded(one) for name, many in part.columns.items() if name != "label" for one in many}
    sought = [column for heading, column in grid.places.items() if folded(heading) not in used]
    if not sought:
        return grid
    off = pl.any_horizontal(
        pl.col(name).str.contains(_CALLED_OFF).fill_null(False) for name in sought
    )
    rows = grid.body.filter(off)
    for cells in rows.select("file_row", *sought).iter_rows():
        word = next(
            cell for cell in cells[1:] if cell and pl.Series([cell]).str.contains(_CALLED_OFF)[0]
        )
        said = "says that the session was called off; it is no session and was left out."
        findings.note(Problem(label, cells[0], None, word, said))
    if rows.is_empty():
        return grid
    return Grid(grid.headings, grid.columns, grid.header_row, grid.body.filter(~off),
                grid.from_1904, grid.origins, grid.titles, grid.struck)  # fmt: skip


def with_clock(
    body: pl.DataFrame, columns: list[str], part: SheetMapping, label: str, findings: Findings
) -> pl.DataFrame:
    """Return rows whose times of day stand as `HH:MM`; where none is given, one is put and told.

    Args:
        body: The rows of a schedule as text.
        columns: The column of days, and that of times where there is one.
        part: Its mapping, which may say what time is put.
        label: The sheet, for notes.
        findings: Takes a note with the rows whose time was put.

    Returns:
        The rows, and `time_is_put` where a time was put; a column of days and times together is
        left as it is where every cell has a time.
    """
    if len(columns) == 1:
        return _without_times(body, columns[0], part, label, findings)
    day, time = columns[0], columns[-1]
    cells = body[time].unique().drop_nulls().to_list()
    clocks = {cell: clock for cell in cells if (clock := time_of(cell))}
    open_ = pl.col(time).is_null() | pl.col(time).str.to_lowercase().is_in(list(UNKNOWN_TIMES))
    is_put = open_ & pl.col(day).is_not_null()
    _tell_put(body.filter(is_put), time, part, label, findings)
    put = pl.lit(part.time or NOON)
    known = pl.col(time).replace(clocks)
    return body.with_columns(
        pl.when(is_put).then(put).otherwise(known).alias(time),
        pl.when(is_put).then(pl.lit("put")).alias(TIME_IS_PUT),
    )


def _without_times(
    body: pl.DataFrame, day: str, part: SheetMapping, label: str, findings: Findings
) -> pl.DataFrame:
    bare = ~pl.col(day).str.contains(r"[0-9][:.h][0-9]{2}|(?i)[0-9]\s*[ap]\.?m|^[0-9]{5}[.,]")
    rows = body.filter(bare)
    if rows.is_empty():
        return body
    _tell_put(rows, day, part, label, findings)
    put = pl.concat_str([pl.col(day), pl.lit(part.time or NOON)], separator=" ")
    numbers = pl.col(day).str.contains(r"^[0-9]{5}$")  # of a spreadsheet; read with the time put
    return body.with_columns(
        pl.when(bare & ~numbers).then(put).otherwise(pl.col(day)).alias(day),
        pl.when(bare).then(pl.lit("put")).alias(TIME_IS_PUT),
    )


def _tell_put(
    rows: pl.DataFrame, name: str, part: SheetMapping, label: str, findings: Findings
) -> None:
    if rows.is_empty():
        return
    shown = ", ".join(str(row) for row in rows["file_row"].head(5))
    many = "1 row" if rows.height == 1 else f"{rows.height:,} rows"
    said = f"gives no time of day in {many} ({shown}); {part.time or NOON} was put. "
    said += "Times of sessions that are known already stay. Say another with --value time=16:00."
    first = rows.row(0, named=True)
    findings.note(Problem(label, first["file_row"], None, first[name], said))
