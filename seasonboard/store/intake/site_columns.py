"""A column for every site, ticked: “Shin L”, “Shin R”, “Thumb”; a row for each tick."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import polars as pl

from seasonboard.store.intake.grid import Grid, numbered_by_cell
from seasonboard.store.intake.problems import Findings, first_few
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import folded
from seasonboard.store.intake.word_spellings import with_sides_apart

KIND, SIDE = "kind (by its column)", "side (by its column)"
_TICKS = frozenset({"x", "✓", "✔", "√", "yes", "y", "1", "•", "true", "l", "r"})
_SIDE = r" (left|right|both)$"


def site_headings(
    headings: Sequence[str], column: str, names: Sequence[str], synonyms: Synonyms
) -> dict[str, str]:
    """Return heading → kind and side, “shin left”, of the headings that name a site.

    `column` is `kind` of a guard, or `area` of the body; `names` are the kinds or areas there are.
    """
    meant = with_sides_apart(headings, column, names, synonyms)
    return {one: " ".join((name, *sides)) for one, (name, sides) in meant.items() if len(sides) < 2}


def are_ticks(cells: pl.Series) -> bool:
    """Say whether the cells of a column are ticks."""
    return all(cell.strip().casefold() in _TICKS for cell in cells)


def site_rows(grid: Grid, sites: Mapping[str, str], label: str, findings: Findings) -> Grid:
    """Return one row for every ticked site of a row, its kind and side in columns of their own.

    `sites` is heading → kind and side. Rows that became several, and rows without a tick, are
    noted.
    """
    by_place = grid.folded_places
    columns = {by_place[folded(one)]: one for one in sites if folded(one) in by_place}
    body = grid.body
    ticks = body.unpivot(list(columns), index="file_row", value_name="_tick").drop_nulls("_tick")
    heading = pl.col("variable").replace_strict(columns, return_dtype=pl.String)
    site = heading.replace_strict(dict(sites), return_dtype=pl.String)
    sited = ticks.with_columns(
        heading.alias("_heading"),
        site.str.extract(_SIDE).alias(SIDE),
        site.str.replace(_SIDE, "").alias(KIND),
    ).sort("file_row", maintain_order=True)
    several = sited.filter(pl.len().over("file_row") > 1)["file_row"].unique().sort().to_list()
    if several:
        said = f"ticks more than one site (row {first_few(several)}); a row was made of each."
        findings.tell(label, said, several[0])
    bare = body.join(sited, on="file_row", how="anti")["file_row"].to_list()
    if bare:
        said = f"ticks no site (row {', '.join(map(str, bare))}); no row was made of it."
        findings.tell(label, said, bare[0])
    rows = sited.join(body.drop(*columns), on="file_row", how="inner", maintain_order="left")
    numbered, origins = numbered_by_cell(rows.rename({"file_row": "row", "_heading": "cell"}))
    others = {name: one for one, name in grid.places.items() if name not in columns}
    return replace(
        grid,
        headings=(*others.values(), KIND, SIDE),
        columns=(*others, KIND, SIDE),
        body=numbered.select("file_row", *others, KIND, SIDE),
        origins=origins,
        struck=tuple(origins.filter(pl.col("row").is_in(list(grid.struck)))["file_row"]),
    )
