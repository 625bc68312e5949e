"""Intake: CSV tables become rows of the store, in three steps - read, check, write."""

from seasonboard.store.intake.action import load_paths
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.plan import CellChange, LoadPlan, TablePlan, plan_load
from seasonboard.store.intake.tables import TABLES, Column, Holds, Table
from seasonboard.store.intake.write import write_load

__all__ = [
    "TABLES",
    "CellChange",
    "Column",
    "Holds",
    "LoadPlan",
    "Table",
    "TablePlan",
    "export_tables",
    "load_paths",
    "plan_load",
    "write_load",
]
