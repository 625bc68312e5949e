"""The rows of Parquet files, once their rows, columns and unpacked bytes were counted."""

import io
from collections.abc import Mapping
from typing import BinaryIO

import polars as pl

from seasonboard.file_limits import MIB, MOST_CELLS, MOST_COLUMNS, MOST_UNPACKED
from seasonboard.store.gate.parquet_footer import Footer, FooterError, read_footer
from seasonboard.store.gate.reply import RefusedFileError, write_block, write_words

_DAMAGED = "cannot be read as Parquet; it is damaged, or its text is not UTF-8. Write it again, or "
_DAMAGED += "save it as CSV (UTF-8)."
_NO_PART = "holds {}, which cannot be read as Parquet. Have it made or sent again."
_FAULTS = (pl.exceptions.PolarsError, pl.exceptions.PanicException, OSError)


def write_text(data: bytes, out: BinaryIO) -> None:
    """Write one block of names, and one with the rows as text (Arrow IPC), columns by number.

    Raises:
        RefusedFileError: It is damaged, more than is read, or holds what is no plain value.
    """
    footer = _measured(data)
    if footer.columns > MOST_COLUMNS:
        said = f"has {footer.columns:,} columns; at most {MOST_COLUMNS:,} are read."
        raise RefusedFileError(said)
    if footer.rows * footer.columns > MOST_CELLS:
        said = f"has {footer.rows * footer.columns:,} cells ({footer.rows:,} rows); at most "
        raise RefusedFileError(f"{said}{MOST_CELLS:,} are read. Load it in parts.")
    try:
        frame = pl.read_parquet(io.BytesIO(data))
        names = frame.columns
        _check_plain(frame)
        bytes_ = [name for name, kind in frame.schema.items() if kind == pl.Binary]
        frame = frame.with_columns(_decoded(frame[name]) for name in bytes_)
        text = frame.select(
            _text(name, kind).alias(f"column_{place}")
            for place, (name, kind) in enumerate(frame.schema.items(), 1)
        )
        written = _as_ipc(text)
    except _FAULTS as error:
        raise RefusedFileError(_DAMAGED) from error
    write_words(out, {})
    write_words(out, names)
    write_block(out, written)


def write_parts(data: bytes, sizes: Mapping[str, int], out: BinaryIO) -> None:
    """Write the parts of a bundle as Arrow IPC, a block each.

    Raises:
        RefusedFileError: One is damaged, or more than is read.
    """
    frames, place, unpacked = [], 0, 0
    for name, size in sizes.items():
        part = data[place : place + size]
        place += size
        try:
            unpacked += read_footer(part).unpacked
        except FooterError as error:
            raise RefusedFileError(_NO_PART.format(name)) from error
        if unpacked > MOST_UNPACKED:
            said = f"unpacks to more than {MOST_UNPACKED // MIB // 1024} GB, which no bundle does."
            raise RefusedFileError(said)
        try:
            frames.append(_as_ipc(pl.read_parquet(io.BytesIO(part))))
        except _FAULTS as error:
            raise RefusedFileError(_NO_PART.format(name)) from error
    write_words(out, {})
    for frame in frames:
        write_block(out, frame)


def _measured(data: bytes) -> Footer:
    try:
        footer = read_footer(data)
    except FooterError as error:
        raise RefusedFileError(_DAMAGED) from error
    if footer.unpacked > MOST_UNPACKED:
        said = f"unpacks to more than {MOST_UNPACKED // MIB // 1024} GB. Load it in parts."
        raise RefusedFileError(said)
    return footer


def _check_plain(frame: pl.DataFrame) -> None:
    nested = [
        name
        for name, kind in frame.schema.items()
        if kind.is_nested() or kind in {pl.Object, pl.Unknown}
    ]
    if nested:
        said = f"holds lists or structures in {', '.join(nested[:10])}; only plain columns can be "
        raise RefusedFileError(f"{said}read.")


def _text(name: str, kind: pl.DataType) -> pl.Expr:
    column = pl.col(name)
    if isinstance(kind, pl.Datetime):
        zone = "%:z" if kind.time_zone else ""
        return column.dt.strftime(f"%Y-%m-%dT%H:%M:%S%.f{zone}")
    if isinstance(kind, pl.Duration):
        minutes = (column.dt.total_microseconds() / 60_000_000).round(6)
        return pl.format("{} min", minutes.cast(pl.String).str.strip_suffix(".0"))
    if kind.is_float():
        return column.cast(pl.String).str.strip_suffix(".0")
    return column.cast(pl.String)


def _decoded(cells: pl.Series) -> pl.Series:
    """Return bytes as text; those that are none would be lost without a word, and are refused."""
    texts = []
    for row, cell in enumerate(cells, 2):
        try:
            texts.append(None if cell is None else bytes(cell).decode("utf-8"))
        except UnicodeDecodeError as error:
            said = f"holds bytes that are no text in UTF-8, in column {cells.name}, row {row:,}. "
            said += "Write it as text, or save the table as CSV (UTF-8)."
            raise RefusedFileError(said) from error
    return pl.Series(cells.name, texts, dtype=pl.String)


def _as_ipc(frame: pl.DataFrame) -> bytes:
    written = io.BytesIO()
    frame.write_ipc(written)
    return written.getvalue()
