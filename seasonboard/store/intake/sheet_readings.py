"""A proposal heading by heading, so that a person can give one another meaning."""

from collections.abc import Sequence

from seasonboard.sheet_readings import HeadingReading, SheetReading
from seasonboard.store.intake.grid_proposal import LABEL_COLUMNS
from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.mapping import LEFT_OUT, SheetMapping
from seasonboard.store.intake.mapping_draft import examples, few_of
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.stored_tables import TABLES


def sheet_readings(
    parts: Sequence[tuple[OpenSheet, tuple[SheetMapping, ...]]],
) -> tuple[SheetReading, ...]:
    """Return how sheets are read: `parts` are those of a proposal."""
    return tuple(_reading(sheet, mappings) for sheet, mappings in parts)


def _reading(sheet: OpenSheet, parts: tuple[SheetMapping, ...]) -> SheetReading:
    first, grid = parts[0], sheet.date_grid
    if first.table == LEFT_OUT:
        return SheetReading(sheet.label, sheet.name, ())
    headings = grid.labels if grid else sheet.grid.headings
    return SheetReading(
        sheet.label,
        sheet.name,
        tuple(dict.fromkeys(part.table for part in parts)),
        tuple(
            HeadingReading(
                one,
                _meaning(one, parts),
                few_of(grid.people[one].drop_nulls()) if grid else examples(sheet.grid, one),
            )
            for one in headings
        ),
        LABEL_COLUMNS if grid else tuple(own_columns(TABLES[first.table])),
        may_skip=grid is None,
    )


def _meaning(heading: str, parts: tuple[SheetMapping, ...]) -> str:
    first = parts[0]
    meant = [name for name, many in first.columns.items() if heading in many]
    meant += [f"a tick for {part.sites[heading]}" for part in parts[:1] if heading in part.sites]
    meant += [f"a stage {part.stages[heading]}" for part in parts if heading in part.stages]
    return ", ".join(meant)
