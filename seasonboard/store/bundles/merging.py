"""Who changed a cell last: cells that differ here and there are settled, or put to a person.

A cell that one side has seen and changed since is newer on that side. Where neither has seen the
other's value, a value that the other side once had and left is the older one. What is left was
changed on both sides since they last agreed: a conflict.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import polars as pl

from seasonboard.store.bundles.origins import CELL, ROW, SHIPPED, Stamps, marks_of, stamps_of
from seasonboard.store.bundles.unpacking import UnpackedBundle
from seasonboard.store.intake.row_keys import as_text, row_key
from seasonboard.store.store import Store
from seasonboard.stored_column import StoredTable

HELD = "_held"


@dataclass(frozen=True, slots=True)
class BundledRows:
    """The rows of one table in a bundle beside those held here (`…_held`; null where new)."""

    table: StoredTable
    rows: pl.DataFrame

    @property
    def new(self) -> pl.DataFrame:
        """Return the keys of the rows that are not here yet."""
        fresh = self.rows.filter(pl.col(HELD).is_null())
        return fresh.select("row_key", table_name=pl.lit(self.table.name))

    @property
    def differing(self) -> pl.DataFrame:
        """Return the cells that differ: `table_name`, `row_key`, `column_name`, `here`, `there`."""
        rest = [name for name in self.table.names if name not in self.table.key]
        parts = [
            self.rows.filter(
                pl.col(HELD).is_not_null() & pl.col(name).ne_missing(pl.col(name + HELD))
            ).select(
                "row_key",
                table_name=pl.lit(self.table.name),
                column_name=pl.lit(name),
                here=as_text(self.rows, name + HELD),
                there=as_text(self.rows, name),
            )
            for name in rest
        ]
        empty = pl.DataFrame(schema=dict.fromkeys((*CELL, "here", "there"), pl.String))
        return pl.concat([empty, *(part.select(empty.columns) for part in parts)])

    def keeping(self, cells: pl.DataFrame) -> pl.DataFrame:
        """Return the incoming rows with the values held here in `cells`."""
        rows = self.rows
        mine = cells.filter(pl.col("table_name") == self.table.name)
        for (column,), part in mine.partition_by("column_name", as_dict=True).items():
            name = str(column)
            stays = pl.col("row_key").is_in(part["row_key"].implode())
            held = pl.when(stays).then(pl.col(name + HELD)).otherwise(pl.col(name))
            rows = rows.with_columns(held.alias(name))
        return rows.select("file_no", "file_row", *self.table.names)


def beside_stored(table: StoredTable, rows: pl.DataFrame, stored: pl.DataFrame) -> BundledRows:
    """Lay the rows of a bundle beside the stored ones."""
    held = stored.with_columns(pl.lit(True).alias(HELD))
    both = rows.join(held, on=list(table.key), how="left", suffix=HELD, maintain_order="left")
    return BundledRows(table, both.with_columns(row_key=row_key(table, both)))


def with_newer(cells: pl.DataFrame, bundle: UnpackedBundle, store: Store) -> pl.DataFrame:
    """Say of every differing cell where its newer value stands; the store is only read.

    Returns:
        The cells with `newer` (`here`, `there`, or null for a conflict), the marks of both values
        (`mark_here`, `mark_there`) and when their loads were made (`made_here`, `made_there`).
    """
    marks = marks_of(store)
    here = stamps_of(store, cells["table_name"].unique().to_list(), marks)
    whole = bundle.stamps.filter(pl.col("column_name").is_null())
    there = Stamps(whole, bundle.stamps.drop_nulls("column_name"))
    both = _stamped(_stamped(cells, here, "mark_here"), there, "mark_there")
    made = pl.concat([marks.select("mark", "made_at"), bundle.marks.select("mark", "made_at")])
    for side in ("here", "there"):
        named = made.unique("mark").rename({"mark": f"mark_{side}", "made_at": f"made_{side}"})
        both = both.join(named, on=f"mark_{side}", how="left")
    both = _with_left_values(both, store.read("bundle/changes"), "there", "left_here")
    both = _with_left_values(both, bundle.changes, "here", "left_there")
    seen_here = pl.col("mark_there").is_in([SHIPPED, *marks["mark"]])
    seen_there = pl.col("mark_here").is_in([SHIPPED, *bundle.marks["mark"]])
    unseen = ~seen_here & ~seen_there
    stays = (seen_here & ~seen_there) | (unseen & pl.col("left_here") & ~pl.col("left_there"))
    goes = (seen_there & ~seen_here) | (unseen & pl.col("left_there") & ~pl.col("left_here"))
    newer = pl.when(stays).then(pl.lit("here")).when(goes).then(pl.lit("there"))
    return both.with_columns(newer=newer).sort(CELL)


def _stamped(cells: pl.DataFrame, stamps: Stamps, name: str) -> pl.DataFrame:
    """Add the mark of each cell: its own, else that of its row, else a mark nobody knows."""
    own = stamps.cells.select(*CELL, _cell="mark").unique(CELL)
    row = stamps.rows.select(*ROW, _row="mark").unique(ROW)
    both = cells.join(own, on=list(CELL), how="left").join(row, on=list(ROW), how="left")
    return both.with_columns(pl.coalesce("_cell", "_row", pl.lit("")).alias(name)).drop(
        "_cell", "_row"
    )


def _with_left_values(
    cells: pl.DataFrame, log: pl.DataFrame, value: str, name: str
) -> pl.DataFrame:
    """Add whether a log has the cell leave the value that stands in column `value`."""
    old = log.select(*CELL, pl.col("old_value").alias(value), pl.lit(True).alias(name)).unique()
    both = cells.join(old, on=[*CELL, value], how="left", nulls_equal=True)
    return both.with_columns(pl.col(name).fill_null(False))


def last_agreed(cells: pl.DataFrame, bundle: UnpackedBundle, store: Store) -> pl.DataFrame:
    """Add the last value that both sides once had in each cell: `agreed`, `was_agreed`."""
    ours = store.read("bundle/changes").select("load_no", *CELL, "old_value")
    theirs = bundle.changes.select(*CELL, "old_value").unique()
    common = ours.join(theirs, on=[*CELL, "old_value"], how="semi", nulls_equal=True)
    last = common.sort("load_no").unique(CELL, keep="last")
    last = last.select(*CELL, agreed="old_value", was_agreed=pl.lit(True))
    return cells.join(last, on=list(CELL), how="left", maintain_order="left")


def origins_of(
    tables: Mapping[str, BundledRows],
    taken: pl.DataFrame,
    decided: pl.DataFrame,
    bundle: UnpackedBundle,
) -> pl.DataFrame:
    """Return what `origins` learns: marks of new rows, of taken cells, none for decided ones.

    In `decided` conflicts the value here was kept: the load that decides is their origin.
    """
    columns = [*CELL, "mark"]
    none = pl.DataFrame(schema=dict.fromkeys(columns, pl.String))
    fresh = pl.concat([none.select(ROW), *(one.new.select(ROW) for one in tables.values())])
    new = bundle.stamps.select(columns).join(fresh, on=list(ROW), how="semi")
    of_taken = taken.select(*CELL, mark="mark_there")
    return pl.concat([new, of_taken, decided.select(*CELL, mark=pl.lit(None, pl.String))])
