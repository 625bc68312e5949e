"""Reading a bundle: its frames, once all of them are what the manifest says they are."""

import hashlib
import io
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import polars as pl

from seasonboard.regular_files import UnusableFileError, read_regular
from seasonboard.store.bundles.archive import MOST_BYTES, unpack
from seasonboard.store.bundles.manifest import LOG, BundlePart, Manifest, damaged_bundle
from seasonboard.store.bundles.origins import CELL, MOMENT
from seasonboard.store.catalogue import migrations
from seasonboard.store.gate.reader_process import FileReader
from seasonboard.store.intake.decoding import refused
from seasonboard.stored_tables import TABLES

MOST_ROWS = 20_000_000
"""Rows of one part: more than any season has."""

_TEXT = pl.String()
_LOG_TYPES: Mapping[str, Mapping[str, pl.DataType]] = {
    LOG["marks"]: {"mark": _TEXT, "made_at": MOMENT, "before": pl.Boolean()},
    LOG["stamps"]: {**dict.fromkeys(CELL, _TEXT), "mark": _TEXT},
    LOG["changes"]: {"load_no": pl.Int32(), **dict.fromkeys(CELL, _TEXT), "old_value": _TEXT},
}


@dataclass(frozen=True, slots=True)
class UnpackedBundle:
    """A bundle as it was read: its manifest, tables by name, and its three logs."""

    manifest: Manifest
    sha256: str
    tables: Mapping[str, pl.DataFrame]
    marks: pl.DataFrame
    stamps: pl.DataFrame
    changes: pl.DataFrame


def read_bundle(path: Path, label: str) -> UnpackedBundle:
    """Return what a bundle holds.

    Raises:
        IntakeError: It cannot be read, or is not what it says it is.
    """
    try:
        data = read_regular(path, MOST_BYTES)
    except UnusableFileError as error:
        raise refused(label, None, str(error)) from error
    except OSError as error:
        raise refused(label, None, f"cannot be read: {error.strerror}.") from error
    manifest, parts = unpack(data, label)
    is_older = manifest.schema < migrations()[-1][0]
    if any(one.rows > MOST_ROWS for one in manifest.parts):
        raise refused(label, None, f"holds more than {MOST_ROWS:,} rows, which no bundle does.")
    sizes = {name: len(part) for name, part in parts.items()}
    with FileReader() as reader:
        read = reader.read("parts", b"".join(parts.values()), label, sizes)
        by_name = {
            name: pl.read_ipc(io.BytesIO(frame)) for name, frame in zip(parts, read, strict=True)
        }
    frames = {
        one.name: _as_listed(by_name[one.name], one, label, is_older=is_older)
        for one in manifest.parts
    }
    tables = {one.table: frames[one.name] for one in manifest.parts if one.table}
    logs = {name: frames[part] for name, part in LOG.items()}
    return UnpackedBundle(manifest, hashlib.sha256(data).hexdigest(), tables, **logs)


def _as_listed(
    frame: pl.DataFrame, part: BundlePart, label: str, *, is_older: bool
) -> pl.DataFrame:
    """Return one part, once its columns and its rows were compared with the list of parts.

    A bundle of an older version may lack columns that rows can do without.
    """
    wanted = TABLES[part.table].frame_types if part.table else _LOG_TYPES[part.name]
    columns = dict(frame.schema)
    if is_older and part.table and columns.keys() >= set(TABLES[part.table].required):
        wanted = {name: kind for name, kind in wanted.items() if name in columns}
    if columns != dict(wanted) or frame.height != part.rows:
        said = f"holds other columns or rows in {part.name} than its list of parts says."
        raise damaged_bundle(label, said)
    return frame
