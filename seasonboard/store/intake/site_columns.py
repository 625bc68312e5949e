"""A column for every site, ticked: “Shin L”, “Shin R”, “Thumb”; a row for each tick."""

from collections.abc import Sequence
from dataclasses import replace

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.grid import Grid, numbered_by_cell
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.synonyms import Synonyms

KIND, SIDE = "kind (by its column)", "side (by its column)"
_TICKS = frozenset({"x", "✓", "✔", "√", "yes", "y", "1", "•", "true", "l", "r"})


def site_headings(
    headings: Sequence[str], column: str, names: Sequence[str], synonyms: Synonyms
) -> dict[str, str]:
    """Return heading → kind and side, “shin left”, of the headings that name a site.

    Args:
        headings: The headings that nothing else is read from.
        column: `kind` of a guard, or `area` of the body.
        names: The kinds or areas there are.
        synonyms: What kinds and sides are called.
    """
    known = {folded(name): str(name) for name in names}
    spellings = synonyms.words.get(column, {})
    known = {one: name for one, name in spellings.items() if name in names} | known
    sites = {}
    for heading in headings:
        bare, named = synonyms.parted_from_sides(heading)
        kind = known.get(bare) or known.get(bare.removesuffix("s"))
        if kind and len(named) <= 1:
            sites[heading] = f"{kind} {named[0] if named else ''}".strip()
    return sites


def are_ticks(cells: pl.Series) -> bool:
    """Say whether the cells of a column are ticks."""
    return all(cell.strip().casefold() in _TICKS for cell in cells)


def site_rows(grid: Grid, sites: dict[str, str], label: str, findings: Findings) -> Grid:
    """Return one row for every ticked site of a row, its kind and side in columns of their own.

    Args:
        grid: The sheet.
        sites: Heading → kind and side.
        label: The sheet, for notes.
        findings: Takes a note on rows that became several, and on rows without a tick.
    """
    places = {folded(heading): column for heading, column in grid.places.items()}
    columns = {places[folded(one)]: one for one in sites if folded(one) in places}
    body = grid.body
    ticks = body.unpivot(list(columns), index="file_row", value_name="_tick").drop_nulls("_tick")
    named = ticks.with_columns(
        _heading=pl.col("variable").replace_strict(columns, return_dtype=pl.String)
    ).with_columns(_site=pl.col("_heading").replace_strict(sites, return_dtype=pl.String))
    side = pl.col("_site").str.extract(r" (left|right|both)$")
    kind = pl.col("_site").str.replace(r" (left|right|both)$", "")
    named = named.with_columns(**{SIDE: side, KIND: kind}).sort("file_row", maintain_order=True)
    several = named.filter(pl.len().over("file_row") > 1)["file_row"].unique().sort()
    if len(several):
        shown = ", ".join(map(str, several.head(5)))
        said = f"ticks more than one site (row {shown}); a row was made of each."
        findings.note(Problem(label, int(several[0]), None, None, said))
    bare = body.join(named, on="file_row", how="anti")["file_row"]
    if len(bare):
        said = f"ticks no site (row {', '.join(map(str, bare))}); no row was made of it."
        findings.note(Problem(label, int(bare[0]), None, None, said))
    rest = body.drop(list(columns))
    rows = named.join(rest, on="file_row", how="inner", maintain_order="left")
    made, origins = numbered_by_cell(rows.rename({"file_row": "row", "_heading": "cell"}))
    struck = origins.filter(pl.col("row").is_in(list(grid.struck)))["file_row"]
    kept = [name for name in grid.columns if name not in columns]
    headings = tuple(h for h, name in grid.places.items() if name not in columns)
    return replace(
        grid,
        headings=(*headings, KIND, SIDE),
        columns=(*kept, KIND, SIDE),
        body=made.select("file_row", *kept, KIND, SIDE),
        origins=origins,
        struck=tuple(struck),
    )
