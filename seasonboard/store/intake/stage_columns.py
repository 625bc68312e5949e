"""Stages whose dates stand side by side, a column each, become rows of their own."""

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.cleaning import cleaned
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.grid import Grid, numbered_by_cell
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.order_notes import NOTE, cancelled_rows
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import shipped_synonyms

_NOTHING = shipped_synonyms().missing
_MARKS = ("x", "✓", "✔", "yes", "y", "done")


def stage_rows(grid: Grid, part: SheetMapping, label: str, findings: Findings) -> Grid:
    """Return one row for every date under a stage's heading, and one for every cancellation.

    Args:
        grid: The sheet.
        part: Its mapping: `stages` is heading → stage, and a column gives the guard.
        label: The sheet, for messages.
        findings: Takes notes on what is not read as a date.

    Returns:
        A grid with what names the guard, `stage` and `reached_at` (text), whose rows know the cells
        they are from.
    """
    places = {folded(heading): column for heading, column in grid.places.items()}
    cells = {
        name: pl.concat_str(
            [pl.col(places[folded(one)]) for one in headings], separator=" ", ignore_nulls=True
        )
        for name, headings in part.columns.items()
    }
    cells.setdefault(NOTE, pl.lit(None, pl.String))
    named = [name for name in cells if name != NOTE]
    columns = {
        places[folded(heading)]: (heading, stage)
        for heading, stage in part.stages.items()
        if folded(heading) in places
    }
    body = grid.body.select("file_row", **cells, **{name: pl.col(name) for name in columns})
    body = body.with_columns(pl.when(pl.col(named) != "").then(pl.col(named)).name.keep())
    body = cleaned(body, label, findings)
    long = (
        body.unpivot(list(columns), index=["file_row", *named], value_name="reached_at")
        .drop_nulls("reached_at")
        .with_columns(
            cell=pl.col("variable").replace_strict({k: v[0] for k, v in columns.items()}),
            stage=pl.col("variable").replace_strict({k: v[1] for k, v in columns.items()}),
        )
    )
    long = _without_ticks(long, grid, label, findings)
    last = long.group_by("file_row").agg(last_day=pl.col("reached_at").last())
    off = cancelled_rows(
        body.select("file_row", *named, NOTE).join(last, on="file_row", how="left"),
        grid,
        label,
        findings,
    )
    off = off.select(
        "file_row",
        *named,
        reached_at="cancelled_on",
        cell=pl.lit("notes"),
        stage=pl.lit("cancelled"),
    )
    already = long.filter(pl.col("stage") == "cancelled").select("file_row")
    off = off.join(already, on="file_row", how="anti")
    rows = pl.concat([long.select(off.columns), off]).sort("file_row", maintain_order=True)
    made, origins = numbered_by_cell(rows.rename({"file_row": "row"}))
    names = (*named, "stage", "reached_at")
    if grid.origins is not None:  # rows were made of columns before
        before = grid.origins.select(row="file_row", _row="row")
        origins = origins.join(before, on="row", how="left", maintain_order="left")
        origins = origins.select("file_row", row="_row", cell="cell")
    return Grid(names, names, grid.header_row, made.select("file_row", *names),
                grid.from_1904, origins, grid.titles)  # fmt: skip


def _without_ticks(long: pl.DataFrame, grid: Grid, label: str, findings: Findings) -> pl.DataFrame:
    """Tell the stages that are only ticked, or marked as not there, and leave them out."""
    cell = pl.col("reached_at").str.to_lowercase()
    nothing = long.filter(cell.is_in(list(_NOTHING)))
    for row, heading, value in nothing.select("file_row", "cell", "reached_at").iter_rows():
        said = "is no date; the stage was left out."
        findings.note(Problem(label, grid.row_shown(row), heading, value, said))
    long = long.filter(~cell.is_in(list(_NOTHING)))
    ticked = long.filter(cell.is_in(_MARKS))
    for row, heading, value in ticked.select("file_row", "cell", "reached_at").iter_rows():
        said = "says that the stage was reached, not when; it was left out."
        findings.note(Problem(label, grid.row_shown(row), heading, value, said))
    return long.filter(~cell.is_in(_MARKS))
