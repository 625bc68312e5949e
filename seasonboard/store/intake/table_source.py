"""The rows of one table in one sheet, before they are read."""

from dataclasses import dataclass

from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.mapping import SheetMapping


@dataclass(frozen=True, slots=True)
class TableSource:
    """The rows of one table in one sheet; `mapping` says how, None in the table's own words."""

    table: str
    label: str
    sha256: str
    grid: Grid
    mapping: SheetMapping | None = None
