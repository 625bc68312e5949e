"""A season in which everything that may name a person is unmistakable."""

import re
from pathlib import Path

import polars as pl

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake.load_files import load_paths

ROOT = Path(__file__).resolve().parents[2]
TELLING = re.compile(r"zq|Quagmire|Zebulon", re.ASCII)
"""Stands in every name, key, jersey and note of the season; no code has small letters."""

_KEYS = {
    "athlete": "zqa-",
    "guard": "zqg-",
    "remake_of": "zqg-",
    "injury": "zqi-",
    "offer": "zqo-",
    "decision": "zqd-",
}
_TEXT = ("note", "label", "text", "reason")


def quagmires(folder: Path) -> Path:
    """Load the sample season with every person called Zebulon Quagmire; return the store."""
    for path in sorted((ROOT / "sample_season").glob("*.csv")):
        table = pl.read_csv(path, infer_schema=False)
        table.with_columns(_named(table, path.stem)).write_csv(folder / path.name)
    store = folder / "quagmire.duckdb"
    load_paths(store, [folder], UnattendedLoad())
    return store


def _named(table: pl.DataFrame, name: str) -> list[pl.Expr]:
    made = [
        (pl.lit(_KEYS[column]) + pl.col(column)).alias(column)
        for column in table.columns
        if column in _KEYS
    ]
    if name == "roster":
        made.append((pl.lit("Zebulon Quagmire ") + pl.col("athlete")).alias("name"))
        made.append(pl.lit("zq7").alias("jersey"))
    typed = [c for c in table.columns if c in _TEXT and (name, c) != ("attendance", "reason")]
    return [*made, *(pl.lit("Zebulon Quagmire said so, zq").alias(c) for c in typed)]
