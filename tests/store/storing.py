"""`python -m tests.store.storing` keeps a store of the current schema version, for later ones.

Run it once whenever a schema step is added, and commit the file. Its name is `v<version>.store`.
"""

import sys
import tempfile
from pathlib import Path

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.attaching import attach, connect, quoted
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.schema import newest_version
from tests.intake.desk import SMALL_SEASON

STORED = Path(__file__).with_name("stored")
CORRECTION = "team,department,sport,sex\nT2,D2,rowing,men\n"
SMALL_BLOCKS = 16384
"""Bytes: the least DuckDB takes, so that the file is small."""


def stored(version: int) -> Path:
    """Return where the store of a schema version is kept."""
    return STORED / f"v{version}.store"


def store_current() -> Path:
    """Load the small season and a correction into a store, and keep it; return the file."""
    target = stored(newest_version())
    with tempfile.TemporaryDirectory() as name:
        folder, whole = Path(name) / "tables", Path(name) / "whole.duckdb"
        folder.mkdir()
        for table, text in SMALL_SEASON.items():
            (folder / f"{table}.csv").write_text(text)
        load_paths(whole, [folder], UnattendedLoad())
        (folder / "teams.csv").write_text(CORRECTION)
        load_paths(whole, [folder / "teams.csv"], UnattendedLoad())
        connection = connect()
        attach(connection, whole, read_only=True)
        small = Path(name) / "small.duckdb"
        connection.execute(f"ATTACH {quoted(small)} AS small (BLOCK_SIZE {SMALL_BLOCKS})")
        connection.execute("COPY FROM DATABASE store TO small")
        connection.close()
        target.write_bytes(small.read_bytes())
    return target


if __name__ == "__main__":
    sys.stdout.write(f"{store_current()}\n")
