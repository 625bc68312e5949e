"""What the sample season is made from, as files beside the code: words, rates and dates."""

import tomllib
from pathlib import Path
from typing import Any

import polars as pl

_FOLDER = Path(__file__).parent


def toml_file(name: str) -> dict[str, Any]:
    """What a TOML file beside the code holds."""
    return tomllib.loads((_FOLDER / f"{name}.toml").read_text("utf-8"))


def csv_file(name: str) -> pl.DataFrame:
    """The rows of a CSV file beside the code."""
    return pl.read_csv(_FOLDER / f"{name}.csv", try_parse_dates=True)
