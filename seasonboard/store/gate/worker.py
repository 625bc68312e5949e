"""The process that reads files one after the other: `python -m seasonboard.store.gate.worker`.

By standard input come a line of JSON about a file, and the file. What is read of it goes into the
file that the line names; then standard output says that it is done.
"""

import json
import sys
from collections.abc import Mapping
from typing import BinaryIO

from seasonboard.file_limits import MIB, MOST_MEMORY, MOST_UNPACKED
from seasonboard.store.gate.reply import DONE, RefusedFileError, write_words


def read(kind: str, data: bytes, sizes: Mapping[str, int], out: BinaryIO) -> None:
    """Read a file and write its rows, or why it is refused."""
    try:
        if kind == "workbook":
            from seasonboard.store.gate.workbook_cells import write_cells

            write_cells(data, out)
        else:
            from seasonboard.store.gate.parquet_rows import write_parts, write_text

            if kind == "parquet":
                write_text(data, out)
            else:
                write_parts(data, sizes, out)
    except RefusedFileError as refused:
        _say_refused(out, str(refused))
    except MemoryError:
        said = f"needs more than {MOST_MEMORY // MIB // 1024} GB of memory to be read. Delete what "
        said += "stands far from the table, or save it as CSV (UTF-8)."
        _say_refused(out, said, is_short=True)


def _say_refused(out: BinaryIO, said: str, **more: bool) -> None:
    out.seek(0)
    out.truncate()
    write_words(out, {"refused": said, **more})


def limit_process(seconds: int) -> None:
    """Limit this process's memory, time from now on and what it writes, where it can be."""
    try:
        import resource
    except ImportError:  # Windows has none; time is limited by who asked
        return
    used = resource.getrusage(resource.RUSAGE_SELF)
    for name, most in (
        ("RLIMIT_AS", MOST_MEMORY),
        ("RLIMIT_CPU", int(used.ru_utime + used.ru_stime) + seconds + 2),
        ("RLIMIT_FSIZE", 2 * MOST_UNPACKED),
        ("RLIMIT_CORE", 0),
    ):
        number = getattr(resource, name, None)
        if number is None:
            continue
        _, hard = resource.getrlimit(number)
        wish = most if hard == resource.RLIM_INFINITY else min(most, hard)
        try:
            resource.setrlimit(number, (wish, hard))
        except (ValueError, OSError):  # a system that knows the limit and does not take it
            continue


def main() -> None:
    """Read the files that come in."""
    while line := sys.stdin.buffer.readline():
        asked = json.loads(line)
        limit_process(asked["seconds"])
        with open(asked["reply"], "w+b") as out:  # noqa: PTH123 - pathlib takes time to import
            read(asked["kind"], sys.stdin.buffer.read(asked["size"]), asked["sizes"], out)
        sys.stdout.buffer.write(DONE)
        sys.stdout.buffer.flush()


if __name__ == "__main__":
    main()
