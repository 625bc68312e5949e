"""Reads workbooks and Parquet files in a process of their own, which may fail without harm.

Their readers are native code: a damaged or hostile file can end them, or make them ask for all
memory. CSV is read here: its text goes through Python and polars' reader of lines, which build no
more than the file holds, and a process more would cost the largest loads a tenth and more.
"""

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import BinaryIO

from seasonboard.file_limits import BYTES_A_SECOND, LEAST_SECONDS, MIB, MOST_MEMORY
from seasonboard.store.gate.reply import blocks
from seasonboard.store.intake.decoding import refused

_ROOT = Path(__file__).resolve().parents[3]
_AGAIN = "Save its sheets as CSV (UTF-8)."
DAMAGED = {
    "workbook": "cannot be read as a workbook: it is damaged or locked with a password. Save it "
    "again without one, or as CSV (UTF-8).",
    "parquet": "cannot be read as Parquet; it is damaged. Write it again, or save it as CSV "
    "(UTF-8).",
    "parts": "holds a part which cannot be read as Parquet. Have it made or sent again.",
}
"""What each kind of reader says of a file that it could not read."""


class ReaderEndedError(Exception):
    """The process that read a file ended by a fault; the text is the last that it wrote."""


def read_apart(
    kind: str, data: bytes, label: str, sizes: Mapping[str, int] | None = None
) -> Iterator[bytes]:
    """Return what the reader of a kind of file says of it, block by block.

    Args:
        kind: A key of `DAMAGED`.
        data: The file, or several one after the other.
        label: The file, for messages.
        sizes: The names and lengths of several, in their order.

    Raises:
        IntakeError: It is more than is read, cannot be read, or took too long or too much memory.
    """
    with tempfile.TemporaryFile() as reply:
        _run(kind, data, label, sizes or {}, reply)
        reply.seek(0)
        parts = blocks(reply)
        verdict = json.loads(next(parts))
        if "refused" in verdict:
            raise refused(label, None, verdict["refused"])
        yield from parts


def seconds_for(size: int) -> int:
    """Return how long the reading of a file of so many bytes may take."""
    return LEAST_SECONDS + size // BYTES_A_SECOND


def _run(kind: str, data: bytes, label: str, sizes: Mapping[str, int], reply: BinaryIO) -> None:
    limit = seconds_for(len(data))
    command = [sys.executable, "-P", "-m", "seasonboard.store.gate.worker", kind, str(limit)]
    paths = (str(_ROOT), os.environ.get("PYTHONPATH", ""))
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, paths))}
    environment["POLARS_MAX_THREADS"] = "2"  # each thread reserves memory of the limit
    with tempfile.TemporaryFile() as errors:
        try:
            done = subprocess.run(  # noqa: S603 - our own interpreter and module
                [*command, *(f"{name}={size}" for name, size in sizes.items())],
                input=data,
                stdout=reply,
                stderr=errors,
                env=environment,
                timeout=limit,
                check=False,
            )
        except subprocess.TimeoutExpired as error:
            said = f"took longer than {limit} seconds to read: it is damaged, or holds far more "
            raise refused(label, None, f"{said}than a table does. {_AGAIN}") from error
        if done.returncode == 0:
            return
        errors.seek(0, os.SEEK_END)
        errors.seek(max(0, errors.tell() - 2000))
        last = errors.read().decode("utf-8", errors="replace")
    said = DAMAGED[kind]
    if done.returncode < 0 and kind != "parts":
        said = "ended the reader: it is damaged, or needs more memory than the "
        said += f"{MOST_MEMORY // MIB // 1024} GB that reading is given. {_AGAIN}"
    raise refused(label, None, said) from ReaderEndedError(last)
