"""Two places with a store each, that send each other bundles."""

from pathlib import Path

import polars as pl

from seasonboard.load_options import LoadOptions
from seasonboard.store.bundles.packing import packed_bundle
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.plan import LoadPlan, plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import Store
from seasonboard.stored_tables import TABLES
from tests.intake.desk import SMALL_SEASON

TEAMS = {name: SMALL_SEASON[name] for name in ("departments", "teams", "roster")}


class Place:
    """A store, and a folder for what it loads and sends."""

    def __init__(self, store: Store, folder: Path) -> None:
        self.store = store
        self.folder = folder
        folder.mkdir(parents=True, exist_ok=True)

    def load(self, **tables: str) -> int:
        """Load CSV tables; return the number of the load."""
        paths = [self.folder / f"{name}.csv" for name in tables]
        for path, text in zip(paths, tables.values(), strict=True):
            path.write_bytes(text.encode())
        return write_load(self.store, plan_load(self.store, paths))

    def bundle(self, since: int = 0) -> Path:
        """Write a bundle of what came after a load."""
        path = self.folder / f"since {since} up to {self.last}.bundle"
        path.write_bytes(packed_bundle(self.store, since)[0])
        return path

    def take(self, bundle: Path, **wishes: object) -> LoadPlan:
        """Load a bundle."""
        plan = plan_load(self.store, [bundle], LoadOptions(**wishes))
        write_load(self.store, plan)
        return plan

    @property
    def last(self) -> int:
        return int(self.store.read("store/last_load")["load_no"].item())

    @property
    def content(self) -> dict[str, list[tuple[object, ...]]]:
        """Return all rows of all tables."""
        return {name: frame.rows() for name, frame in export_tables(self.store).items()}

    def everything(self) -> dict[str, list[tuple[object, ...]]]:
        """Return all that the store holds, what it knows of loads and origins too."""
        held = (*TABLES, "athletes", "loads", "load_tables", "changes", "marks", "origins")
        cursor = self.store._connection.cursor()
        return {name: cursor.execute(f"FROM store.{name} ORDER BY ALL").fetchall() for name in held}

    def cell(self, table: str, column: str, **key: str) -> object:
        """Return one cell."""
        rows = export_tables(self.store)[table]
        return rows.filter(*(pl.col(name) == value for name, value in key.items()))[column].item()


def changed(plan: LoadPlan) -> list[tuple[str, str, str | None, str | None]]:
    """Return the cells a plan changes: row, column, old, new."""
    columns = ["row_key", "column_name", "old_value", "new_value"]
    return plan.changes.select(columns).rows() if plan.changes.width else []
