"""Intake: tables of files become rows of the store, in three steps - read, check, write."""

from seasonboard.store.intake.export import export_path, export_tables, write_tables
from seasonboard.store.intake.load_files import Dialogue, load_paths
from seasonboard.store.intake.load_options import LoadOptions
from seasonboard.store.intake.plan import CellChange, LoadPlan, plan_load
from seasonboard.store.intake.prospects import read_prospect
from seasonboard.store.intake.undo import plan_undo, undo_last_load, undo_path
from seasonboard.store.intake.write import write_load
from seasonboard.store_outcomes import ExportedTable, TablePlan, UndoneLoad

__all__ = [
    "CellChange",
    "Dialogue",
    "ExportedTable",
    "LoadOptions",
    "LoadPlan",
    "TablePlan",
    "UndoneLoad",
    "export_path",
    "export_tables",
    "load_paths",
    "plan_load",
    "plan_undo",
    "read_prospect",
    "undo_last_load",
    "undo_path",
    "write_load",
    "write_tables",
]
