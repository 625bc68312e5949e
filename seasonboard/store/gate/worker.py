"""The process that reads one file: `python -m seasonboard.store.gate.worker KIND SECONDS …`.

The file comes by standard input, what is read of it goes out by standard output.
"""

import sys
from collections.abc import Mapping
from typing import BinaryIO

from seasonboard.file_limits import MIB, MOST_MEMORY, MOST_UNPACKED
from seasonboard.store.gate.reply import RefusedFileError, write_words


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
        _say_refused(out, said + "stands far from the table, or save it as CSV (UTF-8).")


def _say_refused(out: BinaryIO, said: str) -> None:
    out.seek(0)
    out.truncate()
    write_words(out, {"refused": said})


def limit_process(seconds: int) -> None:
    """Limit this process's memory, its time and what it writes, where the system can."""
    try:
        import resource
    except ImportError:  # Windows has none; time is limited by who asked
        return
    for name, most in (
        ("RLIMIT_AS", MOST_MEMORY),
        ("RLIMIT_CPU", seconds + 2),
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
    """Read the file that comes in."""
    kind, seconds, *parts = sys.argv[1:]
    sizes = dict(part.split("=") for part in parts)
    limit_process(int(seconds))
    data = sys.stdin.buffer.read()
    out = open(sys.stdout.fileno(), "r+b", closefd=False)  # noqa: SIM115 - the stream itself
    read(kind, data, {name: int(size) for name, size in sizes.items()}, out)
    out.flush()


if __name__ == "__main__":
    main()
