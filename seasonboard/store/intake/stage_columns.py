"""Stages whose dates stand side by side, a column each, become rows of their own."""

import polars as pl

from seasonboard.store.intake.cleaning import cleaned
from seasonboard.store.intake.grid import Grid, numbered_by_cell
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.order_notes import NOTE, cancelled_rows
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import shipped_synonyms
from seasonboard.store.intake.text_columns import folded, joined_cells

_NO_DATES = {
    "is no date; the stage was left out.": shipped_synonyms().missing,
    "says that the stage was reached, not when; it was left out.": frozenset(
        {"x", "✓", "✔", "yes", "y", "done"}
    ),
}
"""What is said of cells that give no date, and which those are."""


def stage_rows(grid: Grid, part: SheetMapping, label: str, findings: Findings) -> Grid:
    """Return one row for every date under a stage's heading, and one for every cancellation.

    The mapping's `stages` is heading → stage. The rows have what names the guard, `stage` and
    `reached_at` (text), and know the cells they are from; what is not read as a date is noted.
    """
    by_place = grid.folded_places
    cells = {
        name: joined_cells(by_place[folded(one)] for one in headings)
        for name, headings in part.columns.items()
    }
    cells.setdefault(NOTE, pl.lit(None, pl.String))
    named = [name for name in cells if name != NOTE]
    columns = {
        by_place[folded(heading)]: (heading, stage)
        for heading, stage in part.stages.items()
        if folded(heading) in by_place
    }
    body = grid.body.select("file_row", *columns, **cells)
    body = cleaned(body, label, findings)
    stages = (
        body.unpivot(list(columns), index=["file_row", *named], value_name="reached_at")
        .drop_nulls("reached_at")
        .with_columns(
            pl.col("variable").replace_strict({one: pair[nth] for one, pair in columns.items()})
            .alias(name) for nth, name in enumerate(("cell", "stage"))
        )
    )  # fmt: skip
    stages = _dated(stages, grid, label, findings)
    last = stages.group_by("file_row").agg(last_day=pl.col("reached_at").last())
    orders = body.select("file_row", *named, NOTE).join(last, on="file_row", how="left")
    off = cancelled_rows(orders, grid, label, findings).select(
        *("file_row", *named),
        reached_at="cancelled_on", cell=pl.lit("notes"), stage=pl.lit("cancelled"),
    )  # fmt: skip
    already = stages.filter(pl.col("stage") == "cancelled")
    off = off.join(already, on="file_row", how="anti")
    rows = pl.concat([stages.select(off.columns), off]).sort("file_row", maintain_order=True)
    numbered, origins = numbered_by_cell(rows.rename({"file_row": "row"}))
    if grid.origins is not None:  # rows were made of columns before
        before = grid.origins.select(row="file_row", _row="row")
        origins = origins.join(before, on="row", how="left", maintain_order="left")
        origins = origins.select("file_row", row="_row", cell="cell")
    names = (*named, "stage", "reached_at")
    return Grid(names, names, grid.header_row, numbered.select("file_row", *names),
                grid.from_1904, origins, grid.titles)  # fmt: skip


def _dated(stages: pl.DataFrame, grid: Grid, label: str, findings: Findings) -> pl.DataFrame:
    """Leave out the stages that are only ticked, or marked as not there, and tell each."""
    for said, words in _NO_DATES.items():
        undated = pl.col("reached_at").str.to_lowercase().is_in(list(words))
        cells = stages.filter(undated).select("file_row", "cell", "reached_at")
        for row, heading, value in cells.iter_rows():
            findings.tell(label, said, grid.row_shown(row), heading, value)
        stages = stages.filter(~undated)
    return stages
