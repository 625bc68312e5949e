"""What a load would change: new rows, changed cells, and what is there already."""

from dataclasses import dataclass

import polars as pl

from seasonboard.store.intake.row_keys import PLACE, as_text, count_by_file, row_key
from seasonboard.stored_column import StoredTable

_HELD = "_held"


@dataclass(frozen=True, slots=True)
class TableChanges:
    """The rows to write (new and changed, complete), the cells that change, counts by file number.

    `cells` has `file_no`, `file_row`, `table_name`, `row_key`, `column_name`, `old_value`,
    `new_value`, the last two as text.
    """

    to_write: pl.DataFrame
    cells: pl.DataFrame
    new: dict[int, int]
    changed: dict[int, int]
    same: dict[int, int]

    def counts(self, file_no: int) -> tuple[int, int, int]:
        """Return how many rows of one file are new, changed and the same."""
        return (self.new.get(file_no, 0), self.changed.get(file_no, 0), self.same.get(file_no, 0))


def compare(table: StoredTable, rows: pl.DataFrame, stored: pl.DataFrame) -> TableChanges:
    """Compare the incoming rows of one table with the stored ones, by key and cell by cell."""
    if stored.is_empty():
        to_write = rows.select(table.names)
        return TableChanges(to_write, _no_cells(), count_by_file(rows), {}, {})
    key = list(table.key)
    held = stored.with_columns(pl.lit(True).alias(_HELD))
    both = rows.join(held, on=key, how="left", suffix=_HELD, maintain_order="left")
    rest = [name for name in table.names if name not in key]
    other = [pl.col(name).ne_missing(pl.col(name + _HELD)) for name in rest]
    is_new, differs = pl.col(_HELD).is_null(), pl.any_horizontal(pl.lit(False), *other)
    new, changed = both.filter(is_new), both.filter(~is_new & differs)
    return TableChanges(
        both.filter(is_new | differs).select(table.names),
        _changed_cells(table, changed, rest),
        *(count_by_file(one) for one in (new, changed, both.filter(~is_new & ~differs))),
    )


def _changed_cells(table: StoredTable, changed: pl.DataFrame, columns: list[str]) -> pl.DataFrame:
    parts = [
        changed.filter(pl.col(name).ne_missing(pl.col(name + _HELD))).select(
            *PLACE,
            table_name=pl.lit(table.name),
            row_key=row_key(table, changed),
            column_name=pl.lit(name),
            old_value=as_text(changed, name + _HELD),
            new_value=as_text(changed, name),
        )
        for name in columns
    ]
    return pl.concat([_no_cells(), *parts]).sort(*PLACE, maintain_order=True)


def _no_cells() -> pl.DataFrame:
    text = dict.fromkeys(
        ("table_name", "row_key", "column_name", "old_value", "new_value"), pl.String
    )
    return pl.DataFrame(schema={"file_no": pl.UInt32, "file_row": pl.UInt32, **text})
