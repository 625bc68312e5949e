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
from itertools import count
from pathlib import Path
from threading import Timer
from typing import Any, Self

from seasonboard.errors import IntakeError
from seasonboard.file_limits import BYTES_A_SECOND, LEAST_SECONDS, MIB, MOST_MEMORY
from seasonboard.store.gate.reply import DONE, blocks
from seasonboard.store.intake.decoding import refused

_ROOT = Path(__file__).resolve().parents[3]
_GRACE_SECONDS = 5
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


class FileReader:
    """One process for all files of a load or a bundle, started when the first is read.

    A file that ends it is named, and the next is read by a new one. Use it as a context.
    """

    def __init__(self) -> None:
        """Start nothing yet."""
        self._process: subprocess.Popen[bytes] | None = None
        self._folder: tempfile.TemporaryDirectory[str] | None = None
        self._numbers = count(1)

    def __enter__(self) -> Self:
        """Return it."""
        return self

    def __exit__(self, *_raised: object) -> None:
        """End the process, whatever it does."""
        if self._process is not None:
            self._process.kill()
        self._end()
        if self._folder is not None:
            self._folder.cleanup()

    def read(
        self, kind: str, data: bytes, label: str, sizes: Mapping[str, int] | None = None
    ) -> Iterator[bytes]:
        """Return what the reader of a kind of file says of it, block by block.

        Args:
            kind: A key of `DAMAGED`.
            data: The file, or several one after the other.
            label: The file, for messages.
            sizes: The names and lengths of several, in their order.

        Raises:
            IntakeError: It is more than is read, cannot be read, or took too long or too much
                memory.
        """
        asked = {"kind": kind, "size": len(data), "sizes": sizes or {}}
        is_first = self._process is None
        reply = self._reply(asked, data, label)
        if not is_first and (reply is None or "is_short" in reply[0]):
            self._end()  # what was read before may have kept memory: once more, with all of it
            reply = self._reply(asked, data, label)
        if reply is None:
            raise self._ended(kind, label)
        if "refused" in reply[0]:
            raise refused(label, None, reply[0]["refused"])
        return reply[1]

    def _reply(
        self, asked: Mapping[str, Any], data: bytes, label: str
    ) -> tuple[dict[str, Any], Iterator[bytes]] | None:
        """Return the verdict on a file and what follows it; None when the process ended."""
        process = self._process = self._process or self._started()
        limit = seconds_for(len(data))
        path = self._path(str(next(self._numbers)))
        late: list[bool] = []

        def stop() -> None:
            late.append(True)
            process.kill()

        timer = Timer(limit, stop)
        timer.start()
        is_done = _is_read(process, {**asked, "seconds": limit, "reply": str(path)}, data)
        timer.cancel()
        if is_done:
            parts = blocks(path)
            return json.loads(next(parts)), parts
        if late:
            self._end()
            said = f"took longer than {limit} seconds to read: it is damaged, or holds far more "
            raise refused(label, None, f"{said}than a table does. {_AGAIN}")
        return None

    def _started(self) -> subprocess.Popen[bytes]:
        paths = (str(_ROOT), os.environ.get("PYTHONPATH", ""))
        environment = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, paths))}
        environment["POLARS_MAX_THREADS"] = "2"  # each thread reserves memory of the limit
        with self._path("errors").open("wb") as errors:
            return subprocess.Popen(
                [sys.executable, "-P", "-m", "seasonboard.store.gate.worker"],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=errors,
                env=environment,
            )

    def _path(self, name: str) -> Path:
        """Return where the process writes something, in a folder made when it is needed."""
        self._folder = self._folder or tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        return Path(self._folder.name, name)

    def _ended(self, kind: str, label: str) -> IntakeError:
        """Return the refusal of the file that ended the process."""
        status = self._end()
        last = self._path("errors").read_bytes()[-2000:].decode("utf-8", errors="replace")
        said = DAMAGED[kind]
        if status < 0 and kind != "parts":
            said = "ended the reader: it is damaged, or needs more memory than the "
            said += f"{MOST_MEMORY // MIB // 1024} GB that reading is given. {_AGAIN}"
        error = refused(label, None, said)
        error.__cause__ = ReaderEndedError(last)
        return error

    def _end(self) -> int:
        """End the process, if there is one; return its status, once it had time to end itself."""
        process, self._process = self._process, None
        if process is None:
            return 0
        try:
            process.communicate(timeout=_GRACE_SECONDS)
        except subprocess.TimeoutExpired:
            process.kill()
            process.communicate()
        return process.returncode


def _is_read(process: subprocess.Popen[bytes], asked: Mapping[str, Any], data: bytes) -> bool:
    """Give a file to the process; say whether its reply is whole, or the process ended instead."""
    there, back = process.stdin, process.stdout
    if there is None or back is None:
        return False
    try:
        there.write(json.dumps(asked).encode() + b"\n")
        there.write(data)
        there.flush()
    except OSError:  # before all of the file had gone to it
        return False
    return back.readline() == DONE


def seconds_for(size: int) -> int:
    """Return how long the reading of a file of so many bytes may take."""
    return LEAST_SECONDS + size // BYTES_A_SECOND
